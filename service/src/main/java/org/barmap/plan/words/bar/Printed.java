package org.barmap.plan.words.bar;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.barmap.map.Bar;
import org.barmap.map.Barline;
import org.barmap.map.Key;
import org.barmap.map.Navigation;
import org.barmap.map.Word;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.effect.Stretch;
import org.barmap.plan.change.say.Told.PrintedRepeat;
import org.barmap.plan.change.term.Figures;
import org.barmap.plan.change.term.Metronome;
import org.barmap.plan.change.term.Transposed;
import org.barmap.plan.words.grammar.Bars;

/** What is printed in a number, as far as words lean on it: "once more", "down to B flat". */
public final class Printed {
  private static final String TONICS = "FCGDAEB";

  /** F is one fifth below C. */
  private static final int OF_F = -1;

  private static final int SHARP = 7;
  private static final int MINOR = -3;
  private static final int OCTAVE = 12;
  private static final int FIFTH = 7;

  private Printed() {}

  /**
   * Returns how often bars are played as printed: twice under a repeat of which nothing is said.
   */
  public static int times(Scope scope, int first, int last) {
    WrittenNumber number = scope.number();
    return scope.repeats().stream()
        .filter(r -> r.open().isEmpty())
        .filter(r -> slot(scope, r.bars().first()) <= first && slot(scope, r.bars().last()) >= last)
        .mapToInt(r -> said(number, slot(scope, r.bars().first()), slot(scope, r.bars().last())))
        .max()
        .orElse(1);
  }

  private static int said(WrittenNumber number, int first, int last) {
    int times = 2;
    for (int i = number.entryAt(first); i <= number.entryAt(last); i++) {
      Bar bar = number.bars().get(i);
      times = Math.max(times, bar.times().orElse(0));
    }
    return times;
  }

  private static int slot(Scope scope, String bar) {
    Scope.Looked looked = scope.find(bar);
    return looked.places().isEmpty() ? -1 : looked.places().get(0).slot();
  }

  /** Returns the bars of the only repeat. */
  public static Optional<String> repeat(Scope scope) {
    List<Stretch> all =
        scope.repeats().stream().filter(r -> r.open().isEmpty()).map(PrintedRepeat::bars).toList();
    return all.size() == 1
        ? Optional.of(all.get(0).first() + " to " + all.get(0).last())
        : Optional.empty();
  }

  /**
   * Returns the interval from the first key of a number to another; empty for a part that may be
   * written in another key than it sounds.
   */
  public static Optional<String> toKey(Scope scope, String key, int way) {
    boolean asItSounds = scope.chair().isEmpty() || scope.chair().equals("bass");
    Optional<Key> from =
        scope.number().bars().stream().limit(1).flatMap(b -> b.key().stream()).findFirst();
    if (!asItSounds || from.isEmpty()) {
      return Optional.empty();
    }
    int fifths = fifths(key) - from.get().fifths();
    int semitones = Math.floorMod(FIFTH * fifths, OCTAVE);
    boolean down = way < 0 || way == 0 && semitones > OCTAVE / 2;
    if (semitones == 0) {
      return Optional.empty();
    }
    return Optional.of(Transposed.says(down ? semitones - OCTAVE : semitones));
  }

  private static int fifths(String key) {
    String low = key.toLowerCase(Locale.ROOT);
    int tonic = TONICS.indexOf(key.charAt(0)) + OF_F;
    boolean sharp = low.contains("sharp") || low.contains("#");
    boolean flat = low.contains("flat") || low.matches("[a-g]b.*");
    int alter = sharp ? SHARP : flat ? -SHARP : 0;
    return tonic + alter + (low.contains("minor") ? MINOR : 0);
  }

  /** Returns the metronome mark in force at a bar as it is printed. */
  public static Optional<String> tempo(Scope scope, int slot) {
    WrittenNumber number = scope.number();
    for (int i = number.entryAt(slot); i >= 0; i--) {
      for (Word word : number.bars().get(i).words()) {
        OptionalDouble quarters = Metronome.quartersPerMinute(word.text());
        if (quarters.isPresent()) {
          return Optional.of("quarter = " + Figures.plain(quarters.getAsDouble()));
        }
      }
    }
    return Optional.empty();
  }

  /** Returns the bars of the rest that lies at a bar. */
  public static Optional<Bars.Ends> rest(Scope scope, int slot) {
    WrittenNumber number = scope.number();
    if (slot < 0 || slot >= scope.slots() || !number.barAt(slot).isRest()) {
      return Optional.empty();
    }
    int first = number.entryAt(slot);
    int last = first;
    while (first > 0
        && number.bars().get(first - 1).isRest()
        && number.bars().get(first).rehearsal().isEmpty()) {
      first--;
    }
    while (last + 1 < number.bars().size()
        && number.bars().get(last + 1).isRest()
        && number.bars().get(last + 1).rehearsal().isEmpty()) {
      last++;
    }
    int to = number.starts()[last] + number.bars().get(last).count() - 1;
    int from = number.starts()[first];
    return Optional.of(
        new Bars.Ends(number.nameAt(from), number.nameAt(to), from == 0, to == scope.slots() - 1));
  }

  /** Returns a bar at what is printed once. */
  public static Optional<String> landmark(Scope scope, String printed, boolean behind) {
    WrittenNumber number = scope.number();
    if (printed.equals("vamp") || printed.equals("safety") || printed.equals("repeat")) {
      List<Stretch> those =
          scope.repeats().stream()
              .filter(r -> r.open().equals(printed.equals("repeat") ? "" : printed))
              .map(PrintedRepeat::bars)
              .toList();
      return those.size() == 1
          ? Optional.of(behind ? those.get(0).last() : those.get(0).first())
          : Optional.empty();
    }
    List<Integer> begins = new ArrayList<>();
    for (int i = 1; i < number.bars().size(); i++) {
      Bar before = number.bars().get(i - 1);
      Bar bar = number.bars().get(i);
      boolean there =
          switch (printed) {
            case "jump" -> before.has(Navigation.DA_CAPO) || before.has(Navigation.DAL_SEGNO);
            case "to coda" -> before.has(Navigation.TO_CODA);
            case "double bar" -> before.endBarline() == Barline.DOUBLE;
            case "key" ->
                bar.key().isPresent()
                    && before.key().isPresent()
                    && !bar.key().get().sameAs(before.key().get());
            case "meter" ->
                bar.meter().isPresent()
                    && before.meter().isPresent()
                    && !bar.meter().get().sameAs(before.meter().get());
            default -> false;
          };
      if (there) {
        begins.add(number.starts()[i]);
      }
    }
    return begins.size() == 1
        ? Optional.of(number.nameAt(begins.get(0) - (behind ? 1 : 0)))
        : Optional.empty();
  }
}
