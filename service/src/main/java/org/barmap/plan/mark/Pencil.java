package org.barmap.plan.mark;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.Bar;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.effect.Marking;
import org.barmap.plan.change.effect.Rounds;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.order.OrderOfPlay;
import org.barmap.plan.order.Performance;
import org.barmap.plan.pace.Measure;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.Span;

/** Collects the marks of a show. */
public final class Pencil {
  private record Placed(PencilMark mark, int slot) {}

  private final List<Placed> marks = new ArrayList<>();

  /** Marks a number that is not played as written. */
  public void silent(WrittenNumber number, ShowChange change) {
    Optional<String> id = Optional.of(change.meta().id());
    if (!number.bars().isEmpty()) {
      Bar first = number.bars().get(0);
      change.marking().ifPresent(m -> add(number, 0, first, m.mark(), m.sign(), id));
    }
  }

  /** Marks at the start of a number what a change of the way through all of it asks for. */
  public void whole(WrittenNumber number, List<ShowChange> changes) {
    for (ShowChange change : changes) {
      boolean way = change.effects().course().track() || change.effects().course().repeatsAgain();
      if (way && !number.bars().isEmpty()) {
        Optional<String> id = Optional.of(change.meta().id());
        Bar first = number.bars().get(0);
        change.marking().ifPresent(m -> add(number, 0, first, m.mark(), m.sign(), id));
      }
    }
  }

  /** Marks what the changes of a played number need. */
  public void number(Performance performance, List<Span> spans, Held held) {
    OrderOfPlay order = performance.order();
    RestCounts rests = new RestCounts(order);
    new OpenMarks(this).write(order, spans);
    new CutMarks(performance, rests, held, this).mark(spans);
    Needless needless = new Needless(performance, held);
    Set<Integer> cutSlots = new HashSet<>();
    for (Piece piece : order.pieces()) {
      for (int s = 0; piece.cut() && s < piece.count(); s++) {
        cutSlots.add(piece.slot() + s);
      }
    }
    for (Span span : spans) {
      cue(performance.number(), span, cutSlots);
      if (!needless.is(span) && !rests.holds(span.change().meta().id())) {
        span.change()
            .marking()
            .ifPresent(
                m -> left(span, cutSlots).ifPresent(s -> change(performance, s, m, cutSlots)));
      }
    }
  }

  /** What a vamp waits for, where only its note says so. */
  private void cue(WrittenNumber number, Span span, Set<Integer> cutSlots) {
    span.effects()
        .rounds()
        .filter(r -> r.until() == Rounds.Until.CUE)
        .filter(r -> r.leaving().cue().isEmpty())
        .flatMap(r -> noted(span.change()))
        .ifPresent(
            c -> left(span, cutSlots).ifPresent(s -> one(number, s, s.to(), "cue", "till " + c)));
  }

  private static Optional<String> noted(ShowChange change) {
    return change
        .meta()
        .note()
        .filter(n -> n.matches("(?i)(?:till|until) .+"))
        .map(n -> n.replaceFirst("(?i)(?:till|until) ", ""));
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
    return from > to ? Optional.empty() : Optional.of(span.within(from, to));
  }

  private void change(Performance performance, Span span, Marking marking, Set<Integer> cutSlots) {
    WrittenNumber number = performance.number();
    switch (marking.where()) {
      case FIRST -> one(number, span, span.from(), marking.mark(), marking.sign());
      case BRACKETED -> {
        one(number, span, span.from(), marking.mark(), "[ " + marking.sign());
        one(number, span, span.to(), marking.mark() + "-end", "]");
      }
      case AROUND -> {
        if (!OpenMarks.needless(number, span)
            && !OnceMarks.write(this, number, span, marking.sign())) {
          range(number, span, marking.mark(), marking.sign());
        }
      }
      case BEATEN -> {
        one(number, span, span.from(), marking.mark(), marking.sign());
        beatenAfter(performance, span, marking.mark(), cutSlots);
      }
    }
  }

  private void beatenAfter(Performance performance, Span span, String mark, Set<Integer> cutSlots) {
    WrittenNumber number = performance.number();
    int after = span.to() + 1;
    while (cutSlots.contains(after)) {
      after++;
    }
    int said = span.effects().inForce().beats().orElse(0);
    for (int i = 0; after < number.slots() && i < performance.order().pieces().size(); i++) {
      Piece piece = performance.order().pieces().get(i);
      Measure measure = performance.measures().get(i);
      if (piece.slot() == after && measure.beats() > 0 && measure.beats() != said) {
        one(number, span, after, mark, "in " + measure.beats());
        return;
      }
    }
  }

  /** Where repeat signs are printed around the stretch, the word alone is enough. */
  private void range(WrittenNumber number, Span span, String mark, String sign) {
    Bar first = number.barAt(span.from());
    Bar last = number.barAt(span.to());
    boolean printed = first.startBarline().startsRepeat() && last.endBarline().endsRepeat();
    one(number, span, span.from(), mark, printed ? sign : "\u2016: " + sign);
    if (!printed) {
      one(number, span, span.to(), mark + "-end", ":\u2016");
    }
  }

  private void one(WrittenNumber number, Span span, int slot, String mark, String sign) {
    add(number, slot, number.barAt(slot), mark, sign, Optional.of(span.change().meta().id()));
  }

  /** Tells whether a bar entry has a mark of a kind already. */
  boolean has(String mark, Bar bar) {
    return marks.stream()
        .map(Placed::mark)
        .anyMatch(m -> m.mark().equals(mark) && m.bar().equals(bar.id()));
  }

  /** Writes one mark at a bar of a number. */
  public void add(
      WrittenNumber number, int slot, Bar bar, String mark, String sign, Optional<String> change) {
    String where = slot < number.slots() ? number.nameAt(slot) : Integer.toString(bar.number());
    PencilMark written =
        new PencilMark(
            bar.page(),
            bar.system(),
            bar.id(),
            mark,
            sign,
            number.label(),
            where,
            change,
            List.of());
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
