package org.barmap.plan.words;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.function.Predicate;
import org.barmap.map.BarMap;
import org.barmap.plan.Books;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * What stands beside a change and could make it mean something else is asked, and nothing follows
 * from it by itself (common practice: who isn't sure what the director means asks).
 */
class AskedAsAWholeTest {
  private static final BarMap BOOK =
      Books.book("%7 " + Books.run("", 1, 19, "") + "20@mB 21@6/8 22@mr40 62@mC@4/4 63 %8 1 2");

  // "From two before B to two before C" is none of them: as far before one mark as before the
  // other, one lands there as on the mark itself (common practice).
  @ParameterizedTest
  @ValueSource(
      strings = {
        "No. 7: watch me at 8: if she's late I'll give you 5 to 8 again",
        "No. 7: cut 13 to 16. Same in the reprise.",
        "Instead of that, cut 5 to 8 in 7",
        "No. 7: undo that",
        "No. 7: tempo a notch under 120",
        "No. 7: rest at 10, back on the second bar of B",
        "No. 7: 18 and 19 become one bar of 6/4",
        "No. 7: from B, everyone tacet but you",
        "No. 7: every second bar of B tacet",
        "No. 7: B is four bars shorter",
        "No. 7: 5, then 7, then 6, that's the order now",
        "No. 7: cut 13 to 16, and vamp the frobnicated bits of B",
        "No. 7: the piano takes the first four of B alone, you're back at 24"
      })
  void nothingFollows(String said) {
    assertAll(said, h -> h instanceof Heard.AskedBack);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "No. 7: 13 to 16 safety in case she's late",
        "No. 7: cut 13 to 16. Lighter there, please.",
        "No. 7: wrong note in 12, F sharp",
        "No. 7: kazoo at 50"
      })
  void whatIsPlainIsNotAsked(String said) {
    assertAll(said, h -> h instanceof Heard.Understood);
  }

  private static void assertAll(String said, Predicate<Heard<ShowChange>> how) {
    assertThat(ChangeWords.understand(BOOK, said)).as(said).isNotEmpty().allMatch(how);
  }
}
