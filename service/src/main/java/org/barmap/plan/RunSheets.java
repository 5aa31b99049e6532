package org.barmap.plan;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.Key;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.term.Link;
import org.barmap.plan.order.Performance;
import org.barmap.plan.piece.PlayedPiece;

/** Writes the lines of the run sheet. */
final class RunSheets {
  private RunSheets() {}

  static RunSheet played(Performance performance, List<String> instruments) {
    int bars = 0;
    Optional<PlayedPiece> entrance = Optional.empty();
    Set<String> used = new LinkedHashSet<>();
    for (PlayedPiece step : performance.order().steps()) {
      if (!step.piece().rest()) {
        entrance = entrance.or(() -> Optional.of(step));
        String instrument = instruments.get(step.index());
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
        performance.link());
  }

  static RunSheet silent(WrittenNumber number, NumberPlan.State state, Link link) {
    return new RunSheet(
        number.label(),
        number.title(),
        state,
        page(number),
        List.of(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        link);
  }

  private static Optional<Integer> page(WrittenNumber number) {
    return number.bars().stream().findFirst().map(b -> b.page());
  }
}
