package org.barmap.plan.piece;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Severity;
import org.barmap.plan.change.Addresses;
import org.barmap.plan.change.Found;
import org.barmap.plan.change.Place;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.effect.Stretch;
import org.barmap.plan.change.kind.ShowChange;

/** Looks up the bars that changes name. */
public final class Spans {
  private Spans() {}

  /**
   * Returns the changes of one number that name bars, looked up; those that can't be are findings.
   *
   * @param changes active changes of this number
   * @param findings what is refused is added here
   */
  public static List<Span> of(
      WrittenNumber number, List<ShowChange> changes, List<PlanFinding> findings) {
    List<Span> spans = new ArrayList<>();
    if (changes.isEmpty()) {
      return spans;
    }
    Addresses addresses = new Addresses(number);
    for (ShowChange change : changes) {
      change
          .where()
          .flatMap(w -> one(number, addresses, change, w, findings))
          .ifPresent(spans::add);
    }
    return spans;
  }

  private static Optional<Span> one(
      WrittenNumber number,
      Addresses addresses,
      ShowChange change,
      Stretch where,
      List<PlanFinding> findings) {
    Optional<Place> first = place(addresses, where.first(), change, findings);
    if (first.isEmpty()) {
      return Optional.empty();
    }
    Optional<Place> last =
        where.last().equals(where.first())
            ? first
            : place(addresses, where.last(), change, findings);
    if (last.isEmpty()) {
      return Optional.empty();
    }
    int from = first.get().slot();
    int to = last.get().slot();
    boolean backwards =
        to < from
            || (to == from
                && last.get().beat().orElse(Double.MAX_VALUE) < first.get().beat().orElse(1));
    if (backwards) {
      findings.add(
          PlanFinding.change(
              Severity.ERROR,
              Optional.of(number.barAt(from).id()),
              "goes-backwards",
              number.spoken()
                  + ": "
                  + where.first()
                  + " comes after "
                  + where.last()
                  + "; the change does nothing until that is put right",
              change));
      return Optional.empty();
    }
    return Optional.of(
        new Span(change, change.effects(), from, to, first.get().beat(), last.get().beat()));
  }

  private static Optional<Place> place(
      Addresses addresses, String words, ShowChange change, List<PlanFinding> findings) {
    Found found = addresses.find(words);
    if (found instanceof Found.At at) {
      return Optional.of(at.place());
    }
    Found.Refused refused = (Found.Refused) found;
    findings.add(
        PlanFinding.change(
                Severity.ERROR,
                Optional.empty(),
                "address",
                "A " + change.kind() + " does nothing: " + refused.text(),
                change)
            .withCandidates(refused.candidates()));
    return Optional.empty();
  }
}
