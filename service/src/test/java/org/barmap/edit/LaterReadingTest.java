package org.barmap.edit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.draft.Parts;
import org.barmap.edit.kind.BarCorrection;
import org.barmap.edit.kind.Correction;
import org.barmap.edit.kind.PageCorrection;
import org.barmap.edit.merge.Merging;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Content;
import org.barmap.map.Finding;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Page;
import org.barmap.map.Severity;
import org.barmap.map.Stage;
import org.barmap.map.json.BarMapJson;
import org.junit.jupiter.api.Test;

/** What people said holds when pages are read again, and when pages go. */
class LaterReadingTest extends SmallBook {

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
    assertThat(doubtful.open()).hasSize(1);
    Correction answer =
        BarMapJson.mapper().convertValue(count.answers().get(0).correction(), Correction.class);
    Outcome.Done done = done(doubtful, answer);
    // a rest of 8 makes the line after it 11, where 6 is printed: that is asked then
    assertThat(done.draft().open()).extracting(Finding::code).containsExactly("print-differs");
    assertThat(((Outcome.Done) Editing.undo(done.draft(), done.change(), "undo")).draft().open())
        .hasSize(1);
    Draft dismissed =
        done(
                doubtful,
                new PageCorrection.DismissDoubt("count", Optional.of("b3"), Optional.empty()))
            .draft();
    assertThat(dismissed.open()).isEmpty();
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
  void pagesTakenOutTakeTheirBarsAlong() {
    BarMap map = Made.book(5);
    Draft moved = Repaging.apply(Draft.of(map), Map.of(1, 2, 2, 1));
    assertThat(moved.map().pages()).extracting(Page::index).containsExactly(1, 2);
    assertThat(org.barmap.map.rule.BarMapRules.check(moved.map())).isEmpty();
    assertThat(moved.map().bars()).isSortedAccordingTo(Parts.READING_ORDER);
    long kept = map.bars().stream().filter(b -> b.page() <= 2).count();
    assertThat(moved.map().bars()).hasSize((int) kept);
  }

  /** A checked page keeps its bars; which number is printed on it is not what was checked. */
  @Test
  void thePrintedNumberOfAPageComesWithALaterReadingAndGoesWithThePage() {
    BarMap fresh = withFolio(draft.map(), Optional.of(12));
    Draft checked = done(new PageCorrection.VerifyPage(1, true)).draft();
    for (Draft before : List.of(draft, checked)) {
      Draft read = Merging.read(before, fresh);
      assertThat(read.map().pages().get(0).folio()).contains(12);
      assertThat(Merging.read(read, fresh).map().pages().get(0).folio()).contains(12);
      Draft moved = Repaging.apply(read, Map.of(1, 2));
      assertThat(moved.map().pages())
          .extracting(Page::index, Page::folio)
          .containsExactly(tuple(2, Optional.of(12)));
    }
  }

  private static BarMap withFolio(BarMap map, Optional<Integer> folio) {
    List<Page> pages = map.pages().stream().map(p -> p.withFolio(folio)).toList();
    return new BarMap(map.format(), map.book(), pages, map.numbers(), map.bars(), map.findings());
  }
}
