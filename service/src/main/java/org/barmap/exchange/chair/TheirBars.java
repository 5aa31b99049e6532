package org.barmap.exchange.chair;

import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.barmap.map.BarMap;
import org.barmap.plan.change.Addresses;
import org.barmap.plan.change.Found;
import org.barmap.plan.change.Place;
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
   * Returns bars of this part as the other one calls them, "Director 42 to 57"; "Director 12 or 14"
   * where two endings are numbered alike here and not there; "Director: not sure" where they can't
   * be told.
   *
   * @param number label of the number they are in; may be empty in a book that has only one
   */
  public Optional<String> beside(String number, String first, String last) {
    Optional<NumberPair> pair = parts.number(number);
    List<Integer> firsts = pair.map(p -> slots(p, first)).orElse(List.of());
    List<Integer> lasts = pair.map(p -> slots(p, last)).orElse(List.of());
    if (firsts.isEmpty() || lasts.isEmpty()) {
      return Optional.empty();
    }
    Optional<String> from = sure(pair.orElseThrow(), first, firsts);
    Optional<String> to = sure(pair.orElseThrow(), last, lasts);
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

  /** Returns where a bar is; several places where its number occurs more than once. */
  private static List<Integer> slots(NumberPair pair, String bar) {
    Found found = new Addresses(pair.here()).find(bar);
    return found instanceof Found.At at
        ? List.of(at.place().slot())
        : ((Found.Refused) found).places().stream().map(Place::slot).toList();
  }

  private static Optional<String> sure(NumberPair pair, String bar, List<Integer> slots) {
    if (slots.stream().anyMatch(s -> pair.there(s).isEmpty())) {
      return Optional.empty();
    }
    boolean alike =
        slots.size() > 1
            && slots.stream()
                .allMatch(s -> name(pair, s).equals(Optional.of(pair.here().nameAt(s))));
    return alike
        ? Optional.of(bar)
        : Optional.of(
            slots.stream()
                .flatMap(s -> name(pair, s).stream())
                .distinct()
                .collect(Collectors.joining(" or ")));
  }

  private static Optional<String> name(NumberPair pair, int slot) {
    return pair.there(slot).map(pair.there()::nameAt);
  }
}
