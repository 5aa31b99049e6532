package org.barmap.plan.show;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.Optional;

/**
 * Which version of the show is planned, and for which day.
 *
 * @param version as changes name it: "matinee", "evening", "understudy"; empty where nobody said
 * @param today the day, ISO 8601; changes that ended before it don't hold. Empty where nobody said
 */
@JsonInclude(JsonInclude.Include.NON_ABSENT)
public record Showing(Optional<String> version, Optional<String> today) {

  /** Nothing said. */
  public static final Showing ANY = new Showing(Optional.empty(), Optional.empty());
}
