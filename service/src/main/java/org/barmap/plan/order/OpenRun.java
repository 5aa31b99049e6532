package org.barmap.plan.order;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.BiPredicate;
import org.barmap.plan.piece.PlayedPiece;

/**
 * An open stretch where it comes in the order of play.
 *
 * @param open the stretch
 * @param first index of its first step
 * @param last index of the last step of one time round
 * @param rest whether the player rests throughout
 */
public record OpenRun(OpenStretch open, int first, int last, boolean rest) {

  /** Returns the runs of a number in the order they come. */
  public static List<OpenRun> of(OrderOfPlay order) {
    if (order.open().isEmpty()) {
      return List.of();
    }
    Map<Integer, OpenStretch> begins = new HashMap<>();
    Map<Integer, Integer> bars = new HashMap<>();
    for (OpenStretch open : order.open()) {
      for (OpenStretch.Place place : open.places()) {
        begins.put(place.from(), open);
        bars.put(place.from(), place.bars());
      }
    }
    List<OpenRun> runs = new ArrayList<>();
    List<PlayedPiece> steps = order.steps();
    int bar = 0;
    int i = 0;
    while (i < steps.size()) {
      OpenStretch open = begins.get(bar);
      int first = i;
      int end = bar + bars.getOrDefault(bar, 1);
      boolean rest = true;
      do {
        rest &= steps.get(i).piece().rest();
        bar += steps.get(i).piece().count();
        i++;
      } while (open != null && i < steps.size() && bar < end);
      if (open != null) {
        runs.add(new OpenRun(open, first, i - 1, rest));
      }
    }
    return runs;
  }

  /**
   * Tells whether pages are turned back to go round once more. Who rests throughout needs no page
   * for it; where another time round is played out in any case, the way back is there already.
   */
  boolean turnsBack(List<PlayedPiece> steps, BiPredicate<Integer, Integer> turned) {
    int next = last + 1;
    boolean playedOut = next < steps.size() && steps.get(next).index() == steps.get(first).index();
    return !rest && !playedOut && turned.test(page(steps, last), page(steps, first));
  }

  private static int page(List<PlayedPiece> steps, int step) {
    return steps.get(step).piece().bar().page();
  }

  /**
   * One time round an open stretch that lies over a page turn.
   *
   * @param open the stretch
   * @param from index of the first event of its first time round, which tells it from others
   * @param again whether it is the time round after the first
   */
  public record Round(OpenStretch open, int from, boolean again) {

    /** Returns when its turns come: "each time round the vamp 9-12". */
    public String says() {
      return open.kind() == OpenStretch.Kind.SAFETY
          ? "each time the " + open.named() + " is taken again"
          : "each time round the " + open.named();
    }
  }
}
