package org.barmap.plan;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.Key;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.term.Figures;
import org.barmap.plan.check.CutBars;
import org.barmap.plan.order.Performance;
import org.barmap.plan.pace.Measure;
import org.barmap.plan.piece.PlayedPiece;
import org.barmap.plan.piece.Span;
import org.barmap.plan.ready.Hands;

/** Writes the lines of the run sheet. */
final class RunSheets {
  private RunSheets() {}

  static RunSheet played(
      Performance performance, List<Span> spans, List<Hands> hands, boolean track) {
    int bars = 0;
    Optional<PlayedPiece> entrance = Optional.empty();
    Set<String> used = new LinkedHashSet<>();
    for (PlayedPiece step : performance.order().steps()) {
      if (!step.piece().rest()) {
        entrance = entrance.or(() -> Optional.of(step));
        String instrument = hands.get(step.index()).instrument();
        if (!instrument.isEmpty()) {
          used.add(instrument);
        }
      } else if (entrance.isEmpty()) {
        bars += step.piece().bars();
      }
    }
    WrittenNumber number = performance.number();
    return new RunSheet(
        number.label(),
        number.title(),
        NumberPlan.State.PLAYED,
        page(number),
        List.copyOf(used),
        entrance.map(
            s -> s.piece().pickup() ? "the pickup" : "bar " + Ahead.name(performance, s.piece())),
        entrance.isPresent() ? Optional.of(bars) : Optional.empty(),
        performance.order().steps().stream().findFirst().flatMap(performance::key).map(Key::says),
        performance.played().rounded().seconds(),
        Paces.known(performance),
        performance.link(),
        opening(performance, hands, entrance),
        OpenBars.vamps(performance),
        CutBars.of(performance.order(), spans),
        OpenBars.plus(performance),
        track,
        List.of());
  }

  private static Optional<RunSheet.Opening> opening(
      Performance performance, List<Hands> hands, Optional<PlayedPiece> entrance) {
    Optional<PlayedPiece> first = performance.order().steps().stream().findFirst();
    if (first.isEmpty()) {
      return Optional.empty();
    }
    Measure measure = performance.measure(first.get());
    // What is in hand is told for the first note: what the rest before it asks for is ready by
    // then.
    Hands held = hands.get(entrance.orElse(first.get()).index());
    return Optional.of(
        new RunSheet.Opening(
            first.get().piece().bar().meter().map(m -> m.beats() + "/" + m.unit()),
            measure.beats(),
            measure.pace().map(p -> Figures.thousandths(p.from())),
            said(held.instrument()),
            said(held.bow()),
            said(held.mute())));
  }

  private static Optional<String> said(String held) {
    return held.isEmpty() ? Optional.empty() : Optional.of(held);
  }

  /** A number the player doesn't play; one that is in the show lasts as long as its bars. */
  static RunSheet silent(Performance performance, NumberPlan.State state) {
    WrittenNumber number = performance.number();
    boolean lasts = state == NumberPlan.State.TACET && !number.bars().isEmpty();
    return new RunSheet(
        number.label(),
        number.title(),
        state,
        page(number),
        List.of(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        lasts ? performance.played().rounded().seconds() : Optional.empty(),
        Optional.empty(),
        performance.link(),
        Optional.empty(),
        List.of(),
        List.of(),
        lasts ? OpenBars.plus(performance) : List.of(),
        false,
        List.of());
  }

  private static Optional<Integer> page(WrittenNumber number) {
    return number.bars().stream().findFirst().map(b -> b.page());
  }
}
