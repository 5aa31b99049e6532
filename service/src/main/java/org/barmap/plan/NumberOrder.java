package org.barmap.plan;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.barmap.map.Severity;
import org.barmap.plan.change.Off;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.Question;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.kind.ShowChange;

/** Finds numbers by their label and puts them in the order of the night. */
final class NumberOrder {
  private NumberOrder() {}

  /** Returns the number a change is about; what can't be found is a finding. */
  static Optional<WrittenNumber> of(
      List<WrittenNumber> numbers, ShowChange change, List<PlanFinding> findings) {
    List<WrittenNumber> named =
        change.number().isEmpty()
            ? numbers
            : numbers.stream().filter(n -> same(n.label(), change.number())).toList();
    if (named.size() == 1) {
      return Optional.of(named.get(0));
    }
    String text =
        change.number().isEmpty()
            ? "A " + change.kind() + " names no number; which one is meant?"
            : named.isEmpty()
                ? "There is no No. " + change.number() + " in this book"
                : "There is more than one No. " + change.number();
    findings.add(
        PlanFinding.change(Severity.ERROR, Optional.empty(), "number", text, change)
            .withCandidates(
                numbers.stream()
                    .map(NumberOrder::candidate)
                    .limit(PlanFinding.MOST_NUMBERS)
                    .toList()));
    return Optional.empty();
  }

  private static String candidate(WrittenNumber number) {
    return number.title().isEmpty() ? number.label() : number.label() + " " + number.title();
  }

  private static boolean same(String label, String said) {
    return label.strip().equalsIgnoreCase(said.strip());
  }

  /** Returns the numbers in the order of the night. */
  static List<WrittenNumber> ordered(
      List<WrittenNumber> numbers, List<ShowChange> changes, List<PlanFinding> findings) {
    List<ShowChange> orders =
        changes.stream().filter(c -> c.effects().order().isPresent()).toList();
    List<WrittenNumber> order = applied(numbers, orders, findings);
    for (int i = 1; i < orders.size(); i++) {
      findings.add(twice(numbers, orders.subList(0, i), orders.get(i)));
    }
    return order;
  }

  private static List<WrittenNumber> applied(
      List<WrittenNumber> numbers, List<ShowChange> orders, List<PlanFinding> findings) {
    List<WrittenNumber> order = new ArrayList<>(numbers);
    for (ShowChange change : orders) {
      // of several orders it is asked which one holds
      boolean alone = orders.size() == 1;
      change.effects().order().ifPresent(l -> reorder(order, l, change, alone, findings));
    }
    return order;
  }

  /** Two orders of numbers: one after the other, or only one of them. */
  private static PlanFinding twice(
      List<WrittenNumber> numbers, List<ShowChange> before, ShowChange later) {
    List<ShowChange> all = new ArrayList<>(before);
    all.add(later);
    List<PlanFinding> untold = new ArrayList<>();
    List<WrittenNumber> after = applied(numbers, all, untold);
    String both = said(after);
    String last = said(applied(numbers, List.of(later), untold));
    String first = said(applied(numbers, before, untold));
    boolean same = both.equals(last) && both.equals(first);
    Map<String, List<ShowChange>> ways = new LinkedHashMap<>();
    ways.put(both, same ? before : alone(before, whole(after, later)));
    ways.putIfAbsent(last, alone(before, Optional.of(later)));
    ways.put(first, before);
    List<Question.Reading> readings =
        ways.entrySet().stream()
            .map(w -> new Question.Reading(w.getKey(), Optional.empty(), w.getValue()))
            .toList();
    PlanFinding finding =
        PlanFinding.change(
            Severity.DOUBT,
            Optional.empty(),
            same ? "said-twice" : "order-twice",
            same
                ? "This order of numbers is said twice; it counts once."
                : "There are two orders of numbers; which one holds?",
            later);
    Question.Topic topic = same ? Question.Topic.DUPLICATE : Question.Topic.ORDER;
    return finding.asking(new Question(topic, Optional.empty(), readings));
  }

