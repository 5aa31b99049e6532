package org.barmap.plan.piece;

import java.util.ArrayList;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
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
  private final WrittenNumber number;
  private final Addresses addresses;
  private final List<PlanFinding> findings;
  private AddedPlaces added;

  private Spans(WrittenNumber number, List<PlanFinding> findings) {
    this.number = number;
    this.addresses = new Addresses(number);
    this.findings = findings;
    this.added = new AddedPlaces(number, List.of());
  }

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
    Spans lookup = new Spans(number, findings);
    Map<ShowChange, Span> adding = new IdentityHashMap<>();
    for (ShowChange change : changes) {
      if (change.effects().added().isPresent()) {
        change.where().flatMap(w -> lookup.one(change, w)).ifPresent(s -> adding.put(change, s));
      }
    }
    lookup.added = new AddedPlaces(number, List.copyOf(adding.values()));
    for (ShowChange change : changes) {
      boolean adds = change.effects().added().isPresent();
      Optional<Span> span =
          adds
              ? Optional.ofNullable(adding.get(change))
              : change.where().flatMap(w -> lookup.one(change, w));
      span.ifPresent(spans::add);
    }
    return Restored.of(number, spans, findings);
  }

  private Optional<Span> one(ShowChange change, Stretch where) {
    Optional<AddedPlaces.Spot> firstAdded = added.find(where.first());
    Optional<AddedPlaces.Spot> lastAdded = added.find(where.last());
    Optional<Place> first = place(where.first(), firstAdded, change);
    if (first.isEmpty()) {
      return Optional.empty();
    }
    Optional<Place> last =
        where.last().equals(where.first()) ? first : place(where.last(), lastAdded, change);
    if (last.isEmpty()) {
      return Optional.empty();
    }
    int from = first.get().slot();
    int to = last.get().slot();
    boolean backwards =
        lastAdded.map(AddedPlaces.Spot::place).orElse((double) to)
                < firstAdded.map(AddedPlaces.Spot::place).orElse((double) from)
            || (to == from
                && last.get().beat().orElse(Double.MAX_VALUE) < first.get().beat().orElse(1));
    if (backwards) {
      findings.add(backwards(change, where, from));
      return Optional.empty();
    }
    boolean goesOn = firstAdded.isPresent() && lastAdded.isEmpty();
    return Optional.of(
        new Span(
            change,
            change.effects(),
            goesOn ? Math.min(to, from + 1) : Math.min(from, to),
            Math.max(from, to),
            first.get().beat(),
            last.get().beat(),
            firstAdded.map(AddedPlaces.Spot::label),
            lastAdded.map(AddedPlaces.Spot::label)));
  }

  private PlanFinding backwards(ShowChange change, Stretch where, int from) {
    return PlanFinding.change(
        Severity.ERROR,
        Optional.of(number.barAt(from).id()),
        "goes-backwards",
        number.spoken()
            + ": "
            + where.first()
            + " comes after "
            + where.last()
            + "; the change does nothing until that is put right",
        change);
  }

  private Optional<Place> place(String words, Optional<AddedPlaces.Spot> spot, ShowChange change) {
    if (spot.isPresent()) {
      return Optional.of(Place.bar(Math.max(0, spot.get().after())));
    }
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
