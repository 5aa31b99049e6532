package org.barmap.plan.reference.books;

import java.util.EnumMap;
import java.util.Map;

/**
 * How likely each feature is wherever it may come, 0 to 1, and how large a book is.
 *
 * @param likely a feature not in it never comes
 * @param sections about how many stretches a number has
 * @param changes at most so many changes in a book
 */
public record Knobs(Map<Feature, Double> likely, int sections, int changes) {

  /** Takes a copy. */
  public Knobs {
    likely = Map.copyOf(likely);
  }

  /** Plain bars and rests, whole-bar cuts, a repeat now and then. */
  public static Knobs simple() {
    return new Knobs(Map.of(), 3, 2)
        .with(0.25, Feature.RESTS, Feature.REPEATS, Feature.MARKS, Feature.CUTS, Feature.METERS)
        .with(0.1, Feature.INSERTS, Feature.OPENS, Feature.PLAYS, Feature.TEMPOS);
  }

  /** All that a decent book and a decent director do. */
  public static Knobs ordinary() {
    Knobs knobs = new Knobs(Map.of(), 5, 5);
    for (Feature feature : Feature.values()) {
      knobs = knobs.with(0.2, feature);
    }
    return knobs
        .with(0.5, Feature.CUTS, Feature.JUMPS, Feature.NUMBERS)
        .with(0.05, Feature.BAD_ADDRESSES, Feature.TACETS, Feature.REORDERS, Feature.NESTED)
        .with(0.05, Feature.ALIKE_ENDINGS, Feature.TWICE, Feature.OFF, Feature.TACET_PRINT)
        .with(0, Feature.STRAY_SIGNS, Feature.PASS_CUTS);
  }

  /** The same with signs anywhere and more of everything. */
  public static Knobs hostile() {
    Knobs knobs = new Knobs(Map.of(), 7, 12);
    for (Feature feature : Feature.values()) {
      knobs = knobs.with(0.3, feature);
    }
    return knobs
        .with(0.05, Feature.STRAY_SIGNS, Feature.TACETS, Feature.REORDERS)
        .with(0, Feature.PASS_CUTS);
  }

  /** Returns the same knobs with some features as likely as said. */
  public Knobs with(double share, Feature... features) {
    Map<Feature, Double> other = new EnumMap<>(Feature.class);
    other.putAll(likely);
    for (Feature feature : features) {
      other.put(feature, share);
    }
    return new Knobs(other, sections, changes);
  }

  /** Returns how likely a feature is. */
  double of(Feature feature) {
    return likely.getOrDefault(feature, 0.0);
  }
}
