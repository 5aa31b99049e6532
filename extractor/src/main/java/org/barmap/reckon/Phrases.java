package org.barmap.reckon;

import java.util.List;
import java.util.Optional;
import org.barmap.map.Navigation;
import org.barmap.sign.WordMeaning;

/** What words at a bar mean for the order of play; the phrases are common practice. */
public final class Phrases {

  private Phrases() {}

  /** Returns the navigation a phrase stands for: "D.S. al Coda" gives dal-segno; may be empty. */
  public static List<Navigation> navigation(String text) {
    return WordMeaning.of(text).navigation().map(List::of).orElse(List.of());
  }

  /** Returns how often "3X", "play three times" ask to play in all. */
  public static Optional<Integer> times(String text) {
    return WordMeaning.of(text).times();
  }
}
