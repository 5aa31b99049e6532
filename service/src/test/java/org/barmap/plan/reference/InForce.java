package org.barmap.plan.reference;

import java.util.EnumMap;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** What is in force at one moment; changed as the finger moves on. */
final class InForce {

  private final Map<Aspect, Set<String>> values = new EnumMap<>(Aspect.class);

  /** A key a change has set, until the print says one again. */
  Optional<String> keySaid = Optional.empty();

  /** "in two", until the meter changes. */
  Optional<String> beatsSaid = Optional.empty();

  /** "in two" as it was said last in the number, whatever meter came behind it. */
  Optional<String> lastSaid = Optional.empty();

  /** The first tempo of the number; what it was before a rit. */
  Set<String> firstTempo = Set.of();

  Set<String> beforeGradual = Set.of();

  InForce() {
    for (Aspect aspect : Aspect.values()) {
      values.put(aspect, Set.of(Aspect.UNKNOWN));
    }
  }

  InForce copy() {
    InForce copy = new InForce();
    copy.values.putAll(values);
    copy.keySaid = keySaid;
    copy.beatsSaid = beatsSaid;
    copy.lastSaid = lastSaid;
    copy.firstTempo = firstTempo;
    copy.beforeGradual = beforeGradual;
    return copy;
  }

  Set<String> get(Aspect aspect) {
    return values.getOrDefault(aspect, Set.of(Aspect.UNKNOWN));
  }

  void set(Aspect aspect, Set<String> allowed) {
    values.put(aspect, Set.copyOf(allowed));
  }

  void set(Aspect aspect, String value) {
    values.put(aspect, Set.of(value));
  }

  static Set<String> union(Set<String> one, Set<String> two) {
    Set<String> both = new LinkedHashSet<>(one);
    both.addAll(two);
    return both;
  }
}
