package org.barmap.plan.order;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;
import java.util.Optional;

/**
 * Bars of which nobody knows beforehand how often they are played.
 *
 * @param kind vamp or safety
 * @param first id of the first bar entry
 * @param last id of the last bar entry
 * @param leave how a vamp is left, {@code any-time} or {@code end-of-pass}, where known
 * @param change id of the change that says so; empty when the book does
 */
@JsonInclude(JsonInclude.Include.NON_ABSENT)
public record OpenStretch(
    Kind kind, String first, String last, Optional<String> leave, Optional<String> change) {

  /** What kind of open stretch. */
  public enum Kind {
    /** Repeated until the cue. */
    VAMP,
    /** Repeated only if the director says so. */
    SAFETY;

    /** Returns the word the format uses. */
    @JsonValue
    public String word() {
      return name().toLowerCase(Locale.ROOT);
    }
  }
}
