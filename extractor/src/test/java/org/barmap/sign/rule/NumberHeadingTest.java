package org.barmap.sign.rule;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** How numbers are headed is common practice; titles are invented. */
class NumberHeadingTest {

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "No. 7|7.",
        "No. 7  Low Tide|7. Low Tide",
        "7. Low Tide|7. Low Tide",
        "#12 - LOW TIDE|12. LOW TIDE",
        "No. 1O - Low Tide|10. Low Tide",
        "7A - Low Tide|7A. Low Tide",
        "No. 4 A Boat for the Widow|4. A Boat for the Widow",
        "No. 4 A BOAT|4. A BOAT",
        "No. 4 A-Hunting|4. A-Hunting",
        "No. 4 A|4A.",
        "No. 4 A.|4A.",
        "No. 4 B. Low Tide|4B. Low Tide",
        "No. 4 A - Low Tide|4A. Low Tide",
        "No. 4A Low Tide|4A. Low Tide",
        "No. 4A A Boat|4A. A Boat",
        "No. 4a Low Tide|4a. Low Tide",
        "No. 4a|4a.",
        "No. 4. A Boat|4. A Boat",
        "No. 4: A Boat|4. A Boat",
        "No. 4 - A Boat|4. A Boat",
        "No. 12 E Flat Blues|12. E Flat Blues",
        "#4 A Boat|4. A Boat",
        "Nr. 14 Ebbe|14. Ebbe",
        "413. Low Tide|13. Low Tide",
        "Overture|Overture",
        "ENTR'ACTE|ENTR'ACTE",
        "Act II: Finale|Act II: Finale"
      })
  void headings(String text, String said) {
    assertThat(NumberHeading.of(text, false)).contains(said);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "Double Bass",
        "Bass 2",
        "12",
        "© 1987 Sandling Press",
        "2nd time only",
        "2 Flutes",
        "1. 2.",
        "Tempo di valse",
        "In 2",
        "Play 3 times",
        "To Coda",
        "3 al fine",
        "B. 4471",
        "Saltmarsh"
      })
  void titlesPartsAndDirectionsAreNone(String text) {
    assertThat(NumberHeading.of(text, false)).isEmpty();
  }

  @Test
  void aNumberWithoutAStopNeedsTheRightPlace() {
    assertThat(NumberHeading.of("7 Low Tide", true)).contains("7. Low Tide");
    assertThat(NumberHeading.of("7 Low Tide", false)).isEmpty();
  }
}
