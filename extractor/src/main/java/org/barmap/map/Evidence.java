package org.barmap.map;

import com.fasterxml.jackson.annotation.JsonFormat;
import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonPropertyOrder;
import java.util.List;

/**
 * What the page itself says about a bar entry, kept so that the book can be settled again after a
 * correction.
 *
 * @param counts readings of its rest's numeral, best first; empty where none stands
 * @param numbers readings of bar numbers printed at its start, best first; empty where none stands
 * @param endLine how likely the barline at its right side is one, 0 to 1
 */
@JsonInclude(JsonInclude.Include.NON_EMPTY)
public record Evidence(List<Alternative> counts, List<Alternative> numbers, double endLine) {

  /** Takes defensive copies; absent lists are empty. */
  public Evidence {
    counts = counts == null ? List.of() : List.copyOf(counts);
    numbers = numbers == null ? List.of() : List.copyOf(numbers);
  }

  /**
   * One possible reading; written as {@code ["8", 0.93]}.
   *
   * @param text as read
   * @param probability 0 to 1
   */
  @JsonFormat(shape = JsonFormat.Shape.ARRAY)
  @JsonPropertyOrder({"text", "probability"})
  public record Alternative(String text, double probability) {}
}
