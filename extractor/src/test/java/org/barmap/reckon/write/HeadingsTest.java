package org.barmap.reckon.write;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Several headings over one line of music (common practice of part books). */
class HeadingsTest {

  /** Headings from the top down, the one that names the bars, those that have none. */
  @ParameterizedTest
  @CsvSource({
    "'3. The Wading Song TACET|4. A Boat for the Widow', 4, 3",
    "'3. The Wading Song|4. A Boat for the Widow', 4, 3",
    "'3. TACET|4. TACET|5. Salt', 5, '3,4'",
    "'11A. Scene|11B. Dance', 11B, 11A",
    "'5. Overture', 5, ''",
    "'5. Salt|Overture', 5, ''",
    // of a line of players, "2. Flutes", no number follows from a larger one
    "'7. Low Tide|2. Flutes', 7, ''",
    // a figure far away is another thing
    "'7. Low Tide|1976. Hamburg', 7, ''",
    "'Overture|4 TACET', '', 4",
  })
  void theLastInOrderNamesTheBars(String read, String own, String silent) {
    List<Headings> headings = Arrays.stream(read.split("\\|")).map(Headings::of).toList();
    Headings named = Headings.ofTheBars(headings);
    assertThat(named.label()).isEqualTo(own);
    assertThat(Headings.withoutBars(headings).stream().map(Headings::label).toList())
        .isEqualTo(silent.isEmpty() ? List.of() : List.of(silent.split(",")));
  }

  /** A letter that a word follows begins the title. */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          No. 4 A Boat for the Widow | 4  | A Boat for the Widow
          4. A Boat                  | 4  | A Boat
          4 A-Hunting                | 4  | A-Hunting
          No. 7 I Will               | 7  | I Will
          No. 4 A                    | 4A | ''
          No. 4 B. Low Tide          | 4B | Low Tide
          4 A - Low Tide             | 4A | Low Tide
          4a Low Tide                | 4A | Low Tide
          12A                        | 12A | ''
          """)
  void aLetterIsTheNumbersOrTheTitles(String text, String label, String title) {
    assertThat(Headings.of(text)).isEqualTo(new Headings(label, title, false));
  }
}
