package org.barmap.plan.mark;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.barmap.map.Bar;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.effect.Leaving;
import org.barmap.plan.change.effect.Rounds;
import org.barmap.plan.change.term.Leave;
import org.barmap.plan.order.OpenRun;
import org.barmap.plan.order.OrderOfPlay;
import org.barmap.plan.piece.OpenWord;
import org.barmap.plan.piece.PlayedPiece;
import org.barmap.plan.piece.PrintedOpen;
import org.barmap.plan.piece.Span;
import org.barmap.plan.rest.RestCount;

/** What is written for bars that are held open or counted: inside a rest its count is rewritten. */
final class OpenMarks {
  private final Pencil pencil;

  OpenMarks(Pencil pencil) {
    this.pencil = pencil;
  }

  /**
   * Tells whether a change needs no repeat signs: its bars lie inside a multi-bar rest, over which
   * the count is written, or the book says the same already.
   */
  static boolean needless(WrittenNumber number, Span span) {
    return inside(number, span) || printed(number, span);
  }

  private static boolean inside(WrittenNumber number, Span span) {
    Bar bar = number.barAt(span.from());
    int start = number.starts()[number.entryAt(span.from())];
    boolean whole = span.from() == start && span.to() == start + bar.count() - 1;
    return span.effects().rounds().isPresent()
        && bar.count() > 1
        && span.to() < start + bar.count()
        && !whole;
  }

  private static boolean printed(WrittenNumber number, Span span) {
    Bar first = number.barAt(span.from());
    Bar last = number.barAt(span.to());
    Optional<Rounds> rounds = span.effects().rounds();
    boolean vamp = rounds.filter(r -> r.until() == Rounds.Until.CUE).isPresent();
    boolean safety = rounds.filter(r -> r.until() == Rounds.Until.DIRECTOR).isPresent();
    boolean signs = first.startBarline().startsRepeat() && last.endBarline().endsRepeat();
    return signs
        && first.words().stream()
            .flatMap(w -> OpenWord.read(w.text()).stream())
            .anyMatch(w -> w.safety() ? safety : vamp);
  }

  /** Writes counts over rests, and the cues that vamps wait for. */
  void write(OrderOfPlay order, List<Span> spans) {
    WrittenNumber number = order.number();
    Map<String, Span> rests = new HashMap<>();
    for (Span span : spans) {
      if (inside(number, span)) {
        rests.putIfAbsent(number.barAt(span.from()).id(), span);
      } else {
        span.effects()
            .rounds()
            .flatMap(r -> r.leaving().cue())
            .ifPresent(c -> cue(number, span, c));
        exit(number, span).ifPresent(e -> exit(number, span, e));
      }
    }
    if (!rests.isEmpty()) {
      counts(order, rests);
    }
  }

  /** Returns how a printed vamp is left, where that is not what the print says. */
  static Optional<String> exit(WrittenNumber number, Span span) {
    Optional<Leaving> said =
        span.effects()
            .rounds()
            .filter(r -> r.until() == Rounds.Until.CUE)
            .map(Rounds::leaving)
            .filter(l -> printed(number, span));
    if (said.isEmpty()) {
      return Optional.empty();
    }
    boolean anyTime = said.get().leave().filter(l -> l == Leave.ANY_TIME).isPresent();
    boolean printedSo =
        PrintedOpen.of(number).stream()
            .filter(p -> p.slot() == span.from())
            .flatMap(p -> p.word().leaving().leave().stream())
            .anyMatch(l -> l == Leave.ANY_TIME);
    boolean same = said.get().exitBar().isEmpty() && anyTime == printedSo;
    return same ? Optional.empty() : said.get().out();
  }

  private void exit(WrittenNumber number, Span span, String exit) {
    Optional<String> id = Optional.of(span.change().meta().id());
    pencil.add(number, span.from(), number.barAt(span.from()), "cue", exit, id);
  }

  private void cue(WrittenNumber number, Span span, String cue) {
    Bar bar = number.barAt(span.to());
    Optional<String> id = Optional.of(span.change().meta().id());
    pencil.add(number, span.to(), bar, "cue", "Cue: " + cue, id);
  }

  private void counts(OrderOfPlay order, Map<String, Span> rests) {
    List<OpenRun> runs = OpenRun.of(order);
    List<PlayedPiece> steps = order.steps();
    int i = 0;
    while (i < steps.size()) {
      String id = steps.get(i).piece().bar().id();
      int to = i;
      while (to + 1 < steps.size() && steps.get(to + 1).piece().bar().id().equals(id)) {
        to++;
      }
      Optional<Span> span = Optional.ofNullable(rests.remove(id));
      if (span.isPresent()) {
        count(order.number(), span.get(), RestCount.of(order, runs, i, to));
      }
      i = to + 1;
    }
  }

  private void count(WrittenNumber number, Span span, RestCount count) {
    String sign =
        count.parts().stream()
            .map(
                p ->
                    p.says()
                        + p.open()
                            .flatMap(o -> o.leaving().cue())
                            .map(c -> " (" + c + ")")
                            .orElse(""))
            .collect(Collectors.joining(", "));
    int entry = number.entryAt(span.from());
    Optional<String> id = Optional.of(span.change().meta().id());
    pencil.add(number, number.starts()[entry], number.bars().get(entry), "rest-count", sign, id);
  }
}
