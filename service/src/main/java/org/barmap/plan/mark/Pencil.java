package org.barmap.plan.mark;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.Bar;
import org.barmap.map.Barline;
import org.barmap.map.Key;
import org.barmap.plan.change.Leave;
import org.barmap.plan.change.ShowChange;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.check.CutStretch;
import org.barmap.plan.order.Measure;
import org.barmap.plan.order.OrderOfPlay;
import org.barmap.plan.order.Performance;
import org.barmap.plan.order.Piece;
import org.barmap.plan.order.Span;

/** Collects the marks of a show. */
public final class Pencil {
  private record Placed(PencilMark mark, int slot) {}

  private final List<Placed> marks = new ArrayList<>();

  /** Marks a number that is not played as written. */
  public void silent(WrittenNumber number, ShowChange change) {
    if (!number.bars().isEmpty()) {
      boolean cut = change instanceof ShowChange.CutNumber;
      add(
          number,
          0,
          number.bars().get(0),
          cut ? "cut-number" : "tacet",
          cut ? "CUT, on to the next number" : "TACET",
          Optional.of(change.meta().id()));
    }
  }

  /** Marks what the changes of a played number need. */
  public void number(Performance performance, List<Span> spans) {
    OrderOfPlay order = performance.order();
    for (CutStretch cut : CutStretch.of(order.pieces(), spans)) {
      cut(order, cut);
    }
    Set<Integer> cutSlots = new HashSet<>();
    for (Piece piece : order.pieces()) {
      for (int s = 0; piece.cut() && s < piece.count(); s++) {
        cutSlots.add(piece.slot() + s);
      }
    }
    for (Span span : spans) {
      if (!(span.change() instanceof ShowChange.Cut)) {
        left(span, cutSlots).ifPresent(s -> change(performance, s, cutSlots));
      }
    }
  }

  /** Returns what is left of a change outside the cuts; nothing when it starts and ends in them. */
  private static Optional<Span> left(Span span, Set<Integer> cutSlots) {
    int from = span.from();
    int to = span.to();
    while (from <= to && cutSlots.contains(from)) {
      from++;
    }
    while (to >= from && cutSlots.contains(to)) {
      to--;
    }
    return from > to
        ? Optional.empty()
        : Optional.of(new Span(span.change(), from, to, span.fromBeat(), span.toBeat()));
  }

  private void cut(OrderOfPlay order, CutStretch cut) {
    WrittenNumber number = order.number();
    Piece first = order.pieces().get(cut.first());
    Piece last = order.pieces().get(cut.last());
    int landing = last.cut() ? last.slot() + last.count() : last.slot();
    String to =
        landing < number.slots() ? " to " + number.nameAt(landing) : " to the end of the number";
    String from = first.cut() ? "" : " (from inside the bar)";
    Optional<String> id = Optional.of(cut.change().meta().id());
    add(number, first.slot(), first.bar(), "cut-open", "[ cut" + to + from, id);
    add(
        number,
        last.slot() + last.count() - 1,
        last.bar(),
        "cut-close",
        last.cut() ? "]" : "] (inside the bar)",
        id);
  }

