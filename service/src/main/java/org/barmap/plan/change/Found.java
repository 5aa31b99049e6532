package org.barmap.plan.change;

import java.util.List;

/** What looking an address up came to. */
public sealed interface Found {

  /** One place, and no other could be meant. */
  record At(Place place) implements Found {}

  /**
   * No place, or more than one.
   *
   * @param text what is wrong, one sentence
   * @param candidates addresses that would be understood; may be empty
   * @param places the places that may be meant, where there is more than one
   */
  record Refused(String text, List<String> candidates, List<Place> places) implements Found {
    /** Takes defensive copies. */
    public Refused {
      candidates = List.copyOf(candidates);
      places = List.copyOf(places);
    }

    /** Says that there is no such place. */
    public Refused(String text, List<String> candidates) {
      this(text, candidates, List.of());
    }
  }
}
