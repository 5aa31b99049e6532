package org.barmap.plan;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Meter;
import org.barmap.map.Severity;
import org.barmap.plan.FormMark.Place;
import org.barmap.plan.FormMark.Spot;
import org.barmap.plan.change.Addresses;
import org.barmap.plan.change.Found;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.effect.Added;
import org.barmap.plan.change.effect.KeptWords;
import org.barmap.plan.change.effect.Marking;
import org.barmap.plan.change.effect.Stretch;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Saying;
import org.barmap.plan.order.OpenStretch;
import org.barmap.plan.piece.Span;
import org.barmap.plan.piece.Spans;
import org.barmap.plan.show.Parts;
import org.barmap.plan.show.Versions;

/**
 * Finds for every change that holds where it stands in the written form. It asks for what a change
 * does, never for its kind, so that a new kind has a place too.
 */
public final class FormMarks {
  private final List<WrittenNumber> written;
  private final Map<WrittenNumber, List<ShowChange>> byNumber = new IdentityHashMap<>();
  private final List<FormMark> marks = new ArrayList<>();

  private FormMarks(List<WrittenNumber> written) {
    this.written = written;
  }

  /**
   * Returns the marks of a show's changes, and of what the book itself holds open, number by number
   * as the book has them.
   *
   * @param plan the plan of that map with those changes
   */
  public static List<FormMark> of(BarMap map, ShowChanges changes, Plan plan) {
    FormMarks form = new FormMarks(WrittenNumber.all(map));
    List<PlanFinding> unheard = new ArrayList<>();
    List<ShowChange> held = Versions.holding(changes.active(), plan.settings().showing(), unheard);
    List<WrittenNumber> night = NumberOrder.ordered(form.written, held, unheard);
    for (ShowChange change : held) {
      List<ShowChange> parts = Parts.of(List.of(change), night, unheard);
      if (parts.isEmpty()) {
        form.lost(change);
      }
      parts.forEach(form::sort);
    }
    for (WrittenNumber number : form.written) {
      form.number(number, form.byNumber.getOrDefault(number, List.of()));
    }
    plan.numbers().forEach(n -> n.open().forEach(o -> form.open(n.label(), o)));
    return List.copyOf(form.marks);
  }

  /** What goes round says how one gets out of it; what the book says of itself comes in. */
  private void open(String label, OpenStretch open) {
    if (open.change().isPresent()) {
      marks.replaceAll(m -> m.change().equals(open.change().get()) ? m.opened(open.says()) : m);
      return;
    }
    for (WrittenNumber number : written) {
      int from = entry(number, open.first());
      int to = entry(number, open.last());
      if (number.label().equals(label) && from >= 0 && to >= from) {
        int first = number.starts()[from] + open.firstBar().map(b -> b - 1).orElse(0);
        int last = number.starts()[to] + open.lastBar().orElse(number.bars().get(to).count()) - 1;
        marks.add(bars("", number, open.says(), open.says(), first, last).opened(open.says()));
        return;
      }
    }
  }

  private static int entry(WrittenNumber number, String id) {
    for (int i = 0; i < number.bars().size(); i++) {
      if (number.bars().get(i).id().equals(id)) {
        return i;
      }
    }
    return -1;
  }

  private static FormMark bars(
      String change, WrittenNumber number, String sign, String says, int first, int last) {
    OptionalDouble whole = OptionalDouble.empty();
    return new FormMark(
        change,
        number.label(),
        Place.BARS,
        sign,
        says,
        Optional.of(start(number, first, whole)),
        Optional.of(end(number, last, whole)),
        List.of(),
        false);
  }

  /** Puts a change to its number; what belongs to none stands over the whole show. */
  private void sort(ShowChange change) {
    Optional<List<String>> order = change.effects().order();
    boolean general = change.kept().isPresent() && change.number().isEmpty() && written.size() > 1;
    if (order.isPresent() || general) {
      marks.add(head(change, "", Place.SHOW));
      return;
    }
    Optional<WrittenNumber> number = NumberOrder.of(written, change, new ArrayList<>());
    if (number.isPresent()) {
      byNumber.computeIfAbsent(number.get(), n -> new ArrayList<>()).add(change);
    } else {
      lost(change);
    }
  }

  private void lost(ShowChange change) {
    marks.add(head(change, change.number(), Place.LOST));
  }