  private void change(Performance performance, Span span, Set<Integer> cutSlots) {
    WrittenNumber number = performance.number();
    ShowChange change = span.change();
    if (change instanceof ShowChange.Vamp vamp) {
      String out = vamp.leave() == Leave.ANY_TIME ? "out any time" : "out at the end of a pass";
      range(number, span, "vamp", "VAMP, " + out);
    } else if (change instanceof ShowChange.Safety) {
      range(number, span, "safety", "SAFETY");
    } else if (change instanceof ShowChange.Play play) {
      range(number, span, "times", play.times() == 1 ? "play once" : play.times() + "X");
    } else if (change instanceof ShowChange.Insert insert) {
      String name = insert.label().map(l -> " (" + l + ")").orElse("");
      String bars = insert.bars() + (insert.bars() == 1 ? " bar" : " bars");
      one(number, span, span.from(), "insert", "+ " + bars + name + ", see paste-in");
    } else if (change instanceof ShowChange.Tempo tempo) {
      one(number, span, span.from(), "tempo", tempo(tempo));
    } else if (change instanceof ShowChange.KeyChange key) {
      one(number, span, span.from(), "key", new Key(key.fifths(), true).says());
    } else if (change instanceof ShowChange.Beats beats) {
      beats(performance, span, beats, cutSlots);
    } else if (change instanceof ShowChange.Instrument instrument) {
      one(number, span, span.from(), "instrument", "to " + instrument.to());
    } else if (change instanceof ShowChange.Remind remind) {
      one(number, span, span.from(), remind.what().word(), Signs.reminder(remind));
    }
  }

  private static String tempo(ShowChange.Tempo tempo) {
    String by = tempo.toPerMinute().map(to -> ", by and by to " + figure(to)).orElse("");
    return Signs.note(tempo.beat()) + " = " + figure(tempo.perMinute()) + by;
  }

  private static String figure(double value) {
    return value == Math.rint(value) ? Long.toString((long) value) : Double.toString(value);
  }

  private void beats(
      Performance performance, Span span, ShowChange.Beats beats, Set<Integer> cutSlots) {
    WrittenNumber number = performance.number();
    one(number, span, span.from(), "beats", "in " + beats.beats());
    int after = span.to() + 1;
    while (cutSlots.contains(after)) {
      after++;
    }
    if (after < number.slots()) {
      int back = after;
      for (int i = 0; i < performance.order().pieces().size(); i++) {
        Piece piece = performance.order().pieces().get(i);
        Measure measure = performance.measures().get(i);
        if (piece.slot() == back && measure.beats() > 0 && measure.beats() != beats.beats()) {
          one(number, span, back, "beats", "in " + measure.beats());
          return;
        }
      }
    }
  }

  /** Where repeat signs are printed around the stretch, the word alone is enough. */
  private void range(WrittenNumber number, Span span, String mark, String sign) {
    Bar first = number.barAt(span.from());
    Bar last = number.barAt(span.to());
    boolean printed =
        (first.startBarline() == Barline.REPEAT_START
                || first.startBarline() == Barline.REPEAT_BOTH)
            && (last.endBarline() == Barline.REPEAT_END
                || last.endBarline() == Barline.REPEAT_BOTH);
    one(number, span, span.from(), mark, printed ? sign : "\u2016: " + sign);
    if (!printed) {
      one(number, span, span.to(), mark + "-end", ":\u2016");
    }
  }

  private void one(WrittenNumber number, Span span, int slot, String mark, String sign) {
    add(number, slot, number.barAt(slot), mark, sign, Optional.of(span.change().meta().id()));
  }

  /** Writes one mark at a bar of a number. */
  public void add(
      WrittenNumber number, int slot, Bar bar, String mark, String sign, Optional<String> change) {
    String where = slot < number.slots() ? number.nameAt(slot) : Integer.toString(bar.number());
    PencilMark written =
        new PencilMark(
            bar.page(), bar.system(), bar.id(), mark, sign, number.label(), where, change);
    marks.add(new Placed(written, slot));
  }

  /** Returns the marks by page and system, each once. */
  public List<PencilMark> marks() {
    Set<String> seen = new HashSet<>();
    return marks.stream()
        .sorted(
            Comparator.comparingInt((Placed p) -> p.mark().page())
                .thenComparingInt(p -> p.mark().system())
                .thenComparingInt(Placed::slot))
        .map(Placed::mark)
        .filter(
            m ->
                seen.add(
                    m.bar()
                        + "|"
                        + m.where()
                        + "|"
                        + m.mark()
                        + "|"
                        + m.sign().toLowerCase(Locale.ROOT)))
        .toList();
  }
}
