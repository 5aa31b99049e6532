package org.barmap.plan.turn;

import java.util.ArrayList;
import java.util.List;
import org.barmap.plan.change.say.Saying;
import org.barmap.plan.order.Timeline;
import org.barmap.plan.piece.Piece;

/**
 * Names the bars a player writes out or knows by heart, in the order they are played: "7 bars (25
 * to 28, 2 bars rest, then 1 to 3)". The bars named are those counted.
 */
final class BarsSaid {
  private final Timeline line;
  private final List<String> parts = new ArrayList<>();
  private int parted = -1;

  private BarsSaid(Timeline line) {
    this.line = line;
  }

  /** Returns the words; rests behind the last notes are told after them. */
  static String of(Timeline line, int from, int to, int bars) {
    int last = to;
    int rest = 0;
    while (last > from && piece(line, last).rest()) {
      rest += piece(line, last).bars();
      last--;
    }
    int first = from;
    int before = 0;
    while (bars == 1 && first < last && piece(line, first).rest()) {
      before += piece(line, first).bars();
      first++;
    }
    String names = new BarsSaid(line).named(first, last);
    String one = (before == 0 ? "" : rest(before) + ", then ") + "bar " + names;
    String notes = bars == 1 ? one : Saying.many(bars, "bar") + " (" + names + ")";
    return notes + (rest == 0 ? "" : " and " + rest(rest));
  }

  /** Returns how the bar of a step is called. */
  static String name(Timeline line, int step) {
    Piece piece = piece(line, step);
    return piece
        .inserted()
        .or(() -> piece.bar().label())
        .orElse(Integer.toString(piece.bar().number() + piece.offset()));
  }

  private String named(int from, int to) {
    int start = from;
    for (int i = from; i <= to; i++) {
      boolean silent = piece(line, i).rest();
      boolean ends = i == to || silent != piece(line, i + 1).rest() || !silent && jumps(i);
      if (ends) {
        part(start, i, silent, from);
        start = i + 1;
      }
    }
    return String.join(", ", parts);
  }

  private void part(int start, int end, boolean silent, int from) {
    if (silent) {
      int bars = 0;
      for (int i = start; i <= end; i++) {
        bars += piece(line, i).bars();
      }
      parts.add(rest(bars));
      return;
    }
    String then = parted >= 0 && (jumps(parted) || jumps(start - 1)) ? "then " : "";
    String number = line.events().get(start).number();
    boolean other = !number.isEmpty() && !number.equals(line.events().get(from).number());
    String to = start == end ? "" : " to " + name(line, end);
    parts.add(then + name(line, start) + to + (other ? " of No. " + number : ""));
    parted = end;
  }

  /** Tells whether what is played behind a step doesn't stand behind it. */
  private boolean jumps(int step) {
    Piece here = piece(line, step);
    Piece next = piece(line, step + 1);
    int end = here.slot() + (here.added().isPresent() ? 0 : here.count());
    return next.slot() != end
        || !line.events().get(step).number().equals(line.events().get(step + 1).number());
  }

  private static String rest(int bars) {
    return bars == 1 ? "a bar rest" : bars + " bars rest";
  }

  private static Piece piece(Timeline line, int step) {
    return line.events().get(step).piece();
  }
}
