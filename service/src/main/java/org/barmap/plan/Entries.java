package org.barmap.plan;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.plan.order.OrderOfPlay;
import org.barmap.plan.piece.Inserted;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.PlayedPiece;

/** Turns steps into entries of a plan: stretches of one multi-bar rest in a row are one entry. */
final class Entries {
  private Entries() {}

  static List<NumberPlan.Entry> of(OrderOfPlay order) {
    List<PlayedPiece> steps = order.steps();
    Map<String, Integer> places = new HashMap<>();
    for (int i = 0; i < order.number().bars().size(); i++) {
      places.put(order.number().bars().get(i).id(), i);
    }
    List<NumberPlan.Entry> entries = new ArrayList<>();
    int i = 0;
    while (i < steps.size()) {
      PlayedPiece step = steps.get(i);
      Piece piece = step.piece();
      int count = piece.count();
      int k = i + 1;
      while (k < steps.size() && continues(piece, count, steps.get(k), step.pass())) {
        count += steps.get(k).piece().count();
        k++;
      }
      int written = places.getOrDefault(piece.bar().id(), 0);
      int all = order.number().bars().get(written).count();
      boolean whole = piece.inserted().isEmpty() && count == all;
      entries.add(
          new NumberPlan.Entry(
              piece.bar().id(),
              step.pass(),
              whole || piece.inserted().isPresent()
                  ? Optional.empty()
                  : Optional.of(piece.slot() - order.number().starts()[written] + 1),
              whole ? Optional.empty() : Optional.of(count),
              some(piece.beatsCut()),
              some(piece.cutStart()),
              some(piece.cutEnd()),
              piece.inserted(),
              added(steps.subList(i, k)),
              step.silent() ? Optional.of(true) : Optional.empty()));
      i = k;
    }
    return entries;
  }

  /** Bars of one change in a row are one entry. */
  private static boolean follows(Inserted first, int count, Inserted next) {
    return next.change().equals(first.change()) && next.nth() == first.nth() + count;
  }

  private static Optional<NumberPlan.Added> added(List<PlayedPiece> steps) {
    Piece piece = steps.get(0).piece();
    return piece
        .added()
        .map(
            a ->
                new NumberPlan.Added(
                    steps.stream().map(s -> s.piece().shortName()).toList(),
                    a.known() ? Optional.of(piece.bar().content().word()) : Optional.empty(),
                    a.meter().map(m -> m.beats() + "/" + m.unit())));
  }

  private static Optional<Double> some(double beats) {
    return beats > 0 ? Optional.of(beats) : Optional.empty();
  }

  private static boolean continues(Piece piece, int count, PlayedPiece next, int pass) {
    Piece other = next.piece();
    if (piece.added().isPresent()) {
      return next.pass() == pass
          && other.added().filter(a -> follows(piece.added().get(), count, a)).isPresent();
    }
    return other.inserted().isEmpty()
        && other.bar() == piece.bar()
        && other.offset() == piece.offset() + count
        && piece.beatsCut() == 0
        && other.beatsCut() == 0
        && next.pass() == pass;
  }
}
