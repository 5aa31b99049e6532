package org.barmap.edit.kind;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.function.Function;
import org.barmap.edit.draft.Aspect;
import org.barmap.edit.draft.Draft;
import org.barmap.map.Bar;
import org.barmap.map.Origin;

/** The common part of corrections that change one bar entry by itself. */
public sealed interface OneBar extends Correction
    permits BarCorrection, SetSilence, SignCorrection {

  /** Returns the id of the bar entry. */
  String bar();

  /** Returns what is wrong with the wanted values, one sentence each. */
  List<String> problems(Bar b);

  /** Returns the bar entry with the wanted values. */
  Bar change(Bar b);

  /** Returns what of the bar entry is set by a person from now on. */
  Set<Aspect> sets();

  /** Returns the line for the history. */
  String saysOf(String where, Bar b);

  /** Refuses unknown bars and values out of range. */
  @Override
  default List<String> validate(Draft draft) {
    return refusals(draft, bar(), this::problems);
  }

  /** Refuses an unknown bar, and what is wrong with the wanted values for a known one. */
  static List<String> refusals(Draft draft, String id, Function<Bar, List<String>> problems) {
    return draft.map().bar(id).map(problems).orElseGet(() -> List.of(noBar(id)));
  }

  /** Returns the sentence for an id that no bar has. */
  static String noBar(String id) {
    return "There is no bar with the id " + shown(id);
  }

  /** Changes the bar entry and remembers what a person has set of it. */
  @Override
  default Draft applyTo(Draft draft) {
    return put(draft, change(draft.map().bar(bar()).orElseThrow()), sets());
  }

  /** Returns the line for the history. */
  @Override
  default String says(Draft draft) {
    return draft.map().bar(bar()).map(b -> saysOf(Saying.bar(draft, b), b)).orElse("");
  }

  /** Puts a changed bar entry in its place, marked as corrected. */
  static Draft put(Draft draft, Bar changed, Set<Aspect> sets) {
    List<Bar> bars = new ArrayList<>(draft.map().bars());
    int at = draft.map().indexOf(changed.id());
    bars.set(at, corrected(changed));
    return draft.withBars(bars).with(draft.settled().with(changed.id(), sets));
  }

  /** Marks a bar entry as corrected by a person, unless its page is verified. */
  static Bar corrected(Bar bar) {
    return bar.origin() == Origin.VERIFIED
        ? bar
        : bar.toBuilder().origin(Origin.CORRECTED).confidence(1).build();
  }

  /** Reads an absent id as the empty one, which no bar has. */
  static String id(String bar) {
    return bar == null ? "" : bar;
  }

  /** Returns the sentence when a value is out of range. */
  static List<String> range(String sentence, int value, int from, int to) {
    return value < from || value > to ? List.of(sentence + ", not " + value) : List.of();
  }

  /** Returns the sentence when a text is too short or too long. */
  static List<String> length(String sentence, String text, int from, int to) {
    return text.length() < from || text.length() > to ? List.of(sentence) : List.of();
  }

  /** Returns an id short enough to be shown. */
  static String shown(String id) {
    return '"' + (id.length() > 40 ? id.substring(0, 40) + "…" : id) + '"';
  }
}
