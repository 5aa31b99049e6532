package org.barmap.plan.reference.against;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.barmap.plan.reference.Aspect;
import org.barmap.plan.reference.Walked.Sounding;
import org.barmap.plan.reference.against.PlanUnderTest.Total;

/**
 * Beats and seconds of the bars that sound, added up one by one. Source: oracles.md, Counting and
 * time; barplan-1.schema.json: beats as the director shows them, seconds absent where no tempo is
 * known.
 */
final class Totals {

  /** Figures are written to a hundredth, a tempo too. */
  private static final double LEAST = 0.06;

  private static final double SHARE = 3e-4;

  private final List<Sounding> order;

  Totals(List<Sounding> order) {
    this.order = order;
  }

  /** Tells what is otherwise in a plan; empty where nothing is, or more than one sum is right. */
  Optional<String> differs(Total found) {
    // Source: trade.md has no length of a pickup.
    boolean pickup = order.stream().anyMatch(b -> b.name().equals("0"));
    if (order.isEmpty() || pickup) {
      return Optional.empty();
    }
    Optional<String> beats = differs("beats", beats(), found.beats(), unknown(Aspect.METER));
    boolean none = unknown(Aspect.TEMPO) || unknown(Aspect.METER);
    return beats.isPresent() ? beats : differs("seconds", seconds(), found.seconds(), none);
  }

  private static Optional<String> differs(
      String what, OptionalDouble right, OptionalDouble found, boolean unknown) {
    if (unknown && found.isPresent()) {
      return Optional.of(what + " are not known, plan " + found.getAsDouble());
    }
    if (right.isEmpty() || found.isEmpty()) {
      return Optional.empty();
    }
    double most = LEAST + SHARE * right.getAsDouble();
    boolean alike = Math.abs(right.getAsDouble() - found.getAsDouble()) <= most;
    return alike
        ? Optional.empty()
        : Optional.of(what + " are " + right.getAsDouble() + ", plan " + found.getAsDouble());
  }

  private boolean unknown(Aspect aspect) {
    return order.stream().anyMatch(b -> Set.of(Aspect.UNKNOWN).equals(b.state().get(aspect)));
  }

  private OptionalDouble beats() {
    double sum = 0;
    for (Sounding bar : order) {
      OptionalDouble shown = figure(bar, Aspect.BEATS);
      OptionalDouble left = left(bar);
      if (shown.isEmpty() || left.isEmpty()) {
        return OptionalDouble.empty();
      }
      sum += shown.getAsDouble() * left.getAsDouble();
    }
    return OptionalDouble.of(sum);
  }

  private OptionalDouble seconds() {
    double sum = 0;
    for (Sounding bar : order) {
      OptionalDouble tempo = figure(bar, Aspect.TEMPO);
      OptionalDouble left = left(bar);
      if (tempo.isEmpty() || left.isEmpty()) {
        return OptionalDouble.empty();
      }
      String[] meter = only(bar, Aspect.METER).orElseThrow().split("/");
      double quarters = 4.0 * Integer.parseInt(meter[0]) / Integer.parseInt(meter[1]);
      sum += quarters * left.getAsDouble() * 60 / tempo.getAsDouble();
    }
    return OptionalDouble.of(sum);
  }

  /** Which part of a bar is left, 1 for all of it. */
  private static OptionalDouble left(Sounding bar) {
    Optional<String> meter = only(bar, Aspect.METER).filter(m -> m.matches("\\d+/\\d+"));
    if (meter.isEmpty()) {
      return OptionalDouble.empty();
    }
    double beats = Integer.parseInt(meter.get().substring(0, meter.get().indexOf('/')));
    double cut = bar.cut().atStart() + bar.cut().inside() + bar.cut().atEnd();
    return OptionalDouble.of((beats - cut) / beats);
  }

  private static OptionalDouble figure(Sounding bar, Aspect aspect) {
    return only(bar, aspect)
        .filter(v -> v.matches("[\\d.]+"))
        .map(v -> OptionalDouble.of(Double.parseDouble(v)))
        .orElse(OptionalDouble.empty());
  }

  private static Optional<String> only(Sounding bar, Aspect aspect) {
    Map<Aspect, Set<String>> state = bar.state();
    Set<String> values = state.getOrDefault(aspect, Set.of(Aspect.ANY));
    return values.size() == 1 ? Optional.of(values.iterator().next()) : Optional.empty();
  }
}
