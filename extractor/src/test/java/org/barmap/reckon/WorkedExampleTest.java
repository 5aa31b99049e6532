package org.barmap.reckon;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.Finding;
import org.barmap.map.Outline;
import org.barmap.map.StaffSystem;
import org.barmap.sign.ReadPage;
import org.barmap.sign.ReadSystem;
import org.barmap.sign.Reading;
import org.barmap.sign.Sign;
import org.barmap.sign.SignKind;
import org.junit.jupiter.api.Test;

/** The settled misreading that DEVELOPERS.md tells step by step; the numbers are invented. */
class WorkedExampleTest {

  @Test
  void aRestReadAsThreeIsEightBecauseTheNextLineBeginsAtSeventy() {
    List<Sign> first = new ArrayList<>();
    first.add(sign(SignKind.BAR_NUMBER, 1, new Reading("57", 0.97)));
    for (double at : new double[] {25, 45, 65}) {
      first.add(sign(SignKind.BARLINE, at, new Reading("single", 1)));
    }
    first.add(sign(SignKind.MULTI_REST, 75));
    first.add(sign(SignKind.COUNT, 75, new Reading("3", 0.55), new Reading("8", 0.40)));
    first.add(sign(SignKind.BARLINE, 85, new Reading("single", 1)));
    first.add(sign(SignKind.BARLINE, 100, new Reading("single", 1)));
    first.add(sign(SignKind.REST, 92));
    List<Sign> second = new ArrayList<>();
    second.add(sign(SignKind.BAR_NUMBER, 1, new Reading("69", 0.95)));
    second.add(sign(SignKind.BARLINE, 100, new Reading("single", 1)));

    ReadPage page =
        new ReadPage(1, "page.png", 1000, 1000, List.of(system(1, first), system(2, second)));
    BarMap map = new Reckoner().reckon(new Book("Saltmarsh", "Bass"), List.of(page));

    assertThat(map.bars()).extracting(Bar::number).containsExactly(57, 58, 59, 60, 68, 69);
    assertThat(map.bars().get(3).count()).isEqualTo(8);
    Finding finding = map.findings().get(0);
    assertThat(finding.code()).isEqualTo("count-settled");
    assertThat(finding.text()).contains("looks like 3").contains("ask for 8");
    assertThat(finding.answers())
        .extracting(Finding.Answer::label)
        .containsExactly("This rest is 8", "This rest is 3");
  }

  private static Sign sign(SignKind kind, double at, Reading... readings) {
    return new Sign(
        kind, at - 0.5, at + 0.5, -2, 2, Outline.box(at, 0, at, 40), 0.99, List.of(readings));
  }

  private static ReadSystem system(int index, List<Sign> signs) {
    StaffSystem staff =
        new StaffSystem(index, Outline.box(0, 0, 1000, 40), 10, Optional.empty(), 1, List.of());
    return new ReadSystem(staff, 100, (from, to) -> Outline.box(from * 10, 0, to * 10, 40), signs);
  }
}