  /** Returns the changes after which one order holds and those before it don't. */
  private static List<ShowChange> alone(List<ShowChange> before, Optional<ShowChange> order) {
    return order.stream()
        .flatMap(o -> Stream.concat(before.stream().map(Off::of), Stream.of(o)))
        .toList();
  }

  /** Returns one change that says a whole order; empty where not every number has a name. */
  private static Optional<ShowChange> whole(List<WrittenNumber> order, ShowChange later) {
    List<String> labels = order.stream().map(WrittenNumber::label).toList();
    boolean named =
        labels.stream().noneMatch(String::isEmpty) && Set.copyOf(labels).size() == labels.size();
    return named ? Optional.of(ShowChange.order(later.meta(), labels)) : Optional.empty();
  }

  private static String said(List<WrittenNumber> order) {
    return order.stream()
        .limit(PlanFinding.MOST_NUMBERS)
        .map(n -> n.label().isEmpty() ? n.spoken() : n.label())
        .collect(Collectors.joining(", "));
  }

  private static void reorder(
      List<WrittenNumber> order,
      List<String> labels,
      ShowChange change,
      boolean alone,
      List<PlanFinding> findings) {
    List<Integer> places = new ArrayList<>();
    List<WrittenNumber> wanted = new ArrayList<>();
    for (String label : labels) {
      List<Integer> at = new ArrayList<>();
      for (int i = 0; i < order.size(); i++) {
        if (same(order.get(i).label(), label)) {
          at.add(i);
        }
      }
      if (at.size() != 1 || places.contains(at.get(0))) {
        findings.add(
            PlanFinding.change(
                    Severity.ERROR,
                    Optional.empty(),
                    "number",
                    "The order of numbers names "
                        + label
                        + ", which this book doesn't have just once; the order stays as printed",
                    change)
                .withCandidates(
                    order.stream()
                        .map(NumberOrder::candidate)
                        .limit(PlanFinding.MOST_NUMBERS)
                        .toList()));
        return;
      }
      places.add(at.get(0));
      wanted.add(order.get(at.get(0)));
    }
    places.sort(null);
    int first = places.get(0);
    int last = places.get(places.size() - 1);
    if (alone && last - first > places.size() - 1) {
      findings.add(apart(order, places, wanted, change));
    }
    for (int i = 0; i < places.size(); i++) {
      order.set(places.get(i), wanted.get(i));
    }
  }

  /** Some numbers that don't stand together: each in a place of the others, or in a row. */
  private static PlanFinding apart(
      List<WrittenNumber> before,
      List<Integer> places,
      List<WrittenNumber> wanted,
      ShowChange change) {
    List<WrittenNumber> changed = new ArrayList<>(before);
    for (int i = 0; i < places.size(); i++) {
      changed.set(places.get(i), wanted.get(i));
    }
    List<WrittenNumber> others = new ArrayList<>(before);
    others.removeAll(wanted);
    List<WrittenNumber> early = new ArrayList<>(others);
    early.addAll(places.get(0), wanted);
    List<WrittenNumber> late = new ArrayList<>(others);
    late.addAll(places.get(places.size() - 1) - places.size() + 1, wanted);
    Map<String, List<WrittenNumber>> ways = new LinkedHashMap<>();
    for (List<WrittenNumber> way : List.of(changed, early, late)) {
      ways.putIfAbsent(said(way), way);
    }
    List<Question.Reading> readings = new ArrayList<>();
    ways.forEach(
        (says, way) ->
            readings.add(
                new Question.Reading(
                    says, Optional.empty(), whole(way, change).map(List::of).orElse(List.of()))));
    return PlanFinding.change(
            Severity.DOUBT,
            Optional.empty(),
            "order-part",
            "This order names "
                + String.join(", ", wanted.stream().map(WrittenNumber::label).toList())
                + ", and there are numbers between them that it doesn't name; where do those go?",
            change)
        .asking(new Question(Question.Topic.ORDER, Optional.empty(), readings));
  }
}
