package org.barmap.plan.turn;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

/** How the pages lie before the player. */
public enum Binding {
  /** A bound book, odd pages on the right. */
  ODD_RIGHT,
  /** Two pages at a time, odd pages on the left. */
  ODD_LEFT,
  /** One sheet at a time. */
  SINGLE_SHEETS;

  /** Returns the word the format uses. */
  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** Returns which opening a page lies in; a turn lies between any two. */
  public int opening(int page) {
    return switch (this) {
      case ODD_RIGHT -> page / 2;
      case ODD_LEFT -> (page + 1) / 2;
      case SINGLE_SHEETS -> page;
    };
  }
}
