package org.barmap.plan.reference;

import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * What the walker found of a book.
 *
 * @param numbers in the order of the show
 * @param asked what is asked of the book as a whole
 */
public record Walked(List<OfNumber> numbers, List<Questions.Ask> asked) {

  /** What the player does with a number. */
  public enum Playing {
    PLAYED,
    TACET,
    OUT
  }

  /**
   * One number.
   *
   * @param order bars as they sound, one by one; empty unless played
   * @param open vamps and safeties, bars by id and offset
   * @param asked what is asked; the order is then that of the first reading
   * @param readings all readings, the first one first
   */
  public record OfNumber(
      String label,
      Playing playing,
      List<Sounding> order,
      List<Open> open,
      List<Questions.Ask> asked,
      List<Reading> readings) {}

  /** What a number comes to when its questions are answered in one way. */
  public record Reading(List<Sounding> order, List<Open> open) {}

  /**
   * One bar that sounds.
   *
   * @param bar id of its entry
   * @param offset which bar of the entry, 0 for the first
   * @param name what a player calls it
   * @param inserted whether it is an inserted bar, then behind the entry's bar
   * @param cut beats left out of it, in the meter's lower figure
   * @param pass of the innermost repeat around it
   * @param time 1 when the bar sounds for the first time in the number
   * @param state values that are right at this bar
   */
  public record Sounding(
      String bar,
      int offset,
      String name,
      boolean inserted,
      Cuts.Left cut,
      int pass,
      int time,
      Map<Aspect, Set<String>> state) {

    /** The bar and what is left of it: what orders are compared by. */
    public String says() {
      StringBuilder says = new StringBuilder(inserted ? "+" + name : name);
      says.append(cut.atStart() > 0 ? "s" + Aspect.figure(cut.atStart()) : "");
      says.append(cut.inside() > 0 ? "m" + Aspect.figure(cut.inside()) : "");
      says.append(cut.atEnd() > 0 ? "e" + Aspect.figure(cut.atEnd()) : "");
      return says.toString();
    }

    /** The same, with the entry's id instead of its name, so that bars named alike differ. */
    public String key() {
      return bar + "/" + offset + says();
    }
  }

  /** An open stretch: kind, first bar and last bar as "id/offset", and as a player says them. */
  public record Open(String kind, String first, String last, String says) {}
}
