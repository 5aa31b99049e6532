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
   */
  record Refused(String text, List<String> candidates) implements Found {
    /** Takes a defensive copy. */
    public Refused {
      candidates = List.copyOf(candidates);
    }
  }
}
