package org.barmap.edit.kind;

import java.util.Optional;
import org.barmap.edit.draft.Draft;
import org.barmap.map.Bar;
import org.barmap.map.MusicalNumber;
import org.barmap.map.rule.AlikeEndings;

/** Names bars and pages as a player would say them. */
public final class Saying {

  private Saying() {}

  /** Returns "bar 34 of No. 7", or "bar 34" in a book without musical numbers. */
  static String bar(Draft draft, Bar bar) {
    String own = bar.label().orElseGet(() -> Integer.toString(bar.number()));
    String name =
        "bar " + (bar.ending().isEmpty() ? own : AlikeEndings.of(draft.map()).called(bar, own));
    return numberOf(draft, bar).map(n -> name + " of No. " + n.label()).orElse(name);
  }

  /** Returns the same for an id; the id itself where there is no such bar. */
  public static String bar(Draft draft, String id) {
    return draft.map().bar(id).map(b -> bar(draft, b)).orElse("bar " + id);
  }

  /** Returns the musical number a bar lies in. */
  static Optional<MusicalNumber> numberOf(Draft draft, Bar bar) {
    return draft.map().numbers().stream()
        .filter(n -> draft.map().barsOf(n).stream().anyMatch(b -> b.id().equals(bar.id())))
        .findFirst();
  }

  /** Returns the text with its first letter in upper case. */
  public static String sentence(String text) {
    return text.isEmpty() ? text : Character.toUpperCase(text.charAt(0)) + text.substring(1);
  }
}
