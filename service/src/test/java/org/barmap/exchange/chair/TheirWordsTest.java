package org.barmap.exchange.chair;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.barmap.map.BarMap;
import org.barmap.plan.Books;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Words that name bars as the director's book does, read into the part's bars. Expectations are
 * counted by hand, "to B" is up to B (common practice): in No. 7 the director's book has three bars
 * more before A, in No. 8 two more somewhere between its beginning and B.
 */
class TheirWordsTest {
  private static final BarMap PART =
      Books.book("%7 1@mI 2 3 4@mA 5 6 7 8@mB 9 10 %8 c1@mI c2 c3 c4 c5@mB c6 c7 c8 %9 d1 d2 d3");
  private static final BarMap DIRECTOR =
      Books.book(
          "%7 1 2 3 4@mI 5 6 7@mA 8 9 10 11@mB 12 13 %8 c1@mI c2 c3 c4 c5 c6 c7@mB c8 c9 c10 %10 d1 d2");
  private static final TheirWords WORDS =
      new TheirWords(new TheirBars(TwoParts.of(PART, DIRECTOR, List.of()), "Director"), DIRECTOR);

  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      textBlock =
          """
          No. 7: cut 8 to 10    ; No. 7: cut 5 to 7 [Director 8 to 10]
          No. 7: vamp 11 to 12  ; No. 7: vamp 8 to 9, out at the end of a pass [Director 11 to 12]
          No. 7: cut A to B     ; No. 7: cut A to 7 [Director 7 to 10]
          No. 8: cut 7 to 9     ; No. 8: cut 5 to 7 [Director 7 to 9]
          """)
  void whatTheDirectorSaysInTheirBars(String said, String read) {
    assertThat(says(one(said))).contains(read);
  }

  /** A player types about their own chair as well. */
  @Test
  void aChangeOfTheChairIsTaken() {
    assertThat(says(one("No. 7: electric bass from 8")))
        .hasValueSatisfying(s -> assertThat(s).contains("5").contains("[Director 8]"));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      textBlock =
          """
          No. 8: cut 3 to 4     ; is not sure
          No. 10: cut 1 to 2    ; This part has no No. 10
          No. 7: cut 1 to 2     ; This part has no Director's bar 1
          No. 9: cut 1 to 2     ; Director
          No. 7: cut 8 to 99    ; In Director's bars
          """)
  void whatHasNoSureBarHereIsAsked(String said, String asked) {
    List<Heard<ShowChange>> heard = WORDS.understand(said);
    assertThat(heard)
        .allSatisfy(
            h ->
                assertThat(h)
                    .isInstanceOfSatisfying(
                        Heard.AskedBack.class, a -> assertThat(a.question()).contains(asked)));
  }

  /** Where both call a bar the same there is nothing to say beside it. */
  @Test
  void whatIsCalledTheSameIsNotSaidTwice() {
    TheirBars same = TheirBars.of(PART, PART);
    assertThat(same.beside("7", "5", "7")).isEmpty();
    assertThat(WORDS.their().beside("9", "1", "2")).isEmpty();
    assertThat(WORDS.their().beside("7", "5", "7")).contains("Director 8 to 10");
    assertThat(WORDS.their().beside("8", "3", "3")).contains("Director: not sure");
  }

  private static Heard<ShowChange> one(String said) {
    return WORDS.understand(said).get(0);
  }

  private static Optional<String> says(Heard<ShowChange> heard) {
    return heard instanceof Heard.Understood<ShowChange> u
        ? Optional.of(u.sentence())
        : Optional.of(((Heard.AskedBack<ShowChange>) heard).question());
  }
}
