package org.barmap.plan.order;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.barmap.plan.piece.Piece;

/**
 * Pieces played more than once in a row, or held open.
 *
 * @param start index of its first piece
 * @param end index of its last piece, the last ending included
 * @param total how often it is played in all
 * @param parts its endings, in order; empty where it has none
 * @param open what it is held open as
 */
public record Loop(int start, int end, int total, List<Ending> parts, Optional<OpenStretch> open) {

  /**
   * One ending.
   *
   * @param start index of its first piece
   * @param end index of its last piece
   * @param passes in which passes it is played
   * @param closes a backward repeat stands at its end
   */
  public record Ending(int start, int end, Set<Integer> passes, boolean closes) {}

  /** Takes a defensive copy. */
  public Loop {
    parts = List.copyOf(parts);
  }

  /** Tells whether a piece lies in it. */
  public boolean holds(int piece) {
    return piece >= start && piece <= end;
  }

  /** Returns how many pieces it covers. */
  int length() {
    return end - start + 1;
  }

  /**
   * Tells whether it is played once, with nothing that would lead elsewhere: no repeat any more.
   */
  boolean gone() {
    return total < 2 && parts.isEmpty() && open.isEmpty();
  }

  /** Tells whether all of it is cut. */
  boolean out(List<Piece> pieces) {
    return pieces.subList(start, end + 1).stream().allMatch(Piece::cut);
  }

  /** Returns the same stretch as no repeat any more. */
  Loop bare() {
    return new Loop(start, end, 1, List.of(), open);
  }

  /** Returns the same stretch, played so often. */
  Loop played(int times) {
    return new Loop(start, end, times, parts, open);
  }

  /** Returns the same stretch, played once, with the last of its endings. */
  Loop once() {
    List<Ending> last = new ArrayList<>();
    for (Ending part : parts) {
      boolean way = last.size() == parts.size() - 1 && parts.size() > 1;
      last.add(new Ending(part.start, part.end, way ? Set.of(1) : Set.of(), part.closes));
    }
    return new Loop(start, end, 1, last, open);
  }

  /**
   * Returns the same stretch, played so often in all: its last ending the last time, before that
   * the others, the last but one as often as need be.
   */
  Loop counted(int times) {
    if (parts.isEmpty()) {
      return played(times);
    }
    List<Ending> now = new ArrayList<>();
    for (Ending part : parts) {
      Set<Integer> passes = new HashSet<>();
      for (int pass = 1; pass <= times; pass++) {
        int as = pass == times ? total : Math.min(pass, Math.max(1, total - 1));
        if (part.passes().contains(as)) {
          passes.add(pass);
        }
      }
      now.add(new Ending(part.start(), part.end(), Set.copyOf(passes), part.closes()));
    }
    return new Loop(start, end, times, now, open);
  }

  /** Returns the same stretch, held open in its first time round. */
  Loop heldOpen(OpenStretch stretch) {
    return new Loop(start, end, total, parts, Optional.of(stretch));
  }
}
