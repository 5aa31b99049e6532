package org.barmap.plan.words;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.barmap.map.BarMap;
import org.barmap.plan.cases.BookNotation;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.words.earlier.Known;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Days, casts and turns of phrase as they are said; 3 March 2031 is a Monday. */
class DaysAndIdiomsTest {
  private static final BarMap BOOK =
      BookNotation.read(
              "#3'Ballast' 4/4 m8 @A m8 @B m8 @C m8 |] #4'Cormorant' 3/4 m16 @A m8 |] #5'Gannet' 4/4 m12")
          .map();

  private static List<Heard<ShowChange>> heard(String words, Optional<String> today) {
    return ChangeWords.understand(BOOK, words, Known.of(List.of(), today));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          Tonight only, cut 9 to 12 in three        | cut 9 to 12, until 2031-03-03
          In three cut 9 to 12 until Friday         | cut 9 to 12, until 2031-03-07
          In three cut 9 to 12 from Wednesday on    | cut 9 to 12, from 2031-03-05 on
          In three cut 9 to 12 from Friday until Wednesday | cut 9 to 12, from 2031-03-07 on, until 2031-03-12
          In three cut 9 to 12 since Friday         | cut 9 to 12, from 2031-02-28 on
          In three cut 9 to 12 since 28 February    | cut 9 to 12, from 2031-02-28 on
          No. 3: from tonight on cut 9 to 12        | cut 9 to 12, from 2031-03-03 on
          No. 3: as of today, cut 9 to 12           | cut 9 to 12, from 2031-03-03 on
          No. 3: vamp 9 to 10 until tonight         | vamp 9 to 10, out at the end of a pass, until 2031-03-03
          No. 3: vamp 9 to 10 till sun rises        | vamp 9 to 10 till sun rises, out at the end of a pass
          No. 3: tag A three times more             | play letter A to 16 four times
          From the 8th on cut 9 to 12 in three      | cut 9 to 12, from 2031-03-08 on
          From the 2nd on cut 9 to 12 in three      | cut 9 to 12, from 2031-04-02 on
          No. 3: cut 9 to 12 until 1 February       | cut 9 to 12, until 2032-02-01
          No. 3: cut 9 to 12 tomorrow only          | cut 9 to 12, from 2031-03-04 on, until 2031-03-04
          When Anna plays, cut 9 to 12 in three     | cut 9 to 12, version anna only
          On matinees we cut 9 to 12 in three       | cut 9 to 12, version matinee only
          understudy's key: down a tone in 4        | down a whole tone, version understudy only
          In three, out after 12, in at 17          | cut 13 to 16
          No. 3: lose two beats in bar 12, the last two | cut 12 beat 3 to 12 beat 4
          No. 3: cut from two before A to two before B | cut two before A to 14
          No. 3: after bar one-five go to C   | cut 16 to 24
          """)
  void whatIsSaidLeavesNothingOpen(String words, String says) {
    List<Heard<ShowChange>> heard = heard(words, Optional.of("2031-03-03"));
    assertThat(heard).hasSize(1).allMatch(h -> h instanceof Heard.Understood);
    ShowChange change = ((Heard.Understood<ShowChange>) heard.get(0)).change();
    assertThat(change.says() + change.meta().holds()).isEqualTo(says);
  }

  /** What is left out but not at matinees is out at the others. */
  @Test
  void notAtMatineesIsOutAtTheOthers() {
    assertThat(heard("No. 3: cut 9 to 12, not at matinees", Optional.empty()))
        .extracting(h -> h.reading().map(r -> r.changes().get(0)).orElseThrow())
        .extracting(c -> c.says() + c.meta().holds())
        .containsExactly("cut 9 to 12", "9 to 12 back in, version matinee only");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          In three cut 9 to 12 until Monday         | 2031-03-03
          In three cut 9 to 12 until Friday         |
          Tonight only, cut 9 to 12 in three        |
          No. 3: wait two bars before B             | 2031-03-03
          No. 3: cut from the 9th on                | 2031-03-03
          No. 3: from the 9th on we're tacet        | 2031-03-03
          No. 3: cut 9 to 12, not tonight           | 2031-03-03
          No. 3: cut 9 to 12, not until Friday      | 2031-03-03
          No. 3: either 9 to 10 or 13 to 16 is cut  | 2031-03-03
          No. 3: cut 9 to 12, and vamp it           | 2031-03-03
          No. 3: hold bar 12, not bar 16            | 2031-03-03
          After 12 in three we go either to B or to C | 2031-03-03
          """)
  void whatLeavesTwoWaysIsAsked(String words, String today) {
    assertThat(heard(words, Optional.ofNullable(today)))
        .isNotEmpty()
        .allMatch(h -> h instanceof Heard.AskedBack);
  }
}
