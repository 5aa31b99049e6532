package org.barmap.reckon.write;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.Bar;
import org.barmap.map.Finding.Answer;
import org.barmap.reckon.cells.Marks;

/**
 * What people set by hand and nobody has confirmed since: where the print contradicts the counting,
 * it may be the reason.
 *
 * @param counts ids of entries whose count was set
 * @param numbers ids of entries whose number was set
 */
public record HandSet(Set<String> counts, Set<String> numbers) {

  /** Nothing was set. */
  public static final HandSet NOTHING = new HandSet(Set.of(), Set.of());

  /** Takes defensive copies. */
  public HandSet {
    counts = Set.copyOf(counts);
    numbers = Set.copyOf(numbers);
  }

  /**
   * An entry that was set by hand, counted from without a printed number that agrees in between.
   *
   * @param bar the entry
   * @param number whether its number was set, and not its count
   */
  record Reason(Bar bar, boolean number) {

    /** It was called "23A": it has no number of its own that could be another one. */
    private boolean named() {
      return number && bar.label().filter(Marks::isLettered).isPresent();
    }

    private String name() {
      return named() ? bar.label().orElseThrow() : Integer.toString(bar.number());
    }

    /** What was done, as the end of a sentence. */
    String says() {
      if (named()) {
        return "an earlier bar was called " + name();
      }
      return number
          ? "the number of an earlier bar was set to " + bar.number()
          : "the rest at " + bar.number() + " was set to " + bar.count();
    }

    /** What stays when the print is not believed. */
    String stays() {
      return number
          ? "Bar " + name() + " stays " + name()
          : "The rest at " + bar.number() + " stays " + bar.count();
    }

    /** The value that makes the counting agree with the print; empty where there is none. */
    Optional<Answer> asked(int printed, int counted) {
      if (named()) {
        return Optional.empty();
      }
      int value = (number ? bar.number() : bar.count()) + printed - counted;
      if (number) {
        return value < 0
            ? Optional.empty()
            : Optional.of(
                new Answer(
                    "Bar " + bar.number() + " is " + value, FindingWriter.number(bar, value)));
      }
      Map<String, String> count =
          Map.of("kind", "set-count", "bar", bar.id(), "count", Integer.toString(value));
      return value < 1
          ? Optional.empty()
          : Optional.of(new Answer("The rest at " + bar.number() + " is " + value, count));
    }
  }

  /** Tells whether a person set the number of this entry. */
  boolean numbered(Bar bar) {
    return numbers.contains(bar.id());
  }

  /** Tells whether a person called this entry "23A", whatever its print looked like. */
  boolean named(Bar bar) {
    return numbered(bar) && bar.label().filter(Marks::isLettered).isPresent();
  }

  /** The nearest entry before one that was set by hand and decides what counting gives there. */
  Optional<Reason> before(List<Item> items, int at) {
    for (int i = at - 1; i >= 0; i--) {
      Bar bar = items.get(i).bar();
      boolean goesOn = i + 1 == at || bar.nextNumber() == items.get(i + 1).bar().number();
      if (!goesOn) {
        return Optional.empty();
      }
      if (counts.contains(bar.id()) && bar.isRest()) {
        return Optional.of(new Reason(bar, false));
      }
      if (numbered(bar)) {
        return Optional.of(new Reason(bar, true));
      }
      if (items.get(i).printed().stream().anyMatch(t -> Marks.number(t) == bar.number())) {
        return Optional.empty();
      }
    }
    return Optional.empty();
  }
}
