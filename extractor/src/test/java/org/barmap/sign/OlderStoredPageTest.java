package org.barmap.sign;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.barmap.map.Outline;
import org.barmap.map.StaffSystem;
import org.barmap.sign.kind.Folio;
import org.barmap.sign.kind.Sound;
import org.junit.jupiter.api.Test;

/** Pages read by earlier builds and kept on disk must still open. */
class OlderStoredPageTest {

  @Test
  void aPageStoredBeforeRestsInsideBarsWereReadHasNone() {
    StaffSystem staff =
        new StaffSystem(1, Outline.box(0, 100, 1000, 140), 10, Optional.empty(), 1, List.of());
    Sound rest = new Sound(20, false, Optional.of(1.0), Optional.of(1.0), 0.9);
    ReadSystem system =
        new ReadSystem(
            staff,
            100,
            (a, b) -> Outline.box(a * 10, 100, b * 10, 140),
            List.of(),
            0,
            0,
            100,
            List.of(rest));
    String now = StoredPage.write(new ReadPage(1, "page.png", 1000, 1400, List.of(system)));
    assertThat(StoredPage.read(now, 1).systems().get(0).sounds()).containsExactly(rest);
    String earlier = now.replaceFirst(",\"likely\":1.0", "");
    assertThat(earlier).isNotEqualTo(now);
    assertThat(StoredPage.read(earlier, 1).systems().get(0).sounds())
        .containsExactly(new Sound(20, false, Optional.of(1.0), Optional.empty(), 0.9));
    String old = now.replaceFirst(",\"sounds\":\\[.*?]", "");
    assertThat(old).doesNotContain("sounds").isNotEqualTo(now);
    assertThat(StoredPage.read(old, 1).systems().get(0).sounds()).isEmpty();
  }

  @Test
  void aPageStoredBeforePageNumbersWereKeptHasNone() {
    ReadPage page =
        new ReadPage(
            4, "page.png", 1000, 1400, List.of(), Optional.of(new Folio(12, 0.5)), List.of());
    String now = StoredPage.write(page);
    assertThat(StoredPage.read(now, 4).folio()).contains(new Folio(12, 0.5));
    String old = now.replaceFirst(",\"folio\":\\{.*?}", "");
    assertThat(old).doesNotContain("folio").isNotEqualTo(now);
    assertThat(StoredPage.read(old, 4))
        .isEqualTo(new ReadPage(4, "page.png", 1000, 1400, List.of()));
  }
}
