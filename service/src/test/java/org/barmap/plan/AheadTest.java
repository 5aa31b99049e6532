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

  private static List<String> told(String words) {
    return Changes.plan("1 2 3 4@p2 5@mr4 9 10 11@fermata 12", words).lookAhead().stream()
        .filter(l -> !l.kind().equals("page-start") && !l.kind().equals("entrance"))
        .map(l -> l.kind() + " " + l.bar() + ": " + l.text())
        .toList();
  }

  /** What the show does otherwise is what a player has to know before it comes. */
  @Test
  void itKnowsWhatTheShowChanges() {
    assertThat(told("")).containsExactly("hold b11: Hold in bar 11");
    assertThat(told("cut 2 to 3")).contains("cut b1: Cut: from bar 1 straight to bar 4");
    assertThat(told("cut 1 to 3")).contains("cut b4: Begins at bar 4: all before it is cut");
    assertThat(told("cut 11 to 12")).containsExactly("cut b10: Ends after bar 10: the rest is cut");
    assertThat(told("vamp 2 to 3 until the cart stops, out any time"))
        .contains("vamp b2: Vamp 2-3 till the cart stops, out any time");
    assertThat(told("safety 10")).contains("safety b10: Safety 10 if needed");
    assertThat(told("insert 2 bars after 9 (9A)"))
        .contains("added b9: 2 bars not in the book, after bar 9: 9A, 9B");
    assertThat(told("watch at 10")).contains("said b10: Watch at 10");
    assertThat(told("in two from 9 to 10")).contains("said b9: In two from 9 to 10");
    assertThat(told("hold at 2")).contains("hold b2: Hold in bar 2");
    assertThat(told("rit. 9 to 10")).contains("said b9: Rit. 9 to 10");
  }

  /** Two cuts that touch are one way to go; what stands only in a cut is not waited for. */
  @Test
  void cutsThatTouchAreOne() {
    assertThat(told("cut 2\ncut 3\nwatch at 3"))
        .containsExactly("hold b11: Hold in bar 11", "cut b1: Cut: from bar 1 straight to bar 4");
  }
}
