package org.barmap.plan.trap;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Where acts begin, from titles: common practice of show books. */
class ActsTest {

  @ParameterizedTest
  @CsvSource(
      quoteCharacter = '"',
      value = {
        "Overture | Tide | Gulls, 0",
        "Overture | Tide | Entr'acte | Gulls, 0 2",
        "Overture | Tide | Entr\u2019acte | Finale Ultimo | Exit Music, 0 2",
        "Overture | Finale Act One | Gulls | Finale Act Two | Bows, 0 2",
        "Overture | Act I Finale | Entr'acte | Opening Act II | Finale, 0 2",
        "Overture | Tide | Opening Act Two | Act II Scene Change, 0 2",
        "Act One Opening | Tide | Act Two Opening, 0 2",
        "A Fact to Act On | Exact Change, 0",
      })
  void anActBeginsWhereTitlesTell(String titles, String starts) {
    List<String> all = Arrays.stream(titles.split("\\|")).map(String::strip).toList();
    assertThat(Acts.starts(all).stream().map(String::valueOf).collect(Collectors.joining(" ")))
        .isEqualTo(starts);
  }
}
