package org.barmap.plan.mark;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.Books;
import org.barmap.plan.Changes;
import org.barmap.plan.LookAhead;
import org.barmap.plan.NumberPlan;
import org.barmap.plan.Plan;
import org.barmap.plan.PlanDiff;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.RunSheet;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.ShowChanges;
import org.junit.jupiter.api.Test;

/** The fewest marks that carry the plan, and what else is said about the night. */
class PencilTest {

  @Test
  void aCutIsAPairOfBrackets() {
    assertThat(marks("1 2 3@s2 4 5", "cut 2 to 4"))
        .containsExactly("1/1 2 cut [ cut to 5", "1/2 5 land ]");
  }

  @Test
  void cutsThatTouchShareOnePairAndNothingIsWrittenInsideThem() {
    // the tempo holds on: the player lands in it (common practice, landing in force)
    assertThat(marks("1 2 3 4 5 6", "cut 2 to 3; cut 4 to 5; watch at 4; vamp 3; tempo 100 at 3"))
        .containsExactly("1/1 2 cut [ cut to 6", "1/1 6 land ]", "1/1 6 tempo \u2669 = 100");
  }

  @Test
  void whatIsLeftOfAChangeOutsideACutIsMarked() {
    assertThat(marks("1@6/8 2 3 4 5 6", "cut 2 to 3; in six from 3 to 4"))
        .containsExactly(
            "1/1 2 cut [ cut to 4", "1/1 4 land ]", "1/1 4 beats in 6", "1/1 5 beats in 2");
  }

  @Test
  void aPrintedRepeatNeedsOnlyTheWord() {
    assertThat(marks("1 |:2 3:| 4", "vamp 2 to 3")).hasSize(1);
    assertThat(marks("1 2 3 4", "vamp 2 to 3")).hasSize(2);
    assertThat(marks("1 2 3 4", "play 2 to 3 three times").get(0)).contains("3X");
  }

  /** The demo book's own changes; most of its vamps, repeats and instruments are printed. */
  @Test
  void theDemoBookNeedsFewerThanTwentyMarks() throws IOException {
    Path folder = Path.of(System.getProperty("barmap.home", ".."), "corpus", "saltmarsh");
    BarMap map = BarMapJson.read(Files.readString(folder.resolve("saltmarsh.barmap.json")));
    ShowChanges changes = ChangesJson.read(Files.readString(folder.resolve("changes.json")));
    List<PencilMark> marks = Planner.plan(map, changes, PlanSettings.USUAL).pencil();
    assertThat(marks).hasSizeLessThan(20);
    assertThat(marks)
        .extracting(m -> m.number() + "/" + m.where() + " " + m.mark())
        .contains("1/92 cut", "1/102 land", "2/11 cue", "4/1 tempo", "7/46 insert", "8/18 cue")
        .doesNotContain("2/73 instrument", "6/33 times", "8/18 vamp", "6/71 bow");
  }

  @Test
  void turnsAreMarkedOnceForAllPasses() {
    List<String> marks = marks("|:1@p1@w:q_=_120 2@se1 3@p2 4 5 6 7 8 9:| 10@rest", "");
    assertThat(marks).filteredOn(m -> m.contains(" V.S. ")).hasSize(1);
  }

  @Test
  void timeIsWrittenWhereThereIsTimeUnlessThePrintHasIt() {
    // also where the rest stands before the turn: whether the next page begins with notes can't be
    // seen (common practice: Time is written at a turn where there is time)
    assertThat(marks("1@p1@w:q_=_60 2 3@p2@rest 4", "")).containsExactly("1/1 2 Time Time");
    assertThat(marks("1@p1@w:q_=_60 2@rest 3@p2 4", "")).containsExactly("1/1 2 Time Time");
    assertThat(marks("1@p1@w:q_=_60 2@rest@w:Time 3@p2 4", "")).isEmpty();
    assertThat(marks("1@p1@w:q_=_60 2@w:V.S. 3@p2 4", "")).isEmpty();
  }

  @Test
  void aNumberThatIsNotPlayedHasOneMark() {
    assertThat(marks("%1 1 2 %2 3 4", "No. 2 is cut; No. 2: watch at 1"))
        .containsExactly("1/1 1 cut-number CUT, on to the next number");
  }