  private static FormMark head(ShowChange change, String number, Place place) {
    return new FormMark(change.meta().id(), number, place, sign(change), change.says());
  }

  private void number(WrittenNumber number, List<ShowChange> changes) {
    List<PlanFinding> refused = new ArrayList<>();
    Map<ShowChange, List<Span>> spans = new IdentityHashMap<>();
    for (Span span : Spans.of(number, changes, refused)) {
      spans.computeIfAbsent(span.change(), c -> new ArrayList<>()).add(span);
    }
    Set<String> wrong = new HashSet<>();
    for (PlanFinding finding : refused) {
      finding.change().filter(c -> finding.severity() == Severity.ERROR).ifPresent(wrong::add);
    }
    for (ShowChange change : changes) {
      if (spans.containsKey(change)) {
        spans.get(change).forEach(s -> marks.add(span(number, s)));
      } else if (wrong.contains(change.meta().id())) {
        marks.add(head(change, number.label(), Place.LOST));
      } else if (!leavesOut(change)) { // what is in again altogether is no longer out anywhere
        marks.add(unspanned(number, change));
      }
    }
  }

  /** A change without bars of its own, or whose bars are only looked at: what is in again. */
  private static FormMark unspanned(WrittenNumber number, ShowChange change) {
    Optional<Stretch> where =
        change.where().or(() -> change.kept().flatMap(KeptWords::first).map(Stretch::at));
    if (where.isEmpty()) {
      boolean behind = change.effects().link().isPresent();
      return head(change, number.label(), behind ? Place.END : Place.HEAD);
    }
    Addresses addresses = new Addresses(number);
    if (addresses.find(where.get().first()) instanceof Found.At from
        && addresses.find(where.get().last()) instanceof Found.At to
        && to.place().slot() >= from.place().slot()) {
      return bars(
          change.meta().id(),
          number,
          sign(change),
          change.says(),
          from.place().slot(),
          to.place().slot());
    }
    return head(change, number.label(), change.kept().isPresent() ? Place.HEAD : Place.LOST);
  }

  private static boolean leavesOut(ShowChange change) {
    return change.effects().leavesOut() || change.effects().course().inPass().isPresent();
  }

  private static FormMark span(WrittenNumber number, Span span) {
    ShowChange change = span.change();
    Optional<Added> added = span.effects().added();
    if (added.isPresent()) {
      boolean before = added.get().before();
      Optional<Spot> at =
          Optional.of(
              before
                  ? start(number, span.from(), OptionalDouble.empty())
                  : end(number, span.from(), OptionalDouble.empty()));
      List<String> names = added.get().labels();
      return new FormMark(
          change.meta().id(),
          number.label(),
          Place.NEW_BARS,
          "+ " + Saying.many(added.get().bars(), "bar"),
          change.says(),
          at,
          Optional.empty(),
          names.isEmpty() ? Collections.nCopies(added.get().bars(), "") : names,
          false);
    }
    boolean point = change.where().filter(w -> w.first().equals(w.last())).isPresent();
    boolean one =
        point && change.marking().filter(m -> m.where() == Marking.Where.FIRST).isPresent();
    return new FormMark(
        change.meta().id(),
        number.label(),
        Place.BARS,
        sign(change),
        change.says(),
        Optional.of(start(number, span.from(), span.fromBeat())),
        one ? Optional.empty() : Optional.of(end(number, span.to(), span.toBeat())),
        List.of(),
        false);
  }

  private static String sign(ShowChange change) {
    return change.marking().map(Marking::sign).orElseGet(change::says);
  }

  private static Spot start(WrittenNumber number, int slot, OptionalDouble beat) {
    return spot(number, slot, beat.isPresent() ? (beat.getAsDouble() - 1) : 0);
  }

  private static Spot end(WrittenNumber number, int slot, OptionalDouble beat) {
    return spot(number, slot, beat.isPresent() ? beat.getAsDouble() : -1);
  }

  /** Returns the spot so many beats into a bar; -1 for its end, also where no meter is known. */
  private static Spot spot(WrittenNumber number, int slot, double beats) {
    int entry = number.entryAt(slot);
    Bar bar = number.bars().get(entry);
    int inBar = bar.meter().map(Meter::beats).orElse(0);
    double share = beats == 0 ? 0 : beats < 0 || inBar == 0 ? 1 : Math.min(1, beats / inBar);
    return new Spot(bar.id(), (slot - number.starts()[entry] + share) / bar.count());
  }
}
