package org.barmap.browser.pit;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.barmap.browser.Browser;
import org.barmap.browser.DemoBook;
import org.barmap.map.Bar;
import org.barmap.map.json.BarMapJson;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** On a phone the bar that was chosen is seen: neither its handles nor the panel lie on it. */
class PhoneHandlesBrowserTest {

  /** What is drawn over the chosen bar, looked at from a finger's breadth to a finger's breadth. */
  private static final String OVER =
      """
      const field = document.querySelector(`[data-bar="${arguments[0]}"] .bar-field`);
      const box = field.getBoundingClientRect();
      const over = new Set();
      const knobs = [...document.querySelectorAll(".handle-knob")].map((k) => k.getBoundingClientRect());
      if (knobs.length === 0) over.add("no handle");
      for (const k of knobs) {
        const wide = Math.min(k.right, box.right) - Math.max(k.left, box.left);
        const high = Math.min(k.bottom, box.bottom) - Math.max(k.top, box.top);
        if (wide > 1 && high > 1) over.add(`a knob covers ${wide.toFixed(0)} by ${high.toFixed(0)} of ${box.width.toFixed(0)} by ${box.height.toFixed(0)}`);
      }
      for (let i = 1; i < 10; i++) for (let j = 1; j < 4; j++) {
        const at = [box.left + (box.width * i) / 10, box.top + (box.height * j) / 4];
        const there = document.elementFromPoint(...at);
        if (!there?.closest(".stage")) over.add(`${there?.className ?? "the window's edge"} at ${at.map(Math.round)}`);
      }
      return [...over];
      """;

  @Test
  void handlesLeaveTheChosenBarInSight(@TempDir Path data) throws IOException {
    List<Bar> bars = BarMapJson.read(DemoBook.page("saltmarsh.barmap.json")).bars();
    List<Bar> some = new ArrayList<>();
    for (int page : List.of(1, 6, 9)) {
      List<Bar> narrowFirst =
          bars.stream()
              .filter(b -> b.page() == page)
              .sorted(Comparator.comparingDouble(PhoneHandlesBrowserTest::width))
              .toList();
      some.add(narrowFirst.get(0));
      some.add(narrowFirst.get(1));
      some.add(narrowFirst.get(narrowFirst.size() - 1));
      // the first of a line has a handle on either side
      some.add(bars.stream().filter(b -> b.page() == page).findFirst().orElseThrow());
    }
    try (PitBook pit = PitBook.in(data, 390, 844)) {
      Browser browser = pit.browser();
      for (Bar bar : some) {
        browser.go("/desk.html?b=%s&p=%d&bar=%s".formatted(pit.book(), bar.page(), bar.id()));
        browser.see(".bar-form[data-bar='" + bar.id() + "']");
        browser.see(".handle");
        assertThat((List<?>) browser.script(OVER, bar.id()))
            .as("page %d, bar %d", bar.page(), bar.number())
            .isEmpty();
      }
      assertThat(browser.complaints()).isEmpty();
    }
  }

  private static double width(Bar bar) {
    return bar.outline().rightMiddle().x() - bar.outline().leftMiddle().x();
  }
}
