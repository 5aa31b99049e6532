package org.barmap.plan.check;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.effect.PassRule;
import org.barmap.plan.order.OrderOfPlay;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.Span;

/** Says in one line which bars of a number are out: "5-8", "12 beat 3 to 14 beat 2". */
public final class CutBars {
  private CutBars() {}

  /** Returns what is out of a number, in order. */
  public static List<String> of(OrderOfPlay order, List<Span> spans) {
    return Stream.concat(
            CutStretch.of(order.pieces(), spans).stream().map(c -> says(order, c, spans)),
            spans.stream().flatMap(s -> inPass(order.number(), s).stream()))
        .toList();
  }

  /** What is out in one pass only: "5-6 2nd time". */
  private static Optional<String> inPass(WrittenNumber number, Span span) {
    return span.effects()
        .course()
        .inPass()
        .filter(r -> r.does() == PassRule.Does.CUT)
        .flatMap(PassRule::pass)
        .map(p -> bars(number, span) + " " + p.says());
  }

  private static String bars(WrittenNumber number, Span span) {
    String from = name(number, span.from());
    String to = name(number, span.to());
    String fromBeat =
        span.fromBeat().isPresent() ? beat(" beat ", span.fromBeat().getAsDouble()) : "";
    String toBeat = span.toBeat().isPresent() ? beat(" beat ", span.toBeat().getAsDouble()) : "";
    boolean one = from.equals(to) && fromBeat.isEmpty() && toBeat.isEmpty();
    return one
        ? from
        : fromBeat.isEmpty() && toBeat.isEmpty()
            ? from + "-" + to
            : from + fromBeat + " to " + to + toBeat;
  }

  private static String says(OrderOfPlay order, CutStretch cut, List<Span> spans) {
    WrittenNumber number = order.number();
    Piece first = order.pieces().get(cut.first());
    Piece last = order.pieces().get(cut.last());
    String from = name(number, first.slot());
    String to = name(number, last.slot() + last.count() - 1);
    if (cut.first() == cut.last() && !first.cut() && first.cutEnd() == 0) {
      return from + inside(first, spans);
    }
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

  /** The beats that are out of a bar whose last beat is played. */
  private static String inside(Piece piece, List<Span> spans) {
    if (piece.cutMiddle() == 0) {
      return beat(" to beat ", piece.cutStart());
    }
    return spans.stream()
        .filter(s -> s.effects().leavesOut() && s.from() == piece.slot())
        .filter(s -> s.fromBeat().isPresent() && s.toBeat().isPresent())
        .findFirst()
        .map(s -> beat(" beats ", s.fromBeat().orElse(1)) + beat(" to ", s.toBeat().orElse(0)))
        .orElse("");
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
