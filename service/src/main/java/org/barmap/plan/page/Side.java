package org.barmap.plan.page;

import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;

/** On which side of an opening a page lies. */
public enum Side {
  /** Left. */
  LEFT,
  /** Right: the page after it is seen when the leaf is turned. */
  RIGHT,
  /** Nothing says it, or nothing is bound. */
  UNKNOWN;

  /** Returns the word the format uses. */
  @JsonValue
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }
}
