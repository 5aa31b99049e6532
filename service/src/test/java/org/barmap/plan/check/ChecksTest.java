package org.barmap.plan.check;

import static org.assertj.core.api.Assertions.assertThat;

import org.barmap.plan.Books;
import org.barmap.plan.Changes;
import org.barmap.plan.Plan;
import org.barmap.plan.change.PlanFinding;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What follows from a change, said before it is played. */
class ChecksTest {

  @ParameterizedTest
  @CsvSource(
      delimiter = '~',
      textBlock =
          """
          1 |:2 3 4:| 5              ~ cut 4 to 5 ~ cut-repeat ~ played once
          1 |:2 3 4:| 5              ~ cut 1 to 2 ~ cut-repeat ~ goes back to bar 3
          |:1 2/1 3/1:| 4/2 5        ~ cut 3 to 4 ~ cut-in-ending ~ first ending
          1 2@segno 3 4@ds           ~ cut 2 ~ cut-segno ~ back to the first bar that is left, bar 3
          1 2@to 3@dc 4@coda 5       ~ cut 4 ~ cut-coda ~ land after the cut, at bar 5
          1 2@to 3@dc 4@coda 5       ~ cut 2 ~ cut-to-coda ~ never jump
          1 2@fine 3@dc              ~ cut 2 ~ cut-fine ~ to the end
          1 2 3@dc 4                 ~ cut 3 ~ cut-jump ~ don't go back
          1 2 3@6/8 4                ~ cut 2 to 3 ~ cut-meter ~ You land in 6/8, coming from 4/4; the signature lies inside the cut
          1@k1 2 3@k-3 4             ~ cut 2 to 3 ~ cut-key ~ You land in 3 flats, coming from 1 sharp; the signature lies inside the cut, write it at bar 4
          1@k1 2 3@k-3 4 5           ~ cut 2 ~ cut-key ~ You land in 3 flats, coming from 1 sharp.
          1@k1 2 3@k-3 4@s2 5        ~ cut 2 to 3 ~ cut-key ~ You land in 3 flats, coming from 1 sharp.
          1@k1 2 3 4                 ~ 2 flats from 2; no sharps or flats from 2 ~ contradiction ~ two keys
          1 2 3@w:To_Electric_Bass 4 ~ cut 2 to 3 ~ cut-instrument ~ You land on electric bass, coming from double bass
          1@p1 2 3@p2 4              ~ cut 2 to 3 ~ cut-turn ~ straight to page 2
          1@p1 2 3@p2 4@p4 5@p6 6    ~ cut 2 to 5 ~ cut-pages ~ 3 leaves at once
          1@p2 2 3@p3 4              ~ cut 2 to 3 ~ cut-across ~ across the opening
          1 2 3                      ~ cut 2 to 3 ~ cut-to-end ~ next number
          1 2 3                      ~ cut 1 to 2 ~ cut-from-start ~ starts at bar 3
          1 2 3                      ~ cut 1 to 3 ~ cut-all ~ cut the number instead
          1 2 3 4                    ~ cut 2 beat 3 to 3 beat 1 ~ cut-odd-bar ~ 5 beats are left
          1 2 3 4                    ~ cut 2 to 3; vamp 2 to 3 ~ no-effect ~ so the vamp does nothing
          1 2 3 4                    ~ cut 2 to 3; vamp 3 to 4 ~ vamp-cut ~ are cut; it goes round what is left
          1 2 3 4                    ~ vamp 2 to 3; play 2 to 3 twice ~ contradiction ~ already in a vamp
          1 2 3 4                    ~ tempo 100 at 2; tempo 120 at 2 ~ contradiction ~ two tempi
          1 2 3 4                    ~ in two from 1 to 3; in four from 2 to 4 ~ contradiction ~ in 2 and in 4
          1 2 3 4                    ~ cut 2 to 3; cut 3 to 4 ~ overlap ~ two cuts
          1 2 3 4                    ~ tacet; cut 2 ~ no-effect ~ is tacet
          1 |:2 3:| 4                ~ vamp 3 to 4 ~ crosses-repeat ~ begins inside a repeat
          1@p1 2 3@p2 4              ~ vamp 2 to 3 ~ open-turn ~ turn back for every pass
          """)
  void theConsequenceIsSaid(String written, String said, String code, String text) {
    Plan plan = Changes.plan(written, said);
    assertThat(plan.findings())
        .as(plan.findings().toString())
        .anyMatch(f -> f.code().equals(code) && f.text().contains(text) && f.change().isPresent());
  }

  @Test
  void aPrintedVampOverATurnIsNamedToo() {
    assertThat(Changes.plan("1@p1 |:2@w:Vamp 3:|@p2 4", "").findings())
        .extracting(PlanFinding::code)
        .containsExactly("open-turn", "first-page"); // nobody said how the pages lie
  }

  @Test
  void aCutThatHurtsNothingSaysNothing() {
    assertThat(Changes.plan("1 2 3 4 5", "cut 2 to 3").findings()).isEmpty();
    assertThat(Changes.plan("1@k1 2 3 4@k0 5@k1 6", "cut 3 to 4").findings()).isEmpty();
    assertThat(Changes.plan("1 2 3@k-3 4", "cut 2").findings()).isEmpty(); // unknown before
    Plan inside = Changes.plan("1 |:2 3 4 5:| 6", "cut 3 to 4");
    assertThat(inside.findings()).isEmpty();
    assertThat(Books.order(inside)).isEqualTo("1 2 5 2 5 6");
  }
}
