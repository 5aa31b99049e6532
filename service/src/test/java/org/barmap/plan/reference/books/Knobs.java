package org.barmap.plan.reference.books;

import java.util.EnumMap;
import java.util.Map;

/**
 * How likely each feature is wherever it may come, 0 to 1, and how large a book is.
 *
 * @param likely a feature not in it never comes
 * @param sections about how many stretches a number has
 * @param changes at most so many changes in a book
 * @param sense how often what is printed and said is what a book and a director would say, see
 *     {@link Sense}; otherwise it comes anywhere
 */
public record Knobs(Map<Feature, Double> likely, int sections, int changes, double sense) {

  /** Takes a copy. */
  public Knobs {
    likely = Map.copyOf(likely);
  }

  /** Plain bars and rests, whole-bar cuts, a repeat now and then. */
  public static Knobs simple() {
    return new Knobs(Map.of(), 3, 2, 0)
        .with(0.25, Feature.RESTS, Feature.REPEATS, Feature.MARKS, Feature.CUTS, Feature.METERS)
        .with(0.1, Feature.INSERTS, Feature.OPENS, Feature.PLAYS, Feature.TEMPOS);
  }

  /** Books as they are printed, and changes as directors say them. */
  public static Knobs ordinary() {
    Knobs wild = wild();
    return new Knobs(wild.likely(), wild.sections(), wild.changes(), 0.96)
        .with(0.06, Feature.METERS_SAID)
        .with(0.3, Feature.EXITS)
        .with(0.001, Feature.BAD_ADDRESSES);
  }

  /** All that books and directors do, at any bars. */
  public static Knobs wild() {
    return new Knobs(Map.of(), 5, 3, 0)
        .with(0.3, Feature.NUMBERS, Feature.JUMPS, Feature.CODAS, Feature.FINES)
        .with(0.2, Feature.REPEATS, Feature.ENDINGS, Feature.TIMES, Feature.RESTS)
        .with(0.2, Feature.REPEATS_AFTER_JUMP, Feature.WORDED, Feature.CUTS)
        .with(0.15, Feature.MARKS, Feature.NESTED, Feature.OPEN_REPEATS, Feature.LONE_ENDINGS)
        .with(0.1, Feature.LINES, Feature.PRINTED_OPENS, Feature.PICKUPS, Feature.WITH_REPEATS)
        .with(0.1, Feature.PLAYS, Feature.OPENS, Feature.INSERTS, Feature.SETTINGS)
        .with(0.06, Feature.METERS, Feature.KEYS, Feature.TEMPOS, Feature.HANDS, Feature.BEATS)
        .with(0.06, Feature.BEAT_CUTS, Feature.REORDERS, Feature.TWICE, Feature.OFF)
        .with(0.03, Feature.PASS_WORDS, Feature.PAGES, Feature.LABELS, Feature.MARKED_BARS)
        .with(0.03, Feature.TACETS, Feature.TACET_PRINT, Feature.ALIKE_ENDINGS)
        .with(0.8, Feature.FIRST_BAR)
        .with(0.005, Feature.BAD_ADDRESSES);
  }

  /** Small numbers whose changes meet: in repeats, their endings and what jumps replay. */
  public static Knobs crowded() {
    return new Knobs(Map.of(), 2, 1, 0)
        .with(0.5, Feature.ENDINGS, Feature.REPEATS)
        .with(0.3, Feature.CUTS, Feature.PLAYS, Feature.ALIKE_ENDINGS, Feature.LONE_ENDINGS)
        .with(0.3, Feature.NESTED, Feature.MARKS, Feature.WORDED, Feature.CODAS, Feature.FINES)
        .with(0.2, Feature.JUMPS, Feature.OPENS, Feature.PRINTED_OPENS, Feature.TIMES)
        .with(0.15, Feature.RESTS, Feature.INSERTS, Feature.OPEN_REPEATS, Feature.PICKUPS)
        .with(0.1, Feature.REPEATS_AFTER_JUMP, Feature.WITH_REPEATS, Feature.BEAT_CUTS)
        .with(0.05, Feature.METERS, Feature.SETTINGS, Feature.TWICE, Feature.LINES)
        .with(0.8, Feature.FIRST_BAR);
  }

  /** Wild books with more of what repeats and jumps do, and more of what directors say. */
  public static Knobs full() {
    return wild()
        .with(0.3, Feature.NESTED_IN_ENDINGS, Feature.SIGNS_IN_REPEATS)
        .with(0.15, Feature.MORE_ENDINGS)
        .with(0.08, Feature.PASS_CUTS, Feature.PASSES_SAID, Feature.INSERTS_BEFORE)
        .with(0.08, Feature.JUMPS_SAID, Feature.PASS_WORDS)
        .with(0.2, Feature.RESTORES, Feature.METERS_SAID, Feature.EXITS);
  }

  /** The same with signs anywhere and more of everything. */
  public static Knobs hostile() {
    Knobs knobs = new Knobs(Map.of(), 7, 6, 0);
    for (Feature feature : Feature.values()) {
      knobs = knobs.with(0.2, feature);
    }
    return knobs
        .with(
            0.1, Feature.METERS, Feature.MARKED_BARS, Feature.TWICE, Feature.INSERTS, Feature.OPENS)
        .with(0.05, Feature.TACETS, Feature.REORDERS, Feature.PLAYS, Feature.BEAT_CUTS)
        .with(0.02, Feature.STRAY_SIGNS, Feature.BAD_ADDRESSES)
        .with(0, Feature.PASS_CUTS, Feature.PASSES_SAID, Feature.INSERTS_BEFORE)
        .with(0, Feature.RESTORES, Feature.JUMPS_SAID, Feature.NESTED_IN_ENDINGS)
        .with(0, Feature.MORE_ENDINGS, Feature.SIGNS_IN_REPEATS)
        .with(0, Feature.METERS_SAID, Feature.EXITS);
  }

  /** Returns the same knobs with some features as likely as said. */
  public Knobs with(double share, Feature... features) {
    Map<Feature, Double> other = new EnumMap<>(Feature.class);
    other.putAll(likely);
    for (Feature feature : features) {
      other.put(feature, share);
    }
    return new Knobs(other, sections, changes, sense);
  }

  /** Returns how likely a feature is. */
  double of(Feature feature) {
    return likely.getOrDefault(feature, 0.0);
  }
}
