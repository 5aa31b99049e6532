package org.barmap.edit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.BarMapJson;
import org.barmap.map.Barline;
import org.barmap.map.Book;
import org.barmap.map.Content;
import org.barmap.map.Finding;
import org.barmap.map.Meter;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Origin;
import org.barmap.map.Outline;
import org.barmap.map.Page;
import org.barmap.map.Point;
import org.barmap.map.Severity;
import org.barmap.map.StaffSystem;
import org.barmap.map.Stage;
import org.junit.jupiter.api.Test;

/** Single corrections on a small book: a page of two sloped systems with three bars each. */
class EditingTest {

  private static final Outline FIRST =
      new Outline(
          new Point(100, 200), new Point(1300, 260), new Point(1297, 340), new Point(97, 280));

  private final Draft draft = Draft.of(book());

  private static BarMap book() {
    Outline second =
        new Outline(
            new Point(100, 500), new Point(1300, 560), new Point(1297, 640), new Point(97, 580));
    List<Bar> bars = new ArrayList<>();
    for (int i = 0; i < 6; i++) {
      Outline system = i < 3 ? FIRST : second;
      bars.add(
          Bar.builder(
                  "b" + (i + 1),
                  1,
                  i < 3 ? 1 : 2,
                  system.slice(i % 3 / 3.0, (i % 3 + 1) / 3.0).rounded())
              .number(i < 3 ? i + 1 : i + 3)
              .count(i == 2 ? 3 : 1)
              .content(i == 2 ? Content.MULTI_REST : Content.MUSIC)
              .meter(new Meter(4, 4, i == 0))
              .confidence(0.5)
              .build());
    }
    return BarMap.of(
        new Book("Saltmarsh", "Bass"),
        List.of(
            new Page(
                1,
                "page-01.png",
                1400,
                2000,
                List.of(
                    new StaffSystem(1, FIRST, 20, Optional.of(1), 1, List.of()),
                    new StaffSystem(2, second, 20, Optional.of(6), 1, List.of())))),
        List.of(new MusicalNumber("7", "Low Tide", Optional.of("b1"), Optional.of("b6"), false)),
        bars);
  }

  private Outcome.Done done(Correction correction) {
    return done(draft, correction);
  }

  private static Outcome.Done done(Draft on, Correction correction) {
    Outcome outcome = Editing.correct(on, correction);
    assertThat(outcome).as(correction.toString()).isInstanceOf(Outcome.Done.class);
    return (Outcome.Done) outcome;
  }

  private List<String> refused(Correction correction) {
    Outcome outcome = Editing.correct(draft, correction);
    assertThat(outcome).as(correction.toString()).isInstanceOf(Outcome.Refused.class);
    return ((Outcome.Refused) outcome).reasons();
  }

  private static List<Integer> numbers(Draft draft) {
    return draft.map().bars().stream().map(Bar::number).toList();
  }

  @Test
  void aRestsCountMovesTheNumbersAfterIt() {
    assertThat(numbers(draft)).containsExactly(1, 2, 3, 6, 7, 8);
    Outcome.Done done = done(new BarCorrection.SetCount("b3", 8));
    assertThat(numbers(done.draft())).containsExactly(1, 2, 3, 11, 12, 13);
    assertThat(done.text()).isEqualTo("Rest at bar 3 of No. 7: 3 → 8");
    Bar bar = done.draft().map().bar("b3").orElseThrow();
    assertThat(bar.origin()).isEqualTo(Origin.CORRECTED);
    assertThat(bar.confidence()).isEqualTo(1);
  }

  @Test
  void aPrintedNumberThatHadToBeJumpedToStays() {
    List<Bar> bars = new ArrayList<>(draft.map().bars());
    bars.set(2, bars.get(2).toBuilder().count(1).build()); // read as 1, printed says 6 follows
    Draft misread = Draft.of(draft.map().withBars(bars));
    Outcome.Done done = done(misread, new BarCorrection.SetCount("b3", 3));
    assertThat(numbers(done.draft())).containsExactly(1, 2, 3, 6, 7, 8);
  }

  @Test
  void aNumberSetByAPersonIsAnAnchor() {
    Draft anchored = done(new BarCorrection.SetNumber("b5", 20)).draft();
    assertThat(numbers(anchored)).containsExactly(1, 2, 3, 6, 20, 21);
    Draft later = done(anchored, new BarCorrection.SetCount("b3", 8)).draft();
    assertThat(numbers(later)).containsExactly(1, 2, 3, 11, 20, 21);
  }

  @Test
  void anInsertedBarTakesTheNumberBeforeItAndTheNextCountsOn() {
    Draft named = done(new BarCorrection.SetLabel("b4", "5A")).draft();
    assertThat(numbers(named)).containsExactly(1, 2, 3, 5, 6, 7);
    assertThat(named.map().bar("b4").orElseThrow().label()).contains("5A");
  }

