package org.barmap.plan.mark;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.Bar;
import org.barmap.plan.order.OrderOfPlay;
import org.barmap.plan.piece.Inserted;
import org.barmap.plan.piece.Piece;

/**
 * The count a player writes over a multi-bar rest of which bars are cut, or to which bars of rest
 * are added: "12" over a 16. No bracket stands inside such a block (common practice).
 */
final class RestCounts {

  /**
   * A block of rest that isn't counted as printed.
   *
   * @param bar its entry
   * @param says what is written over it, piece by piece
   * @param changes ids of the changes that add bars to it
   */
  record Count(Bar bar, String says, Set<String> changes) {}

  private final List<Count> counts = new ArrayList<>();
  private final Set<String> blocks = new HashSet<>();
  private final Set<String> counted = new HashSet<>();

  RestCounts(OrderOfPlay order) {
    Map<String, List<Piece>> parts = new HashMap<>();
    for (Piece piece : order.pieces()) {
      String entry = piece.added().map(Inserted::host).orElse(piece.bar()).id();
      parts.computeIfAbsent(entry, k -> new ArrayList<>(1)).add(piece);
    }
    for (Bar bar : order.number().bars()) {
      List<Piece> mine = parts.getOrDefault(bar.id(), List.of());
      if (bar.isRest() && bar.count() > 1 && !mine.stream().allMatch(Piece::cut)) {
        read(bar, mine);
      }
    }
  }

  private void read(Bar bar, List<Piece> parts) {
    blocks.add(bar.id());
    List<String> says = new ArrayList<>();
    Set<String> changes = new HashSet<>();
    int run = 0;
    for (Piece part : parts) {
      if (part.cut()) {
        continue;
      }
      if (!part.rest()) {
        flush(says, run);
        run = 0;
      } else {
        run += part.count();
        part.added().map(Inserted::change).ifPresent(changes::add);
      }
    }
    flush(says, run);
    String all = String.join(", ", says);
    if (!all.equals(Integer.toString(bar.count()))) {
      counts.add(new Count(bar, all, changes));
      counted.addAll(changes);
    }
  }

  private static void flush(List<String> says, int run) {
    if (run > 0) {
      says.add(Integer.toString(run));
    }
  }

  /** Returns what is written over each block that isn't counted as printed. */
  List<Count> counts() {
    return counts;
  }

  /** Tells whether a piece lies in a block of rest that is played in part. */
  boolean inBlock(Piece piece) {
    return piece.added().isEmpty() && blocks.contains(piece.bar().id());
  }

  /** Tells whether the bars that a change adds are part of a count. */
  boolean holds(String change) {
    return counted.contains(change);
  }

  /** Returns the count of a block where it is not the printed one. */
  Optional<Count> of(Bar bar) {
    return counts.stream().filter(c -> c.bar().id().equals(bar.id())).findFirst();
  }
}
