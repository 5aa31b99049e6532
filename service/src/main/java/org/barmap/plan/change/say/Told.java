package org.barmap.plan.change.say;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Predicate;
import org.barmap.map.Bar;
import org.barmap.map.Meter;
import org.barmap.plan.change.effect.Stretch;

/**
 * One instruction for one number, and the ways to answer it.
 *
 * @param <C> the kinds of change it may be
 */
public interface Told<C> {

  /** Returns the words, without the number's name. */
  String words();

  /** Returns the id and note the change gets. */
  Meta meta();

  /** Returns the label of the number; may be empty. */
  String number();

  /** Returns whose part it is, as the instruments' names have it; empty where unknown. */
  String chair();

  /** Returns the meter at a bar, where the words name one and it is known. */
  Optional<Meter> meterAt(String bar);

  /**
   * Answers an instruction about a stretch of bars: "34 to 49", "the last four bars".
   *
   * @param said the words for the stretch; where they can't be understood, that is asked back
   * @param make makes the change
   * @param says what the bars "are", behind their names
   */
  Heard<C> range(String said, Function<Stretch, C> make, String says);

  /**
   * Answers an instruction about a stretch of bars whose last bar is meant wherever it is named, a
   * rehearsal mark behind "to" as well.
   */
  Heard<C> through(String said, Function<Stretch, C> make, String says);

  /**
   * Answers an instruction that leaves bars out; what is read back says what is out and where one
   * lands.
   *
   * @param said the words for the stretch
   * @param make makes the change
   * @param only when that is so, behind a comma; may be empty
   */
  Heard<C> out(String said, Function<Stretch, C> make, String only);

  /**
   * Answers an instruction about one bar that may have to be told from another.
   *
   * @param where the words for the bar
   * @param make makes the change from the address
   * @param says the sentence, from the bar's name
   */
  Heard<C> at(String where, Function<String, C> make, Function<String, String> says);

  /**
   * Answers an instruction about one bar.
   *
   * @param where the words for the bar; where they can't be understood, that is asked back
   * @param change the change it would be
   * @param says the sentence, from the bar's name
   */
  Heard<C> at(String where, C change, Function<String, String> says);

  /** Answers with what was understood. */
  Heard<C> understood(C change, String says);

  /** Asks back. */
  Heard<C> asked(String question, List<String> candidates);

  /** Asks which of several ways is meant. */
  Heard<C> choose(String question, List<Heard.Reading<C>> readings);

  /** Returns the stretches that are repeated as printed, in reading order. */
  List<PrintedRepeat> repeats();

  /**
   * Returns the stretches that a printed word holds open: the repeats under it, or the bars where
   * there are no signs.
   *
   * @param word "vamp" or "safety"
   */
  List<PrintedRepeat> open(String word);

  /** Returns how the bars are called in which something is printed, in reading order. */
  List<String> bars(Predicate<Bar> printed);

  /** Tells whether a D.C. or a D.S. is printed in the number. */
  boolean jumpsBack();

  /** Tells whether the words are a bar, or a stretch of bars, of the number. */
  boolean namesBars(String said);

  /**
   * A repeat as printed.
   *
   * @param bars from the bar where it begins to the one with the last sign that leads back
   * @param endings how many endings it has; 0 for none
   * @param open "vamp" or "safety" where a word over its bars says that it is one; else empty
   * @param says its bars, to be read
   */
  record PrintedRepeat(Stretch bars, int endings, String open, String says) {}
}
