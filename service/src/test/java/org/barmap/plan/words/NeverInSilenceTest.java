package org.barmap.plan.words;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.barmap.map.BarMap;
import org.barmap.plan.cases.BookNotation;
import org.barmap.plan.change.kind.Cut;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.words.earlier.Known;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * What holds in one show, ends with a section or goes backwards is no cut in every show unasked
 * (common practice); 3 March 2031 is a Monday.
 */
class NeverInSilenceTest {
  private static final BarMap BOOK =
      BookNotation.read(
              "#3'Ballast' 4/4 m8 @A m8 @B m8 @C m8 |] #4'Cormorant' 3/4 m16 @A m8 |] #5'Friday Song' 4/4 m12")
          .map();

  private static List<Heard<ShowChange>> heard(String words) {
    return ChangeWords.understand(BOOK, words, Known.of(List.of(), Optional.of("2031-03-03")));
  }

  private static List<String> ways(String words) {
    List<Heard<ShowChange>> heard = heard(words);
    assertThat(heard).hasSize(1).allMatch(h -> h instanceof Heard.AskedBack);
    return ((Heard.AskedBack<ShowChange>) heard.get(0))
        .readings().stream()
            .map(r -> r.changes().get(0))
            .map(c -> c instanceof Cut ? c.says() + c.meta().holds() : c.kind())
            .toList();
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          Saturday matinee: No. 3: cut 9 to 12   | cut 9 to 12, version matinee only, from 2031-03-08 on, until 2031-03-08; cut 9 to 12, version matinee only; cut 9 to 12
          No. 3, Saturday matinee: cut 9 to 12   | cut 9 to 12, version matinee only, from 2031-03-08 on, until 2031-03-08; cut 9 to 12, version matinee only; cut 9 to 12
          No. 3: cut 9 to 12 (Saturday matinee)  | cut 9 to 12, version matinee only, from 2031-03-08 on, until 2031-03-08; cut 9 to 12, version matinee only; cut 9 to 12
          Sat eve: No. 3: cut 9 to 12            | cut 9 to 12, version evening only, from 2031-03-08 on, until 2031-03-08; cut 9 to 12, version evening only; cut 9 to 12
          Friday: No. 3: cut 9 to 12             | cut 9 to 12, from 2031-03-07 on, until 2031-03-07; cut 9 to 12; note
          Saturday, in three cut 9 to 12         | cut 9 to 12, from 2031-03-08 on, until 2031-03-08; cut 9 to 12
          Next Friday, in three cut 9 to 12      | cut 9 to 12, from 2031-03-07 on, until 2031-03-07; cut 9 to 12, from 2031-03-14 on, until 2031-03-14; cut 9 to 12
          Tuesday and Thursday: No. 3: cut 9 to 12 | cut 9 to 12
          This weekend: No. 3: cut 9 to 12       | cut 9 to 12
          No. 3: after A go to B                 | note; cut 10 to 16
          No. 3: out at the end of A, in at B    | note; cut 10 to 16
          No. 3: out at end of A, in at B        | note; cut 10 to 16
          No. 3: from the end of A go to B       | note; cut 10 to 16
          No. 3: after A go to C                 | cut 10 to 24; cut 17 to 24
          Cut 9 to 3                             | cut 9
          No. 3: cut 9-3                         | cut 9-3
          """)
  void isAskedWithWhatItMayMean(String words, String ways) {
    assertThat(ways(words)).containsExactly(ways.split("; ", -1));
  }

  /** Every change of the line holds in the shows that are said before it. */
  @Test
  void eachChangeOfTheLineIsAsked() {
    assertThat(heard("Friday night: No. 3: cut 9 to 12, vamp 13 to 14"))
        .hasSize(2)
        .allMatch(h -> h instanceof Heard.AskedBack);
  }

  @ParameterizedTest
  @ValueSource(strings = {"Saturday matinee:", "Fri", "Sunday evening"})
  void aDayAloneIsNoNote(String words) {
    assertThat(ways(words)).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "Friday Song: cut 5 to 8",
        "No. 3: vamp 9 to 10 till \"see you Friday\"",
        "Matinees: No. 3: cut 9 to 12",
        "No. 3: cut 9 to 12 until Friday",
        "No. 3: cut 9 to 3 before C",
        "No. 3: after 12 go to B"
      })
  void whatIsClearIsNotAsked(String words) {
    assertThat(heard(words)).hasSize(1).allMatch(h -> h instanceof Heard.Understood);
  }
}
