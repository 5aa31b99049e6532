package org.barmap.plan.turn;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.plan.Books;
import org.barmap.plan.Changes;
import org.barmap.plan.Plan;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.page.FirstPage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Page turns. Odd pages lie on the right and are turned after (MOLA guidelines, Yale copy); a
 * usable turn is a gap without notes, a turn inside a repeat must fit entering and leaving it
 * (LilyPond notation manual, page-turn breaking).
 */
class TurnsTest {

  @Test
  void aTurnComesAfterAnOddPageAndNotInsideAnOpening() {
    List<Turn> turns = turns("1@p1 2@p2 3@p3 4@p4 5@p5");
    assertThat(turns).extracting(Turn::fromPage).containsExactly(1, 3);
    assertThat(turns).extracting(Turn::toPage).containsExactly(2, 4);
    assertThat(turns("1@p1 2@p2 3@p3", FirstPage.SINGLE_SHEETS)).hasSize(2);
    assertThat(turns("1@p1 2@p2 3@p3", FirstPage.LEFT))
        .extracting(Turn::fromPage)
        .containsExactly(2);
  }

  /** Without a tempo, and at a stop, nobody knows the time; many bars are enough in any tempo. */
  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      textBlock =
          """
          1@w:q_=_60 2@rest 3@p2          ; 1 ; 4 ; 4.0 ; time
          1@w:q_=_60 2@p2@rest 3          ; 1 ; 4 ; 4.0 ; time
          1@w:q_=_60 2@rest 3@p2@ss2 4    ; 1 ; 6 ; 6.0 ; time
          1@w:q_=_120 2@se2 3@p2@ss1 4    ; 0 ; 3 ; 1.5 ; quick
          1@w:q_=_120 2@se1 3@p2 4        ; 0 ; 1 ; 0.5 ; none
          1@w:q_=_120 2 3@p2 4            ; 0 ; 0 ; 0.0 ; none
          1 2@rest 3@p2 4                 ; 1 ; 4 ; -1  ; unknown
          1 2@mr2 4@p2 5                  ; 2 ; 8 ; -1  ; unknown
          1 2@mr20 22@p2 23               ; 20; 80; -1  ; time
          1 2@se1 3@p2                    ; 0 ; 1 ; -1  ; unknown
          1@w:q_=_120 2@caesura 3@p2      ; 0 ; 0 ; 0.0 ; unknown
          """)
  void theGapIsWhatIsSilentOnBothSides(
      String written, int bars, double beats, double seconds, String verdict) {
    Turn turn = turns(written).get(0);
    assertThat(turn.gap().bars()).isEqualTo(bars);
    assertThat(turn.gap().beats()).contains(beats);
    assertThat(turn.gap().seconds().orElse(-1.0)).isEqualTo(seconds);
    assertThat(turn.verdict().word()).isEqualTo(verdict);
  }

  /** Beats without notes count as free on their own side; common practice. */
  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      textBlock =
          """
          1 2@se2 3@p2@ss1 4        ; 2 beats free before, 1 after
          1 2@se1 3@p2 4            ; 1 beat free before, none after
          1 2 3@p2@ss1.5 4          ; nothing free before, 1.5 beats after
          1 2@rest 3@p2@ss2 4       ; 4 beats free before, 2 after
          1 2@6/8@se3 3@p2@ss3 4    ; 1 beat free before, 1 after
          1 2 3@p2 4                ; ''
          """)
  void theWordsSayOnWhichSideThePlayerIsFree(String written, String words) {
    assertThat(turns(written).get(0).free().orElse("")).isEqualTo(words);
  }

  @Test
  void freeBeatsMakeATurnThatNotesUpToThePageWouldNot() {
    assertThat(turns("1@w:q_=_60 2 3@p2 4").get(0).advice().get(0).kind())
        .isNotEqualTo(Advice.Kind.TURN_HERE);
    Turn free = turns("1@w:q_=_60 2@se2 3@p2@ss2 4").get(0);
    assertThat(free.verdict()).isEqualTo(Verdict.TIME);
    assertThat(free.advice().get(0).kind()).isEqualTo(Advice.Kind.TURN_HERE);
  }

  @Test
  void everyPassHasItsTurnsForwardAndBack() {
    List<Turn> turns = turns("1@p1@w:q_=_60 |:2@rest 3@p2 4:| 5@rest 6@p3@segno 7@p4@ds");
    assertThat(turns)
        .extracting(t -> t.leaves() + ">" + t.arrives() + " " + t.direction() + " " + t.pass())
        .containsExactly(
            "b2>b3 FORWARD 1",
            "b4>b2 BACK 1",
            "b2>b3 FORWARD 2",
            "b6>b7 FORWARD 1",
            "b7>b6 BACK 1",
            "b6>b7 FORWARD 2");
  }

  /** The leaf that is turned back lies on the left of an opening; common practice. */
  @Test
  void aTurnBackSaysWhichHandReachesTheLeaf() {
    List<Turn> turns = turns("1@p1@w:q_=_60 |:2@rest 3 4 5 6 7 8@rest 9@p2 10 11 12 13:| 14");
    assertThat(turns.stream().map(Turn::direction))
        .containsExactly(Turn.Direction.FORWARD, Turn.Direction.BACK, Turn.Direction.FORWARD);
    for (Turn turn : turns) {
      String said = turn.advice().get(0).text();
      boolean back = turn.direction() == Turn.Direction.BACK;
      assertThat(said.contains("left hand")).as(turn.leaves() + ": " + said).isEqualTo(back);
    }
  }

  /** Where nothing is turned no hand is needed: the page that is gone back to has rests only. */
  @Test
  void whoeverStaysOnThePageNeedsNoHand() {
    Turn back =
        turns("1@p1@w:q_=_60 |:2@rest 3@p2 4:| 5@rest 6").stream()
            .filter(t -> t.direction() == Turn.Direction.BACK)
            .findFirst()
            .orElseThrow();
    assertThat(back.advice().get(0).kind()).isEqualTo(Advice.Kind.STAY);
    assertThat(back.advice().get(0).text()).doesNotContain("left hand");
  }

  @Test
  void aCutOverPagesTurnsSeveralLeavesAtOnce() {
    Turn turn =
        plan("1@p1@w:q_=_60 2@rest 3@p2 4@p4 5@p6 6", Changes.cut("3", "5"), TurnSettings.USUAL)
            .turns()
            .get(0);
    assertThat(turn.leaves() + ">" + turn.arrives()).isEqualTo("b2>b6");
    assertThat(turn.sheets()).isEqualTo(3);
    assertThat(turn.verdict()).isEqualTo(Verdict.TIME);
    Turn quick =
        plan("1@p1@w:q_=_120 2@rest 3@p2 4@p4 5@p6 6", Changes.cut("3", "5"), TurnSettings.USUAL)
            .turns()
            .get(0);
    assertThat(quick.verdict()).isEqualTo(Verdict.QUICK);
  }

  @Test
  void adviceIsTheCheapestWayFirst() {
    Turn early = turns("1@p1@w:q_=_120 2@rest 3 4@p2 5 6 7 8 9").get(0);
    assertThat(early.advice().get(0).kind()).isEqualTo(Advice.Kind.TURN_EARLY);
    assertThat(early.advice().get(0).memorise()).contains(1);
    assertThat(early.advice().get(0).after()).contains("b2");
    Turn late = turns("1@p1@w:q_=_120 2 3 4@p2 5 6@rest 7").get(0);
    assertThat(late.advice().get(0).kind()).isEqualTo(Advice.Kind.TURN_LATE);
    assertThat(late.advice().get(0).memorise()).contains(2);
    Turn written = turns("1@p1@w:q_=_120 2 3 4@p2 5 6 7 8 9 10@mr2 12").get(0);
    assertThat(written.advice().get(0).kind()).isEqualTo(Advice.Kind.WRITE_OUT);
    assertThat(written.advice().get(0).bars()).contains(6);
    assertThat(written.advice().get(0).text()).contains("hire agreement");
    Turn folded =
        turns(
                "1@p1@w:q_=_120 "
                    + Books.run("", 2, 20, "")
                    + "21@p2 "
                    + Books.run("", 22, 40, "")
                    + "41@mr4 45")
            .get(0);
    assertThat(folded.advice().get(0).kind()).isEqualTo(Advice.Kind.FOLD_OUT);
    assertThat(folded.advice().get(0).text()).contains("hire agreement");
    Turn none = turns("1@p1@w:q_=_120 " + Books.run("", 2, 20, "") + "21@p2 22").get(0);
    assertThat(none.advice().get(0).kind()).isEqualTo(Advice.Kind.LEAVE_OUT);
    assertThat(none.mark()).contains(TurnMark.VS);
    assertThat(none.next()).containsExactly("b21", "b22");
  }

  /**
   * A line that begins with the rest in which the page is turned needs no copy (common practice).
   */
  @Test
  void aFoldOutEndsWithTheLastLineThatHasNotes() {
    String notes = "1@p1@w:q_=_120 " + Books.run("", 2, 20, "");
    String lines = "21@p2@s1 " + Books.run("", 22, 28, "") + "29@s2 " + Books.run("", 30, 35, "");
    assertThat(foldOut(notes + lines + "36@s3@mr4 40")).contains("the next 2 systems, 15 bars");
    assertThat(foldOut(notes + lines + "36@mr4 40@s3")).contains("the next 2 systems, 15 bars");
    assertThat(foldOut(notes + lines + "36@s3 37@mr4 41")).contains("the next 3 systems, 16 bars");
  }

  /** Common practice: who writes bars out needs them as they are played. */
  @Test
  void barsAreNamedInTheOrderTheyArePlayed() {
    String notes = "1@p1@w:q_=_120 " + Books.run("", 2, 20, "");
    assertThat(foldOut(notes + "|:21@p2 22 23:| 24@mr4 28"))
        .contains("6 bars (21 to 23, then 21 to 23)");
    assertThat(foldOut(notes.replace("120", "300") + "21@p2 22@rest 23 24@mr4 28"))
        .contains("2 bars (21, a bar rest, 23)");
  }

  private static String foldOut(String written) {
    return turns(written).get(0).advice().stream()
        .filter(a -> a.kind() == Advice.Kind.FOLD_OUT)
        .findFirst()
        .orElseThrow()
        .text();
  }

  /** The bars that are named are those that are counted; a rest that ends the page is told too. */
  @Test
  void aRestThatEndsThePageIsSaidAfterTheBarsThatArePlayedFromMemory() {
    List<Advice> ways = turns("1@p1@w:q_=_120@mr4 5 6 7@mr8 15@p2 16").get(0).advice();
    assertThat(ways)
        .extracting(Advice::says)
        .anyMatch(s -> s.endsWith("and play 2 bars (5 to 6) and 8 bars rest from memory."))
        .anyMatch(s -> s.startsWith("Write 2 bars (5 to 6) and 8 bars rest out on a slip"));
  }

  /** To stay saves both turns: where it asks for as much memory, nothing is turned. */
  @Test
  void stayingIsChosenOverTurningThereAndBackForTheSameBarsFromMemory() {
    List<Turn> turns =
        Changes.plan(
                "|:1@p1@w:q_=_120 2 3 4 5 6 7 8 9@p2 10 11 12:| 13 14", "tacet 5 to 8 first time")
            .turns();
    assertThat(turns)
        .extracting(t -> t.advice().get(0).kind())
        .containsExactly(Advice.Kind.STAY, Advice.Kind.STAY, Advice.Kind.LEAVE_OUT);
    // bars 9 to 12 of the first pass are on the page the third turn comes to: nobody writes them
    // out
    assertThat(turns.get(2).advice()).extracting(Advice::says).noneMatch(s -> s.contains("9 to 8"));
  }

  @Test
  void aChangeOfInstrumentInTheSameGapIsSaid() {
    Turn turn = turns("1@p1@w:q_=_60 2@rest 3@p2@rest@w:electric_bass 4 5@w:flute 6").get(0);
    assertThat(turn.alsoHere()).containsExactly("instrument: electric bass");
    assertThat(turns("1@p1 2@rest 3@p2@rest 4 5@w:flute").get(0).alsoHere()).isEmpty();
  }

  @Test
  void aPlayerWhoTrustsNothingToMemoryGetsNoSuchAdvice() {
    TurnSettings none = new TurnSettings(Optional.of(FirstPage.RIGHT), Map.of(), 2, 1, 0);
    Turn turn = plan("1@p1@w:q_=_120 2@rest 3 4@p2 5 6 7", ShowChanges.none(), none).turns().get(0);
    assertThat(turn.advice()).noneMatch(a -> a.memorise().isPresent());
  }

  /** Nothing said between two numbers is unknown, not a pause; a cue comes when it comes. */
  @Test
  void betweenNumbersTheTimeIsWhatIsSaidOfIt() {
    Turn unsaid = turns("%1 1@p1@w:q_=_120 2 %2 3@p2 4").get(0);
    assertThat(unsaid.verdict()).isEqualTo(Verdict.UNKNOWN);
    assertThat(unsaid.because()).isPresent();
    assertThat(unsaid.mark()).isEmpty();
    Turn onCue = turns("%1 1@p1@w:q_=_120 2@w:Segue %2 3@p2 4").get(0);
    assertThat(onCue.verdict()).isEqualTo(Verdict.UNKNOWN);
    assertThat(onCue.mark()).contains(TurnMark.VS);
    Turn joined = turns("%1 1@p1@w:q_=_120 2@w:attacca %2 3@p2 4").get(0);
    assertThat(joined.verdict()).isEqualTo(Verdict.NONE);
    assertThat(joined.nextNumber()).contains("2");
    String across = "%1 1@p1@w:q_=_120 2@w:attacca %2 3@p1 %3 4@p2 5";
    assertThat(Changes.plan(across, "No. 2 tacet").turns().get(0).verdict())
        .isEqualTo(Verdict.TIME);
    // The attacca led into a number that is out: how No. 3 follows is asked.
    assertThat(Changes.plan(across, "No. 2 is cut").turns().get(0).verdict())
        .isEqualTo(Verdict.UNKNOWN);
  }

  @Test
  void aChangeSaysHowLongItTakesUntilTheNextNumber() {
    String book = "%1 1@p1@w:q_=_120 2 %2 3@p2 4";
    Turn applause = Changes.plan(book, "No. 1: applause, 8 s").turns().get(0);
    assertThat(applause.gap().seconds()).contains(8.0);
    assertThat(applause.verdict()).isEqualTo(Verdict.TIME);
    Turn soon = Changes.plan(book, "No. 1: segue, 1.5 s, on the doorbell").turns().get(0);
    assertThat(soon.verdict()).isEqualTo(Verdict.QUICK);
    assertThat(soon.advice().get(0).text()).contains("the doorbell");
    assertThat(Changes.plan(book, "No. 1: attacca").turns().get(0).verdict())
        .isEqualTo(Verdict.NONE);
    assertThat(Changes.plan(book, "No. 1: no segue").turns().get(0).verdict())
        .isEqualTo(Verdict.TIME);
  }

  private static List<Turn> turns(String written) {
    return turns(written, FirstPage.RIGHT);
  }

  private static List<Turn> turns(String written, FirstPage first) {
    return plan(
            written, ShowChanges.none(), new TurnSettings(Optional.of(first), Map.of(), 2, 1, 4))
        .turns();
  }

  private static Plan plan(String written, ShowChanges changes, TurnSettings settings) {
    return Planner.plan(Books.book(written), changes, PlanSettings.USUAL.withTurns(settings));
  }
}