  @Test
  void aBarlineSplitsASlopedBarWhereItStands() {
    Outcome.Done done = done(new AddBarline(1, 1, 300, 260));
    List<Bar> bars = done.draft().map().bars();
    assertThat(bars).hasSize(7);
    Bar left = bars.get(0);
    Bar right = bars.get(1);
    assertThat(left.id()).isEqualTo("b1");
    assertThat(left.outline().rightMiddle().x()).isCloseTo(300, within(1.0));
    assertThat(left.outline().topRight()).isEqualTo(right.outline().topLeft());
    assertThat(left.outline().bottomRight()).isEqualTo(right.outline().bottomLeft());
    // on the lines: the staff falls by 60 over 1200 pixels
    assertThat(left.outline().topRight().y()).isCloseTo(210, within(0.5));
    assertThat(numbers(done.draft())).containsExactly(1, 2, 3, 4, 7, 8, 9);
    assertThat(left.meter().map(Meter::printed)).contains(true);
    assertThat(right.meter()).contains(new Meter(4, 4, false));
  }

  @Test
  void aBarlineBeforeTheFirstBarAndAfterTheLastClosesANewBar() {
    List<Bar> bars = new ArrayList<>(draft.map().bars());
    bars.remove(2);
    Draft open =
        Draft.of(
            new BarMap(
                BarMap.FORMAT,
                draft.map().book(),
                draft.map().pages(),
                draft.map().numbers(),
                bars,
                List.of()));
    Draft closed = done(open, new AddBarline(1, 1, 1297, 300)).draft();
    assertThat(closed.barsIn(1, 1)).hasSize(3);
    assertThat(closed.barsIn(1, 1).get(2).outline().leftMiddle().x()).isCloseTo(898, within(2.0));
  }

  @Test
  void aStrokeTakenForABarlineInARestGoes() {
    Draft joined = done(new RemoveBarline("b2", Side.END)).draft();
    Bar bar = joined.map().bar("b2").orElseThrow();
    assertThat(joined.map().bar("b3")).isEmpty();
    assertThat(bar.content()).isEqualTo(Content.MULTI_REST);
    assertThat(bar.count()).isEqualTo(3);
    assertThat(bar.outline().topRight()).isEqualTo(FIRST.topRight());
    assertThat(numbers(joined)).containsExactly(1, 2, 5, 6, 7);
  }

  @Test
  void aBarlineMovesForBothBarsAndNotPastTheNext() {
    Draft moved = done(new MoveBarline("b1", Side.END, 600, 265)).draft();
    assertThat(moved.map().bar("b1").orElseThrow().outline().topRight())
        .isEqualTo(moved.map().bar("b2").orElseThrow().outline().topLeft());
    assertThat(refused(new MoveBarline("b1", Side.END, 1000, 280)))
        .containsExactly("A barline can't be moved past the next one");
  }

  @Test
  void aBarlinesTypeIsSetOnBothItsSides() {
    Draft set = done(new SetBarline("b1", Side.END, Optional.of(Barline.REPEAT_START))).draft();
    assertThat(set.map().bar("b1").orElseThrow().endBarline()).isEqualTo(Barline.REPEAT_START);
    assertThat(set.map().bar("b2").orElseThrow().startBarline()).isEqualTo(Barline.REPEAT_START);
  }

  @Test
  void aMeterHoldsUntilTheNextPrintedOne() {
    Draft five = done(new MeterCorrection.SetMeter("b5", 5, 4)).draft();
    Draft three = done(five, new MeterCorrection.SetMeter("b2", 3, 4)).draft();
    assertThat(three.map().bars().stream().map(b -> b.meter().orElseThrow().beats()))
        .containsExactly(4, 3, 3, 3, 5, 5);
    Draft back = done(three, new MeterCorrection.RemoveMeter("b2")).draft();
    assertThat(back.map().bars().stream().map(b -> b.meter().orElseThrow().beats()))
        .containsExactly(4, 4, 4, 4, 5, 5);
  }

