package org.barmap.plan.order;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
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
}
