package org.barmap.plan;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.barmap.plan.cases.BookNotation;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.rest.LongRest;
import org.junit.jupiter.api.Test;

/** What is said of rests before they come: all that is rested up to the entrance. */
class AheadTest {

  private static Plan plan(String book) {
    return Planner.plan(
        BookNotation.read("#1 4/4 " + book).map(), new ShowChanges(List.of()), PlanSettings.USUAL);
  }

  private static List<String> pageStarts(String book) {
    return plan(book).lookAhead().stream()
        .filter(l -> l.kind().equals("page-start"))
        .map(LookAhead::text)
        .toList();
  }

  /** Common practice: a rest that is drawn in pieces is counted through to the entrance. */
  @Test
  void aRestInPiecesIsCountedWhole() {
    assertThat(pageStarts("m2 // R4 @A R4 m2"))
        .containsExactly("Page 2 starts with bar 3: 8 bars' rest");
    assertThat(pageStarts("m2 // r r2 R4 // R2 m2"))
        .containsExactly("Page 2 starts with bar 3: 9 bars' rest");
  }

  /** Common practice: nobody counts a general pause. */
  @Test
  void aGeneralPauseIsNotCounted() {
    assertThat(pageStarts("m2 // R4 'G.P.' r R4 m2"))
        .containsExactly("Page 2 starts with bar 3: 8 bars' rest (4, G.P., 4)");
    assertThat(plan("m2 R4 'G.P.' r R4 m2").rests())
        .extracting(LongRest::text)
        .containsExactly("8 bars rest, count 4 in a bar: 4, G.P., then 4.");
  }

  @Test
  void aRestInAVampWithMusicSaysSo() {
    assertThat(pageStarts("m2 // |: 'VAMP' R4 m2 :| m2"))
        .containsExactly("Page 2 starts with bar 3: 4 bars' rest (4 in vamp)");
  }
}
