package org.barmap.bench;

import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Content;

/**
 * What a person waits for at the desk in Chromium: from the address to the first bars drawn, and
 * from the key to the frame after the corrected bar is drawn.
 */
final class DeskClicks {

  private static final int MOST_VIEWS = 5;
  private static final int MOST_CLICKS = 15;

  /** First view of all, one of the next, redrawn after a key, the slowest of them. */
  private static final List<String> NAMES =
      List.of(
          "deskFirstViewMillis", "deskViewMillis", "deskRedrawnMillis", "deskRedrawnWorstMillis");

  /** Page of the book that is corrected. */
  private static final int PAGE = 70;

  private static final String CLICK =
      """
      new Promise((tell) => {
        const press = (key) => document.body.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true, cancelable: true }));
        for (const figure of "%2$d") press(figure);
        const from = performance.now();
        press("Enter");
        const look = () => document.querySelector('[data-bar="%1$s"] .pill-count')?.textContent === "%2$d"
          ? requestAnimationFrame(() => tell(performance.now() - from)) : requestAnimationFrame(look);
        look();
      })
      """;

  private DeskClicks() {}

  /**
   * Measures them; where no Chromium is installed the figures say so.
   *
   * @param cookie that lets a browser in, name and value
   * @param desk address of the desk of a book
   * @param counted clicks that are wanted at most
   */
  static void measure(
      Map<String, Object> figures, String[] cookie, String desk, BarMap map, int counted)
      throws IOException {
    Chromium.visit(
        figures,
        NAMES,
        cookie,
        desk,
        Chromium.firstDrawn(".bar-field"),
        chromium -> clicked(figures, chromium, desk, map, counted));
  }

  private static void clicked(
      Map<String, Object> figures, Chromium chromium, String desk, BarMap map, int counted)
      throws IOException {
    Bar rest =
        map.bars().stream()
            .filter(b -> b.page() == PAGE && b.content() == Content.MULTI_REST)
            .findFirst()
            .orElseThrow();
    double[] views = new double[Math.min(counted, MOST_VIEWS)];
    for (int i = 0; i < views.length; i++) {
      String address = desk + "&p=" + PAGE + "&bar=" + rest.id() + "&round=" + i;
      chromium.ask("Page.navigate", Map.of("url", address));
      views[i] = chromium.number("window.first");
    }
    double[] clicks = new double[Math.min(counted, MOST_CLICKS)];
    for (int i = 0; i < clicks.length; i++) {
      clicks[i] = chromium.number(CLICK.formatted(rest.id(), rest.count() + 20 + i));
    }
    figures.put(NAMES.get(0), Rounds.rounded(views[0]));
    figures.put(NAMES.get(1), Rounds.median(Arrays.stream(views)));
    figures.put(NAMES.get(2), Rounds.median(Arrays.stream(clicks)));
    figures.put(NAMES.get(3), Rounds.rounded(Arrays.stream(clicks).max().orElseThrow()));
  }
}
