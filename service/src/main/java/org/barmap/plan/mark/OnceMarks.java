package org.barmap.plan.mark;

import java.util.List;
import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.effect.Rounds;
import org.barmap.plan.piece.OpenWord;
import org.barmap.plan.piece.Span;

/**
 * What is written where bars are played once: the print that says otherwise is taken back where it
 * stands. No repeat signs are written around them, and nothing at all where the print says no more
 * than once.
 */
final class OnceMarks {
  private final WrittenNumber number;
  private final Span span;
  private final List<Bar> bars;

  private OnceMarks(WrittenNumber number, Span span) {
    this.number = number;
    this.span = span;
    this.bars = number.bars().subList(number.entryAt(span.from()), number.entryAt(span.to()) + 1);
  }

  /** Writes what a change needs; false where it is no change that plays bars once. */
  static boolean write(Pencil pencil, WrittenNumber number, Span span, String sign) {
    boolean once =
        span.effects()
            .rounds()
            .filter(r -> r.until() == Rounds.Until.COUNTED && r.times() == 1)
            .isPresent();
    if (once) {
      new OnceMarks(number, span).write(pencil, sign);
    }
    return once;
  }

  private void write(Pencil pencil, String sign) {
    boolean open = false;
    for (Bar bar : bars) {
      Optional<OpenWord> word =
          bar.words().stream().flatMap(w -> OpenWord.read(w.text()).stream()).findFirst();
      if (word.isPresent()) {
        String mark = word.get().safety() ? "safety" : "vamp";
        add(pencil, bar, mark, "no " + mark);
        open = true;
      }
    }
    if (!open && bars.stream().anyMatch(OnceMarks::leadsBack)) {
      add(pencil, bars.get(0), "times", sign);
      first().ifPresent(b -> add(pencil, b, "times", "straight to the 2nd ending"));
    }
  }

  private Optional<Bar> first() {
    return bars.stream().filter(b -> b.ending().contains(1)).findFirst();
  }

  private static boolean leadsBack(Bar bar) {
    return bar.endBarline().endsRepeat();
  }

  private void add(Pencil pencil, Bar bar, String mark, String sign) {
    int slot = number.starts()[number.bars().indexOf(bar)];
    pencil.add(
        number,
        Math.max(slot, span.from()),
        bar,
        mark,
        sign,
        Optional.of(span.change().meta().id()));
  }
}
