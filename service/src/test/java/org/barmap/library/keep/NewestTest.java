package org.barmap.library.keep;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Optional;
import org.junit.jupiter.api.Test;

/** A bounded memory. */
class NewestTest {

  @Test
  void whatWasNotedLongestAgoIsForgotten() {
    Newest<Integer> newest = new Newest<>(3);
    for (int i = 0; i < 5000; i++) {
      newest.note("book" + i, i);
    }
    assertThat(newest.names()).containsExactly("book4997", "book4998", "book4999");
    newest.note("book4997", 1);
    newest.change("book4998", was -> was.map(v -> v + 1));
    newest.change("book7", was -> was);
    newest.note("new", 2);
    assertThat(newest.names()).containsExactly("book4997", "book4998", "new");
    assertThat(newest.find("book4998")).contains(4999);
    assertThat(newest.find("book4999")).isEqualTo(Optional.empty());
  }
}
