package org.barmap.reckon;

import java.util.Set;

/**
 * What people set in a map, by bar id; settling never changes it.
 *
 * @param counts bars whose content or count was set or verified
 * @param numbers bars whose number was set or verified
 * @param answered bars whose doubts were answered; none is raised for them again
 */
public record Fixed(Set<String> counts, Set<String> numbers, Set<String> answered) {

  /** Takes defensive copies. */
  public Fixed {
    counts = Set.copyOf(counts);
    numbers = Set.copyOf(numbers);
    answered = Set.copyOf(answered);
  }

  /** Nothing was set. */
  public static final Fixed NOTHING = new Fixed(Set.of(), Set.of(), Set.of());
}
