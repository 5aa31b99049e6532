package org.barmap.library;

import java.util.Locale;

/** How far the reading of a page is. */
public enum PageState {
  /** Not begun. */
  WAITING,
  /** Under way, or broken off by a kill. */
  READING,
  /** Done. */
  READ,
  /** Not possible; the page says why. */
  FAILED;

  /** Returns the word used in JSON and in the store. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** Returns the state a word stands for. */
  public static PageState of(String word) {
    return valueOf(word.toUpperCase(Locale.ROOT));
  }
}
