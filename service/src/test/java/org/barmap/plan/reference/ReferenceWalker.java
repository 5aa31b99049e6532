package org.barmap.plan.reference;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.BarMap;
import org.barmap.plan.reference.Questions.Ask;
import org.barmap.plan.reference.Walked.OfNumber;
import org.barmap.plan.reference.Walked.Playing;
import org.barmap.plan.reference.Walked.Reading;
import org.barmap.plan.reference.print.WrittenNumber;
import tools.jackson.databind.JsonNode;

/**
 * Walks a book the way a person reads it with a finger on the page, by the trade's rules alone; it
 * shares no code with the planner. Slow and plain. What the rules leave open is asked.
 */
public final class ReferenceWalker {

  /** At most so many readings of a number are walked. */
  private static final int READINGS = 64;

  private static final Set<String> OF_CHANGES = Set.of("address", "kind-unknown", "tacet-and-cut");

  private final BarMap map;
  private final List<Change> changes;
  private final boolean repeatsAfterJump;
  private final List<WrittenNumber> numbers;
  private final Questions ofBook = new Questions(Map.of());

  private ReferenceWalker(BarMap map, List<JsonNode> changes, boolean repeatsAfterJump) {
    this.map = map;
    this.changes = changes.stream().map(Change::new).filter(Change::on).toList();
    this.repeatsAfterJump = repeatsAfterJump;
    this.numbers = WrittenNumber.of(map);
  }

  /**
   * Walks a book.
   *
   * @param changes the entries of {@code changes} in a {@code changes/1} document
   * @param repeatsAfterJump the player's setting: repeats are taken again after a D.C. or D.S.
   */
  public static Walked walk(BarMap map, List<JsonNode> changes, boolean repeatsAfterJump) {
    return new ReferenceWalker(map, changes, repeatsAfterJump).walk();
  }

  private Walked walk() {
    Map<Integer, List<Change>> byNumber = byNumber();
    List<Integer> shown = showOrder();
    List<NumberWalk> first = new ArrayList<>();
    for (int k = 0; k < numbers.size(); k++) {
      first.add(one(k, byNumber, Map.of()));
    }
    StateWalk states = new StateWalk(map.book().part(), first);
    List<OfNumber> walked = new ArrayList<>();
    for (int k : shown) {
      NumberWalk number = first.get(k);
      boolean played = number.playing() == Playing.PLAYED;
      List<Walked.Sounding> order = states.begin(k);
      Map<List<Object>, Reading> readings = new LinkedHashMap<>();
      Heard heard = new Heard();
      for (Map<String, Integer> way : Questions.ways(asked(number), READINGS)) {
        NumberWalk one = way.isEmpty() ? number : one(k, byNumber, way);
        heard.add(way, one);
        if (one.playing() == Playing.PLAYED) {
          readings.computeIfAbsent(
              heard.of(way),
              w -> new Reading(one == number ? order : states.order(one), one.open()));
        }
      }
      states.end(k);
      List<Ask> asked = asked(number).stream().filter(heard::matters).toList();
      walked.add(
          new OfNumber(
              number.number().label(),
              number.playing(),
              played ? order : List.of(),
              played ? number.open() : List.of(),
              asked,
              List.copyOf(readings.values())));
    }
    return new Walked(walked, ofBook.asked());
  }

  /** Of a number that is not played only what is asked of its changes matters, not of its form. */
  private static List<Ask> asked(NumberWalk number) {
    List<Ask> asked = number.questions().asked();
    return number.playing() == Playing.PLAYED
        ? asked
        : asked.stream().filter(a -> OF_CHANGES.contains(a.key())).toList();
  }

  private NumberWalk one(int k, Map<Integer, List<Change>> byNumber, Map<String, Integer> way) {
    List<Change> own = byNumber.getOrDefault(k, List.of());
    return NumberWalk.of(numbers.get(k), own, repeatsAfterJump, new Questions(way));
  }

  private Map<Integer, List<Change>> byNumber() {
    Map<Integer, List<Change>> byNumber = new LinkedHashMap<>();
    for (Change change : changes) {
      if (!change.kind().equals("order")) {
        number(change)
            .ifPresent(k -> byNumber.computeIfAbsent(k, n -> new ArrayList<>()).add(change));
      }
    }
    return byNumber;
  }

  private Optional<Integer> number(Change change) {
    Optional<String> label = change.text("number");
    if (label.isEmpty()) {
      if (numbers.size() == 1) {
        return Optional.of(0);
      }
      ofBook.ask("number-missing", change.id(), "a change that names no number", "without it");
      return Optional.empty();
    }
    List<Integer> found = labelled(label.get());
    if (found.size() != 1) {
      // Source: trade.md, number: labels are inconsistent; plan-format.md: ambiguous is refused.
      ofBook.ask("number-unknown", change.id(), "no such number, or several", "without it");
      return Optional.empty();
    }
    return Optional.of(found.get(0));
  }

  private List<Integer> labelled(String label) {
    List<Integer> found = new ArrayList<>();
    for (int k = 0; k < numbers.size(); k++) {
      if (numbers.get(k).label().equals(label)) {
        found.add(k);
      }
    }
    return found;
  }

  // Source: plan-format.md, changes/1 (order).
  private List<Integer> showOrder() {
    List<Integer> shown = new ArrayList<>();
    for (int k = 0; k < numbers.size(); k++) {
      shown.add(k);
    }
    List<Change> orders = changes.stream().filter(c -> c.kind().equals("order")).toList();
    Set<List<String>> said = new HashSet<>();
    orders.forEach(o -> said.add(o.list("numbers")));
    if (said.size() > 1) {
      // Source: decided: two reorders ask.
      ofBook.ask("order-twice", orders.get(1).id(), "two orders of numbers", "neither");
      return shown;
    }
    if (orders.isEmpty()) {
      return shown;
    }
    List<Integer> listed = new ArrayList<>();
    for (String label : orders.get(0).list("numbers")) {
      List<Integer> found = labelled(label);
      if (found.size() != 1) {
        ofBook.ask("number-unknown", orders.get(0).id(), "no such number, or several", "as it was");
        return shown;
      }
      listed.addAll(found);
    }
    List<Integer> slots = listed.stream().sorted().toList();
    boolean together = slots.get(slots.size() - 1) - slots.get(0) == slots.size() - 1;
    if (!together) {
      // The trade texts do not say where numbers between those named go.
      ofBook.ask("order-part", orders.get(0).id(), "an order of some numbers", "the rest stay");
    }
    for (int i = 0; i < slots.size(); i++) {
      shown.set(slots.get(i), listed.get(i));
    }
    return shown;
  }
}
