package org.barmap.sign;

import java.util.ArrayList;
import java.util.List;

/**
 * Finds the brackets of endings by their ink: a long level line over the staff with a hook down at
 * its left.
 *
 * <p>The network sees that endings are there but not how far a wide bracket goes.
 */
final class Bracket {

  /** A bracket is at least this long, pixels. */
  private static final int SHORTEST = 5 * StripImage.SPACE;

  /** Room left of the network's box in which its bracket may begin, pixels. */
  private static final int AROUND = 3 * StripImage.SPACE;

  /** Room under the line the numerals take, pixels. */
  private static final int NUMERALS = 2 * StripImage.SPACE;

  /** How sure a bracket's ink alone makes; its numerals must be read too. */
  static final double INK_ALONE = 0.9;

  /** Least probability of readings with a stop. */
  private static final double STOPPED = 0.3;

  /** The hook and the line are this thick with what surrounds them, pixels. */
  private static final int INSET = 4;

  private static final int HOOK = 6;
  private static final int GAP = 3;

  private Bracket() {}

  /**
   * Tells whether an ending is believed: what looks like a bracket needs its numerals, with their
   * stop, for a stroke alone looks like 1.
   */
  static boolean isBelieved(RawSign s, List<Reading> readings) {
    return s.kind() != SignKind.ENDING
        || s.probability() != INK_ALONE
        || readings.stream()
                .filter(r -> r.text().indexOf('.') > 0)
                .mapToDouble(Reading::probability)
                .sum()
            > STOPPED;
  }

  /** Returns the part of an ending's box that holds its numerals, right of the hook. */
  static RawSign numerals(RawSign s) {
    if (s.kind() != SignKind.ENDING) {
      return s;
    }
    double left = s.x0() + INSET;
    double right = Math.min(s.x1(), left + 4.5 * StripImage.SPACE);
    return new RawSign(
        s.kind(), left, s.y0() + INSET, right, s.y1(), s.probability(), s.readings());
  }

  /** Puts the brackets found in place of the network's ending boxes; other signs stay. */
  static List<RawSign> settle(StripImage strip, List<RawSign> signs) {
    List<RawSign> brackets = find(strip);
    List<RawSign> settled = new ArrayList<>(brackets);
    for (RawSign s : signs) {
      boolean replaced =
          s.kind() == SignKind.ENDING
              && brackets.stream()
                  .anyMatch(b -> b.x0() < s.x1() + AROUND && b.x1() > s.x0() - AROUND);
      if (!replaced) {
        settled.add(s);
      }
    }
    return settled;
  }

  private static List<RawSign> find(StripImage strip) {
    List<RawSign> found = new ArrayList<>();
    int last = StripImage.MIDDLE - 3 * StripImage.SPACE;
    for (int v = 0; v < last; v++) {
      int u = 0;
      while (u < strip.width()) {
        int end = run(strip, u, v);
        if (end - u >= SHORTEST && hooked(strip, u, v) && isNew(found, u, end)) {
          found.add(new RawSign(SignKind.ENDING, u, v, end, v + NUMERALS, INK_ALONE, List.of()));
        }
        u = Math.max(u + 1, end);
      }
    }
    return found;
  }

  /** Returns where the dark line starting at u ends; small gaps and a pixel's drift are bridged. */
  private static int run(StripImage strip, int u, int v) {
    int gap = 0;
    int x = u;
    int row = v;
    if (!Ink.at(strip, u, v)) {
      return u;
    }
    while (x < strip.width() && gap <= GAP) {
      int drift = 0;
      while (drift <= 1 && !Ink.at(strip, x, row + drift) && !Ink.at(strip, x, row - drift)) {
        drift++;
      }
      if (drift > 1) {
        gap++;
      } else {
        gap = 0;
        row =
            Ink.at(strip, x, row) ? row : Ink.at(strip, x, row + drift) ? row + drift : row - drift;
      }
      x++;
    }
    return x - gap;
  }

  private static boolean hooked(StripImage strip, int u, int v) {
    for (int x = Math.max(0, u - 1); x <= u + 2; x++) {
      if (Ink.column(strip, x, v, v + HOOK + 1) > 0.85
          && Ink.column(strip, x + 4, v + 3, v + HOOK + 1) < 0.7) {
        return true;
      }
    }
    return false;
  }

  private static boolean isNew(List<RawSign> found, int from, int to) {
    return found.stream().noneMatch(f -> f.x0() < to - 2 && f.x1() > from + 2);
  }
}
