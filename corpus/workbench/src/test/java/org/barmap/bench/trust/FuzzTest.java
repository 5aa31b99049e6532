package org.barmap.bench.trust;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.List;
import java.util.Map;
import org.assertj.core.api.InstanceOfAssertFactories;
import org.junit.jupiter.api.Test;

/**
 * Broken files and requests from several senders at one service; more: {@code barmap bench fuzz}.
 */
class FuzzTest {

  private static final int CASES = Integer.getInteger("barmap.fuzz.bench", 40);

  @Test
  void aServiceOutlivesWhatSeveralSendIt() throws IOException {
    Map<String, Object> figures = Fuzz.run(CASES, 600, 1, 3, List.of());
    assertThat(figures.get("wrong")).asInstanceOf(InstanceOfAssertFactories.LIST).isEmpty();
    assertThat(figures).containsEntry("crashes", 0).containsEntry("tracesPrinted", 0L);
    assertThat((Long) figures.get("requests")).isEqualTo(figures.get("files")).isGreaterThan(CASES);
    assertThat((Integer) figures.get("routes")).isGreaterThan(80);
  }
}
