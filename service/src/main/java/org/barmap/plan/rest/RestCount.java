package org.barmap.plan.rest;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Navigation;
import org.barmap.plan.order.OpenRun;
import org.barmap.plan.order.OpenStretch;
import org.barmap.plan.order.OrderOfPlay;
import org.barmap.plan.pace.Holds;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.PlayedPiece;

/**
 * How a player counts a rest, piece by piece: "4", "vamp 4", "8", or "2", "3x 2". A stop is counted
 * by nobody: "4", "G.P.", "4". Bars of a vamp that has music as well are rested every time round:
 * "4", "2 in vamp".
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
   * @param some it is only some of what is held open; in the rest of that the player has notes
   * @param stop a general pause or a hold, of no length anybody knows; it has no bars to count
   */
  public record Part(
      int bars, int times, Optional<OpenStretch> open, boolean some, Optional<String> stop) {

    private static Part counted(int bars, int times) {
      return new Part(bars, times, Optional.empty(), false, Optional.empty());
    }

    private static Part open(int bars, OpenStretch stretch, boolean some) {
      return new Part(bars, 1, Optional.of(stretch), some, Optional.empty());
    }

    private static Part stop(String says) {
      return new Part(0, 1, Optional.empty(), false, Optional.of(says));
    }

    /** Returns it as it is counted: "4", "vamp 4", "2 in vamp", "3x 2", "G.P.". */
    public String says() {
      String counted = times > 1 ? times + "x " + bars : Integer.toString(bars);
      return stop.orElseGet(
          () -> open.map(o -> of(o.kind().word(), Integer.toString(bars))).orElse(counted));
    }

    private String of(String kind, String count) {
      return some ? count + " in " + kind : kind + " " + count;
    }

    /** Returns it with what it goes on till: "vamp 4 till cue". */
    String spoken() {
      return some
          ? bars + " in the " + open.map(OpenStretch::says).orElse("")
          : says()
              + open.map(o -> o.till() + o.leaving().out().map(w -> " (" + w + ")").orElse(""))
                  .orElse("");
    }

    private Part longer(int more) {
      return counted(bars + more, times);
    }

    private boolean plain() {
      return times == 1 && open.isEmpty() && stop.isEmpty();
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
    int run = 0;
    int back = back(steps, from, to);
    while (i <= to) {
      while (run < runs.size() && runs.get(run).last() < i) {
        run++;
      }
      boolean open = run < runs.size() && runs.get(run).first() <= i;
      if (back >= 0 && back <= i) {
        back = back(steps, i, to);
      }
      // what is held open in one of the times only ends what is counted alike
      int free = run < runs.size() && !open ? Math.min(to, runs.get(run).first() - 1) : to;
      boolean repeated = back > i && steps.get(back).index() == steps.get(i).index();
      int times = repeated && stops(steps, i, back - 1).isEmpty() ? times(steps, i, back, free) : 1;
      if (open) {
        OpenRun held = runs.get(run);
        int end = Math.min(to, held.last());
        boolean some = end < held.last() || held.first() < i;
        add(parts, Part.open(bars(steps, i, end), held.open(), some));
        i = end + 1;
      } else if (times > 1) {
        add(parts, Part.counted(bars(steps, i, back - 1), times));
        i += (back - i) * times;
      } else {
        add(parts, Part.counted(bars(steps, i, i), 1));
        stops(steps, i, i).forEach(s -> add(parts, Part.stop(s)));
        i++;
      }
    }
    return new RestCount(parts);
  }

  /** Returns where the music stops among steps, as a player writes it. */
  private static List<String> stops(List<PlayedPiece> steps, int from, int to) {
    return steps.subList(from, to + 1).stream()
        .map(PlayedPiece::piece)
        .filter(Holds::holds)
        .map(p -> Holds.isPause(p) || p.bar().has(Navigation.CAESURA) ? "G.P." : "hold")
        .toList();
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

  /** Returns how many bars are counted; a bar of general pause is not. */
  private static int bars(List<PlayedPiece> steps, int from, int to) {
    return steps.subList(from, to + 1).stream().mapToInt(s -> bars(s.piece())).sum();
  }

  /** Returns how many bars are counted in a piece. */
  static int bars(Piece piece) {
    return Holds.isPause(piece) ? 0 : piece.bars();
  }

  private static void add(List<Part> parts, Part part) {
    int last = parts.size() - 1;
    if (part.plain() && last >= 0 && parts.get(last).plain()) {
      parts.set(last, parts.get(last).longer(part.bars()));
    } else if (part.bars() > 0 || part.stop().isPresent()) {
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
      boolean then = i > 0 && !parts.get(i - 1).plain() && parts.get(i - 1).times() == 1;
      text.append(i == 0 ? "" : then ? ", then " : ", ").append(parts.get(i).spoken());
    }
    return text.toString();
  }

  /** Returns how many bars are counted in all. */
  public int bars() {
    return parts.stream().mapToInt(p -> p.bars() * p.times()).sum();
  }

  /** Returns the open stretches in it, as a length says what comes on top. */
  List<String> plus() {
    return parts.stream()
        .filter(p -> !p.some())
        .flatMap(p -> p.open().stream())
        .map(OpenStretch::named)
        .distinct()
        .toList();
  }
}
