package org.barmap.fit;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** The traces of missed barlines that were measured and are kept. */
class KeptTracesTest {

  @Test
  void everyKindOfCopyHasLinesAndNoMoreTracesThanMissedOnes() {
    assertThat(Traces.left()).isNotEmpty().allMatch(p -> p > 0 && p < MeasureTraces.MISSED);
    assertThat(Traces.share()).isBetween(0.5, 1.0);
  }
}
