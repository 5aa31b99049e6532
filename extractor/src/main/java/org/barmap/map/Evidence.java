package org.barmap.map;

import com.fasterxml.jackson.annotation.JsonFormat;
import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonPropertyOrder;
import java.util.List;
import java.util.Optional;

/**
 * What the page itself says about a bar entry, sign by sign, kept so that the book can be settled
 * again after a correction.
 *
 * @param counts readings of its rest's numeral, best first; empty where none stands
 * @param numbers readings of bar numbers printed at its start, best first; empty where none stands
 * @param marks readings of the rehearsal mark over its start, likewise
 * @param meters readings of the time signature printed in it, likewise
 * @param rest how likely its rest stands for several bars, 0 to 1; absent means 1
 * @param number how likely the printed number is a bar number, 0 to 1; absent means 1
 * @param second what a second reading of the music says of the entry, where there is one
 * @param endLine how likely the barline at its right side is one, 0 to 1
 */
@JsonInclude(JsonInclude.Include.NON_EMPTY)
public record Evidence(
    List<Alternative> counts,
    List<Alternative> numbers,
    List<Alternative> marks,
    List<Alternative> meters,
    double rest,
    double number,
    Optional<Second> second,
    double endLine) {

  /** Takes defensive copies; absent lists are empty. */
  public Evidence {
    counts = counts == null ? List.of() : List.copyOf(counts);
    numbers = numbers == null ? List.of() : List.copyOf(numbers);
    marks = marks == null ? List.of() : List.copyOf(marks);
    meters = meters == null ? List.of() : List.copyOf(meters);
    rest = rest > 0 ? rest : 1;
    number = number > 0 ? number : 1;
    second = second == null ? Optional.empty() : second;
  }

  /** Evidence of signs that are there for sure, without marks and meters. */
  public Evidence(List<Alternative> counts, List<Alternative> numbers, double endLine) {
    this(counts, numbers, List.of(), List.of(), 1, 1, Optional.empty(), endLine);
  }

  /** Returns the same with what a second reading says, and its numeral weighed with it. */
  public Evidence with(List<Alternative> newCounts, Second said) {
    return new Evidence(
        newCounts, numbers, marks, meters, rest, number, Optional.of(said), endLine);
  }

  /**
   * What a second reading says of an entry.
   *
   * @param count how many bars it has there; 0 for none
   * @param number what it calls the first of them; may be empty
   * @param read how many bars the page's own numeral says, which the second reading is weighed
   *     against; 0 for none, absent means 0
   * @param begins its numbers begin or jump here, so that {@code number} is more than counted on;
   *     absent means no
   */
  public record Second(int count, String number, int read, boolean begins) {}

  /**
   * One possible reading; written as {@code ["8", 0.93]}.
   *
   * @param text as read
   * @param probability 0 to 1
   */
  @JsonFormat(shape = JsonFormat.Shape.ARRAY)
  @JsonPropertyOrder({"text", "probability"})
  public record Alternative(String text, double probability) {
    /** One whose probability is written as maps have it. */
    public static Alternative rounded(String text, double probability) {
      return new Alternative(text, Evidence.rounded(probability));
    }
  }

  /** Steps to a whole in which maps write probabilities. */
  private static final double STEPS = 1000;

  /** A probability or share as maps write it, to three decimals. */
  public static double rounded(double share) {
    return Math.round(share * STEPS) / STEPS;
  }
}
