package org.barmap.plan.check;

import java.util.List;
import java.util.Locale;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.order.OrderOfPlay;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.Span;

/** Says in one line which bars of a number are out: "5-8", "12 beat 3 to 14 beat 2". */
public final class CutBars {
  private CutBars() {}

  /** Returns what is out of a number, in order. */
  public static List<String> of(OrderOfPlay order, List<Span> spans) {
    return CutStretch.of(order.pieces(), spans).stream().map(c -> says(order, c)).toList();
  }

  private static String says(OrderOfPlay order, CutStretch cut) {
    WrittenNumber number = order.number();
    Piece first = order.pieces().get(cut.first());
    Piece last = order.pieces().get(cut.last());
    String from = name(number, first.slot());
    String to = name(number, last.slot() + last.count() - 1);
    String fromBeat = first.cut() ? "" : beat(" from beat ", left(first));
    String toBeat =
        last.cut() || cut.first() == cut.last() ? "" : beat(" to beat ", last.cutStart());
    if (from.equals(to) && toBeat.isEmpty()) {
      return from + fromBeat;
    }
    return fromBeat.isEmpty() && toBeat.isEmpty()
        ? from + "-" + to
        : from + fromBeat.replace(" from", "") + " to " + to + toBeat.replace(" to", "");
  }

  /** The first beat that is out of a bar of which something is played. */
  private static double left(Piece piece) {
    double beats = piece.bar().meter().map(m -> m.beats()).orElse(0);
    return piece.cutEnd() > 0 ? beats - piece.cutEnd() + 1 : 1;
  }

  private static String beat(String words, double beat) {
    return beat == Math.rint(beat)
        ? words + (int) beat
        : words + String.format(Locale.ROOT, "%.1f", beat);
  }

  private static String name(WrittenNumber number, int slot) {
    return number.nameAt(Math.min(slot, number.slots() - 1));
  }
}
