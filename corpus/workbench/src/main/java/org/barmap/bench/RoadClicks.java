package org.barmap.bench;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/**
 * What a person waits for at the road map in Chromium: from the address to the first form drawn; a
 * director's list that is pasted, until it says what was understood, and from its acceptance to the
 * frame after its changes are drawn; and from taking it back to the frame after that. What the page
 * itself works in that time stands beside each.
 */
final class RoadClicks {

  private static final int MOST_VIEWS = 5;
  private static final int MOST_LISTS = 7;

  private static final List<String> NAMES =
      List.of("roadFirstViewMillis", "roadReadMillis", "roadAcceptedMillis", "roadTakenBackMillis");

  /** Does something and waits for a frame in which something holds, and for the one after it. */
  private static final String STEP =
      """
      new Promise((tell) => {
        const from = performance.now();
        %s;
        const look = () => %s ? requestAnimationFrame(() => tell(performance.now() - from)) : requestAnimationFrame(look);
        look();
      })
      """;

  private RoadClicks() {}

  /**
   * Measures them; where no Chromium is installed the figures say so.
   *
   * @param cookie that lets a browser in, name and value
   * @param road address of the road map of a book
   * @param lines how many lines are pasted, one for each of the first numbers
   * @param counted how often, at the most
   */
  static void measure(
      Map<String, Object> figures, String[] cookie, String road, int lines, int counted)
      throws IOException {
    Chromium.visit(
        figures,
        NAMES,
        cookie,
        road,
        Chromium.firstDrawn(".form-bar"),
        chromium -> clicked(figures, chromium, road, lines, counted));
  }

  private static void clicked(
      Map<String, Object> figures, Chromium chromium, String road, int lines, int counted)
      throws IOException {
    chromium.ask("Performance.enable", Map.of());
    Steps steps = new Steps(chromium);
    for (int i = 0; i < Math.min(counted, MOST_VIEWS); i++) {
      chromium.ask("Page.navigate", Map.of("url", road + "&round=" + i));
      steps.timed(NAMES.get(0), "window.first");
    }
    for (int i = 0; i < Math.min(counted, MOST_LISTS); i++) {
      steps.timed(
          NAMES.get(1),
          STEP.formatted(
              "document.querySelector('#change-words').value = `"
                  + list(lines, i)
                  + "`; document.querySelector('#read-words').click()",
              "document.querySelector('#accept-words')"));
      steps.timed(
          NAMES.get(2),
          STEP.formatted(
              "document.querySelector('#accept-words').click()",
              "document.querySelectorAll('.change').length === " + lines));
      chromium.number(STEP.formatted("", "!document.querySelector('#undo-change').disabled"));
      steps.timed(
          NAMES.get(3),
          STEP.formatted(
              "document.querySelector('#undo-change').click()",
              "document.querySelectorAll('.change').length === 0"));
    }
    steps.put(figures);
  }

  /** A cut in each of the first numbers. */
  private static String list(int lines, int round) {
    return IntStream.rangeClosed(1, lines)
        .mapToObj(n -> "No. " + n + ": cut " + (4 + n + round) + " to " + (7 + n + round))
        .collect(Collectors.joining("\n"));
  }

  /** Times of steps, and how much of each the page worked. */
  private static final class Steps {
    private final Chromium chromium;
    private final Map<String, List<double[]>> taken = new LinkedHashMap<>();

    Steps(Chromium chromium) {
      this.chromium = chromium;
    }

    void timed(String name, String script) throws IOException {
      double before = chromium.worked();
      double millis = chromium.number(script);
      double worked = chromium.worked() - before;
      taken.computeIfAbsent(name, n -> new ArrayList<>()).add(new double[] {millis, worked});
    }

    void put(Map<String, Object> figures) {
      taken.forEach(
          (name, all) -> {
            figures.put(name, Rounds.median(all.stream().mapToDouble(one -> one[0])));
            figures.put(
                name.replace("Millis", "PageMillis"),
                Rounds.median(all.stream().mapToDouble(one -> one[1])));
          });
    }
  }
}