  @Test
  void theRunSheetHasTheNightInOrder() {
    BarMap map =
        Books.book(
            "%1 1@mr8@w:q_=_120 9@w:electric_bass 10@w:Segue_as_one %2 21@p2 22 %3 31@p3 32");
    Plan plan =
        Planner.plan(map, Changes.said(map, "No. 2 tacet\nNo. 3 before No. 2"), PlanSettings.USUAL);
    assertThat(plan.runSheet()).extracting(RunSheet::number).containsExactly("1", "3", "2");
    RunSheet first = plan.runSheet().get(0);
    assertThat(first.entrance()).contains("bar 9");
    assertThat(first.entranceAfter()).contains(8);
    assertThat(first.instruments()).containsExactly("electric bass");
    // The word led into No. 2; how No. 3 follows is asked.
    assertThat(first.link().word()).isEqualTo("unknown");
    assertThat(plan.findings()).anyMatch(f -> f.code().equals("link") && f.question().isPresent());
    assertThat(first.seconds()).contains(20.0);
    assertThat(plan.runSheet().get(2).state()).isEqualTo(NumberPlan.State.TACET);
  }

  @Test
  void trapsAreNamed() {
    List<LookAhead> ahead =
        Changes.plan("1@p1 2@2/4 3@4/4 4@mr20 24@p2@mB 25@6/8 26 27 28@caesura", "").lookAhead();
    assertThat(ahead)
        .extracting(a -> a.kind() + ": " + a.text())
        .contains(
            "odd-bar: One bar of 2/4 at bar 2",
            "meter: 6/8 from bar 25",
            "hold: Stop after bar 28, on at the cue",
            "entrance: Entrance at bar 24 (mark B) after 20 bars' rest",
            "page-start: Page 2 starts with bar 24 (mark B): music at once");
  }

  @Test
  void keysAreTrapsAndLandmarksAndStartTheNumber() {
    Plan plan = Changes.plan("1@k2@p1 2@mr8 10@mr4@k-3@mB 14@p2@k0 15@k-1", "2 sharps from 15");
    assertThat(plan.lookAhead())
        .extracting(a -> a.kind() + ": " + a.text())
        .contains(
            "key: Key: 3 flats from bar 10",
            "key: Key: no sharps or flats from bar 14",
            "key: Key: 2 sharps from bar 15",
            "page-start: Page 2 starts with bar 14, no sharps or flats: music at once");
    assertThat(plan.runSheet().get(0).key()).contains("2 sharps");
    assertThat(plan.rests().get(0).text()).contains("8 to B, 3 flats; the last 4 from B");
    assertThat(plan.pencil())
        .extracting(m -> m.where() + " " + m.mark() + " " + m.sign())
        .contains("15 key 2 sharps");
    assertThat(Changes.plan("1 2 3", "").runSheet().get(0).key()).isEmpty();
  }

  @Test
  void whatChangedSinceIsSaid() {
    BarMap map = Books.book("1@p1@w:q_=_120 2 3@rest 4@p2 5 6 7 8 9 10");
    Plan before = Planner.plan(map, Changes.said(map, "watch at 2"), PlanSettings.USUAL);
    Plan now = Planner.plan(map, Changes.said(map, "cut 3 to 4"), PlanSettings.USUAL);
    PlanDiff diff = PlanDiff.between(before, now);
    assertThat(diff.numbers())
        .extracting(PlanDiff.NumberChange::text)
        .containsExactly("2 bars fewer");
    assertThat(diff.turns()).hasSize(2);
    assertThat(diff.erase()).extracting(PencilMark::mark).contains("watch");
    assertThat(diff.write()).extracting(PencilMark::mark).contains("cut", "land");
    PlanDiff same = PlanDiff.between(now, now);
    assertThat(same.numbers()).isEmpty();
    assertThat(same.turns()).isEmpty();
    assertThat(same.write()).isEmpty();
    assertThat(PlanDiff.between(before, plain(map)).erase()).hasSize(1);
  }

  private static Plan plain(BarMap map) {
    return Planner.plan(map, ShowChanges.none(), PlanSettings.USUAL);
  }

  private static List<String> marks(String written, String words) {
    return Changes.plan(written, words).pencil().stream()
        .map(m -> m.page() + "/" + m.system() + " " + m.where() + " " + m.mark() + " " + m.sign())
        .toList();
  }
}