  @Test
  void aKeyHoldsUntilTheNextOneOrTheEndOfTheNumber() {
    Draft flats = done(new KeyCorrection.SetKey("b1", Optional.of(-3))).draft();
    assertThat(keys(flats)).containsExactly(-3, -3, -3, -3, -3, -3);
    Draft sharp = done(flats, new KeyCorrection.SetKey("b3", Optional.of(1))).draft();
    assertThat(keys(sharp)).containsExactly(-3, -3, 1, 1, 1, 1);
    assertThat(done(flats, new KeyCorrection.SetKey("b3", Optional.of(1))).text())
        .isEqualTo("Key at bar 3 of No. 7: 3 flats → 1 sharp");
    Draft two = done(sharp, new NumberCorrection.StartNumber("b5", "8", "Ebb")).draft();
    assertThat(keys(two)).containsExactly(-3, -3, 1, 1, 99, 99);
    Draft four = done(two, new KeyCorrection.SetKey("b2", Optional.of(-4))).draft();
    assertThat(keys(four)).containsExactly(-3, -4, 1, 1, 99, 99);
    Draft back = done(four, new KeyCorrection.RemoveKey("b3")).draft();
    assertThat(keys(back)).containsExactly(-3, -4, -4, -4, 99, 99);
    Draft one = done(back, new NumberCorrection.RemoveNumber("b5", "")).draft();
    assertThat(keys(one)).containsExactly(-3, -4, -4, -4, -4, -4);
    assertThat(refused(new KeyCorrection.SetKey("b1", Optional.of(8))))
        .containsExactly("A key has 0 to 7 sharps, or 1 to 7 flats");
  }

  /** The sharps of every bar, flats counted down, 99 where the key is not known. */
  private static List<Integer> keys(Draft draft) {
    return draft.map().bars().stream().map(b -> b.key().map(k -> k.fifths()).orElse(99)).toList();
  }

  @Test
  void aNumberThatStartsCutsTheOneItLiesIn() {
    Draft two = done(new NumberCorrection.StartNumber("b4", "8", "Ebb")).draft();
    assertThat(two.map().numbers())
        .containsExactly(
            new MusicalNumber("7", "Low Tide", Optional.of("b1"), Optional.of("b3"), false),
            new MusicalNumber("8", "Ebb", Optional.of("b4"), Optional.of("b6"), false));
    assertThat(numbers(two)).containsExactly(1, 2, 3, 1, 2, 3);
    Draft one = done(two, new NumberCorrection.RemoveNumber("b4", "")).draft();
    assertThat(one.map().numbers()).isEqualTo(draft.map().numbers());
    assertThat(numbers(one)).isEqualTo(numbers(draft));
  }

  @Test
  void anAnswerToADoubtClosesItAndUndoOpensItAgain() {
    Finding count =
        new Finding(
            Severity.DOUBT,
            Stage.RECKON,
            Optional.of(1),
            Optional.of(1),
            Optional.of("b3"),
            Optional.empty(),
            "count",
            "This rest may be 8",
            List.of(
                new Finding.Answer(
                    "It is 8", Map.of("kind", "set-count", "bar", "b3", "count", "8"))),
            3);
    Draft doubtful = Draft.of(draft.map().withFindings(List.of(count)));
    assertThat(doubtful.openFindings()).hasSize(1);
    Correction answer =
        BarMapJson.mapper().convertValue(count.answers().get(0).correction(), Correction.class);
    Outcome.Done done = done(doubtful, answer);
    assertThat(done.draft().openFindings()).isEmpty();
    assertThat(done.change().revert(done.draft()).openFindings()).hasSize(1);
    Draft dismissed =
        done(
                doubtful,
                new PageCorrection.DismissDoubt("count", Optional.of("b3"), Optional.empty()))
            .draft();
    assertThat(dismissed.openFindings()).isEmpty();
  }

  @Test
  void aVerifiedPageStaysAsItIsInALaterReading() {
    Draft verified = done(new PageCorrection.VerifyPage(1, true)).draft();
    assertThat(verified.isVerified()).isTrue();
    List<Bar> bars = new ArrayList<>(draft.map().bars());
    bars.replaceAll(b -> b.toBuilder().count(9).build());
    Draft again = Merging.read(verified, draft.map().withBars(bars));
    assertThat(again.map().bars()).isEqualTo(verified.map().bars());
  }

  @Test
  void aNewReadingTakesNothingBackAndGivesTheRest() {
    Draft corrected = done(new BarCorrection.SetCount("b3", 8)).draft();
    List<Bar> bars = new ArrayList<>(draft.map().bars());
    bars.replaceAll(b -> b.toBuilder().id("r" + b.id()).build());
    bars.set(4, bars.get(4).toBuilder().content(Content.REST).build());
    BarMap fresh =
        new BarMap(
            BarMap.FORMAT,
            draft.map().book(),
            draft.map().pages(),
            List.of(
                new MusicalNumber("7", "Low Tide", Optional.of("rb1"), Optional.of("rb6"), false)),
            bars,
            List.of());
    Draft again = Merging.read(corrected, fresh);
    assertThat(again.map().bar("b3").orElseThrow().count()).isEqualTo(8);
    assertThat(again.map().bar("b5").orElseThrow().content()).isEqualTo(Content.REST);
    assertThat(numbers(again)).containsExactly(1, 2, 3, 11, 12, 13);
  }

