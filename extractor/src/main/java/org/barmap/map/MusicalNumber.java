package org.barmap.map;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.Optional;

/**
 * One musical number of the show, "No. 7 Low Tide".
 *
 * @param label what it is called in the book, "7" or "7A"
 * @param title its title, may be empty
 * @param firstBar id of its first bar entry; empty for a tacet number without bars
 * @param lastBar id of its last bar entry; empty for a tacet number without bars
 * @param tacet the player does not play in it
 */
public record MusicalNumber(
    String label,
    String title,
    Optional<String> firstBar,
    Optional<String> lastBar,
    @JsonInclude(JsonInclude.Include.NON_DEFAULT) boolean tacet) {

  /** Reads absent keys as empty. */
  public MusicalNumber {
    title = title == null ? "" : title;
    firstBar = firstBar == null ? Optional.empty() : firstBar;
    lastBar = lastBar == null ? Optional.empty() : lastBar;
  }

  /** Returns a copy with another first and last bar entry. */
  public MusicalNumber withBars(Optional<String> first, Optional<String> last) {
    return new MusicalNumber(label, title, first, last, tacet);
  }
}
