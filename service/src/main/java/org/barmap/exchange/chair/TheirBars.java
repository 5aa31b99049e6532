package org.barmap.exchange.chair;

import java.util.List;
import java.util.Optional;
import org.barmap.map.BarMap;
import org.barmap.plan.change.Addresses;
import org.barmap.plan.change.Found;
import org.barmap.plan.change.kind.ShowChange;

/**
 * What bars are called in the other part, said beside this part's own names. Nothing is said where
 * both call them the same, or where the other part doesn't have the number.
 *
 * @param parts this part and the other one
 * @param whose what the other part is called, "Director"
 */
public record TheirBars(TwoParts parts, String whose) {

  /** Lays two books beside each other. */
  public static TheirBars of(BarMap here, BarMap there) {
    String part = there.book().part().strip();
    return new TheirBars(
        TwoParts.of(here, there, List.of()), part.isEmpty() ? "the other part" : part);
  }

  /**
   * Returns bars of this part as the other one calls them, "Director 42 to 57"; "Director: not
   * sure" where they can't be told.
   *
   * @param number label of the number they are in; may be empty in a book that has only one
   */
  public Optional<String> beside(String number, String first, String last) {
    Optional<NumberPair> pair = parts.number(number);
    if (pair.isEmpty() || slot(pair.get(), first).isEmpty() || slot(pair.get(), last).isEmpty()) {
      return Optional.empty();
    }
    Optional<String> from = sure(pair.get(), first);
    Optional<String> to = sure(pair.get(), last);
    if (from.isEmpty() || to.isEmpty()) {
      return Optional.of(whose + ": not sure");
    }
    return from.get().equals(first) && to.get().equals(last)
        ? Optional.empty()
        : Optional.of(whose + " " + ChairBars.span(from.get(), to.get()));
  }

  /** Returns the bars a change is about as the other part calls them, see {@link #beside}. */
  public Optional<String> beside(ShowChange change) {
    return change.where().flatMap(w -> beside(change.number(), w.first(), w.last()));
  }

  private static Optional<Integer> slot(NumberPair pair, String bar) {
    return new Addresses(pair.here()).find(bar) instanceof Found.At at
        ? Optional.of(at.place().slot())
        : Optional.empty();
  }

  private static Optional<String> sure(NumberPair pair, String bar) {
    return slot(pair, bar).flatMap(pair::there).map(pair.there()::nameAt);
  }
}
