package org.barmap.map.json;

import static org.assertj.core.api.Assertions.assertThat;

import org.barmap.map.Evidence;
import org.junit.jupiter.api.Test;

/** Maps kept on disk by earlier builds must still open. */
class OlderMapTest {

  @Test
  void aSecondReadingWithoutThePagesNumeralIsRead() {
    String old = "{\"count\": 8, \"number\": \"57\"}";
    Evidence.Second second = BarMapJson.mapper().readValue(old, Evidence.Second.class);
    assertThat(second).isEqualTo(new Evidence.Second(8, "57", 0, false));
  }
}