  @Test
  void whatDoesNotFitIsRefusedInPlainWords() {
    assertThat(refused(new BarCorrection.SetCount("zz", 3)))
        .containsExactly("There is no bar with the id \"zz\"");
    assertThat(refused(new BarCorrection.SetCount("b1", 0)).get(0)).contains("1 to 9999");
    assertThat(refused(new AddBarline(1, 1, 500, 1500)).get(0)).contains("not on system");
    assertThat(refused(new AddBarline(1, 1, 499, 265)).get(0)).contains("barline already");
    assertThat(refused(new RemoveBarline("b3", Side.END)).get(0)).contains("same system");
    assertThat(refused(new MeterCorrection.SetMeter("b1", 4, 3)).get(0)).contains("over 1, 2, 4");
  }

  @Test
  void everyKindReadsFromItsJson() {
    List<String> documents =
        List.of(
            "{'kind':'set-count','bar':'b3','count':8,'who':'Ada'}",
            "{'kind':'set-count','bar':'b3','count':'8'}",
            "{'kind':'set-content','bar':'b1','content':'rest'}",
            "{'kind':'set-rehearsal','bar':'b1','text':'A','enclosure':'box'}",
            "{'kind':'remove-rehearsal','bar':'b1'}",
            "{'kind':'set-meter','bar':'b1','beats':6,'unit':8}",
            "{'kind':'remove-meter','bar':'b1'}",
            "{'kind':'set-key','bar':'b1','fifths':-3}",
            "{'kind':'remove-key','bar':'b1'}",
            "{'kind':'set-number','bar':'b1','number':5}",
            "{'kind':'set-label','bar':'b1','label':'X1'}",
            "{'kind':'add-barline','page':1,'system':1,'x':300,'y':260}",
            "{'kind':'move-barline','bar':'b1','side':'end','x':600,'y':265}",
            "{'kind':'remove-barline','bar':'b1','side':'end'}",
            "{'kind':'set-barline','bar':'b1','side':'end','type':'repeat-end'}",
            "{'kind':'set-ending','bar':'b1','ending':[1,2]}",
            "{'kind':'set-sign','bar':'b1','sign':'segno','present':true}",
            "{'kind':'set-times','bar':'b1','times':3}",
            "{'kind':'set-words','bar':'b1','words':[{'text':'Vamp','where':'above'}]}",
            "{'kind':'start-number','bar':'b2','label':'8','title':'Ebb'}",
            "{'kind':'remove-number','bar':'b1'}",
            "{'kind':'add-tacet-number','before':'end','label':'9','title':''}",
            "{'kind':'verify-page','page':1,'verified':true}",
            "{'kind':'add-system','page':1,'outline':[[100,900],[1300,900],[1300,980],[100,980]]}",
            "{'kind':'remove-system','page':1,'system':2}");
    for (String document : documents) {
      Correction correction =
          BarMapJson.mapper().readValue(document.replace('\'', '"'), Correction.class);
      assertThat(Editing.correct(draft, correction)).as(document).isInstanceOf(Outcome.Done.class);
      String json = BarMapJson.mapper().writerFor(Correction.class).writeValueAsString(correction);
      assertThat(BarMapJson.mapper().readValue(json, Correction.class)).isEqualTo(correction);
    }
  }

  @Test
  void anEmptyCorrectionOfAnyKindIsRefusedAndNeverThrows() {
    for (String kind :
        List.of(
            "set-count",
            "set-content",
            "set-rehearsal",
            "set-meter",
            "set-key",
            "set-number",
            "add-barline",
            "move-barline",
            "remove-barline",
            "set-barline",
            "set-ending",
            "set-sign",
            "set-times",
            "set-words",
            "start-number",
            "remove-number",
            "add-tacet-number",
            "verify-page",
            "add-system",
            "remove-system",
            "dismiss-doubt",
            "set-label")) {
      Correction correction =
          BarMapJson.mapper().readValue("{\"kind\":\"" + kind + "\"}", Correction.class);
      assertThat(refused(correction)).as(kind).isNotEmpty();
    }
  }

  @Test
  void pagesTakenOutTakeTheirBarsAlong() {
    BarMap map = Made.book(5);
    Draft moved = Repaging.apply(Draft.of(map), Map.of(1, 2, 2, 1));
    assertThat(moved.map().pages()).extracting(Page::index).containsExactly(1, 2);
    assertThat(org.barmap.map.BarMapRules.check(moved.map())).isEmpty();
    assertThat(moved.map().bars()).isSortedAccordingTo(Parts.READING_ORDER);
    long kept = map.bars().stream().filter(b -> b.page() <= 2).count();
    assertThat(moved.map().bars()).hasSize((int) kept);
  }
}
