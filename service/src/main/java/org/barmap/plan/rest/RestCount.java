package org.barmap.plan.rest;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.plan.order.OpenRun;
import org.barmap.plan.order.OpenStretch;
import org.barmap.plan.order.OrderOfPlay;
import org.barmap.plan.piece.PlayedPiece;

/**
 * How a player counts a rest, piece by piece: "4", "vamp 4", "8", or "2", "3x 2".
 *
 * @param parts its pieces, in order
 */
public record RestCount(List<Part> parts) {

  /**
   * One piece of it.
   *
   * @param bars bars of one time through
   * @param times how often in all; 1 where nobody knows, or once
   * @param open what holds it open
   */
  public record Part(int bars, int times, Optional<OpenStretch> open) {

    /** Returns it as it is counted: "4", "vamp 4", "3x 2". */
    public String says() {
      String counted = times > 1 ? times + "x " + bars : Integer.toString(bars);
      return open.map(o -> o.kind().word() + " " + bars).orElse(counted);
    }

    /** Returns it with what it goes on till: "vamp 4 till cue". */
    String spoken() {
      return says()
          + open.map(o -> o.till() + o.leaving().out().map(w -> " (" + w + ")").orElse(""))
              .orElse("");
    }

    private Part longer(int more) {
      return new Part(bars + more, times, open);
    }

    private boolean plain() {
      return times == 1 && open.isEmpty();
    }
  }

  /** Takes a defensive copy. */
  public RestCount {
    parts = List.copyOf(parts);
  }

  /**
   * Counts steps of a number in which the player rests.
   *
   * @param runs where its open stretches come
   * @param from index of the first step
   * @param to index of the last step
   */
  public static RestCount of(OrderOfPlay order, List<OpenRun> runs, int from, int to) {
    List<Part> parts = new ArrayList<>();
    List<PlayedPiece> steps = order.steps();
    int i = from;
    int back = back(steps, from, to);
    while (i <= to) {
      int at = i;
      Optional<OpenRun> open =
          runs.stream().filter(r -> r.first() == at && r.last() <= to).findFirst();
      if (back >= 0 && back <= i) {
        back = back(steps, i, to);
      }
      boolean repeated = back > i && steps.get(back).index() == steps.get(i).index();
      int times = repeated ? times(steps, i, back, to) : 1;
      if (open.isPresent()) {
        add(parts, bars(steps, i, open.get().last()), 1, Optional.of(open.get().open()));
        i = open.get().last() + 1;
      } else if (times > 1) {
        add(parts, bars(steps, i, back - 1), times, Optional.empty());
        i += (back - i) * times;
      } else {
        add(parts, bars(steps, i, i), 1, Optional.empty());
        i++;
      }
    }
    return new RestCount(parts);
  }

  /** Returns the first step after one at which the player goes back; -1 where there is none. */
  private static int back(List<PlayedPiece> steps, int from, int to) {
    for (int k = from + 1; k <= to; k++) {
      if (steps.get(k).index() <= steps.get(k - 1).index()) {
        return k;
      }
    }
    return -1;
  }

  /** Tells how often the steps from one to before another are played in a row. */
  private static int times(List<PlayedPiece> steps, int from, int next, int to) {
    int period = next - from;
    int times = 1;
    int k = next;
    while (k + period - 1 <= to && same(steps, from, k, period)) {
      times++;
      k += period;
    }
    return times;
  }

  private static boolean same(List<PlayedPiece> steps, int a, int b, int period) {
    for (int i = 0; i < period; i++) {
      if (steps.get(a + i).index() != steps.get(b + i).index()) {
        return false;
      }
    }
    return true;
  }

  private static int bars(List<PlayedPiece> steps, int from, int to) {
    return steps.subList(from, to + 1).stream().mapToInt(s -> s.piece().bars()).sum();
  }

  private static void add(List<Part> parts, int bars, int times, Optional<OpenStretch> open) {
    Part part = new Part(bars, times, open);
    int last = parts.size() - 1;
    if (part.plain() && last >= 0 && parts.get(last).plain()) {
      parts.set(last, parts.get(last).longer(bars));
    } else if (bars > 0) {
      parts.add(part);
    }
  }

  /** Returns what is counted, piece by piece. */
  public List<String> says() {
    return parts.stream().map(Part::says).toList();
  }

  /** Tells whether it is counted in one go. */
  public boolean plain() {
    return parts.stream().allMatch(Part::plain);
  }

  /** Returns it as one says it: "4, vamp 4 till cue, then 8". */
  String spoken() {
    StringBuilder text = new StringBuilder();
    for (int i = 0; i < parts.size(); i++) {
      boolean then = i > 0 && parts.get(i - 1).open().isPresent();
      text.append(i == 0 ? "" : then ? ", then " : ", ").append(parts.get(i).spoken());
    }
    return text.toString();
  }

  /** Returns the open stretches in it, as a length says what comes on top. */
  List<String> plus() {
    return parts.stream()
        .flatMap(p -> p.open().stream())
        .map(OpenStretch::named)
        .distinct()
        .toList();
  }
}
