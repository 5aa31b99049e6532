package org.barmap.exchange.chair;

import java.util.List;
import java.util.Optional;
import org.barmap.exchange.CutList;
import org.barmap.map.BarMap;
import org.barmap.plan.change.effect.Stretch;
import org.barmap.plan.change.kind.ShowChange;

/**
 * Bars of one book in another book of the same show, whose bars are numbered otherwise: counted on
 * from what both have before them, see {@link org.barmap.reckon.compare.BarPairs}.
 *
 * <p>Nothing is said where the books disagree how many bars lie between two such places, or before
 * the first mark where that doesn't lie equally far from the start.
 */
public record ChairBars(TwoParts parts) {

  /** Looks at two books. */
  public ChairBars(BarMap one, BarMap other) {
    this(TwoParts.of(one, other, List.of()));
  }

  /** Returns what a bar of the first book is called in the other; empty where that is not sure. */
  public Optional<String> of(String number, String bar) {
    return parts.of(number, bar);
  }

  /**
   * Returns a cut list with the other book's bars behind each line, where they are others: "No. 7:
   * cut 34 to 49 [the director's 42 to 57]".
   *
   * @param whose how the other book is spoken of
   */
  public List<String> beside(List<ShowChange> changes, String whose) {
    return changes.stream().map(c -> CutList.line(c) + said(c, whose)).toList();
  }

  private String said(ShowChange change, String whose) {
    if (change.where().isEmpty()) {
      return "";
    }
    return span(change)
        .map(span -> " [" + whose + " " + span + "]")
        .orElse(" [" + whose + " bars are not known]");
  }

  /** Returns the bars a change is about as the other book calls them, "42 to 57". */
  public Optional<String> span(ShowChange change) {
    Optional<Stretch> where = change.where();
    Optional<String> first = where.flatMap(w -> of(change.number(), w.first()));
    Optional<String> last = where.flatMap(w -> of(change.number(), w.last()));
    return first.flatMap(f -> last.map(l -> span(f, l)));
  }

  /** Returns a stretch of bars in words, "42 to 57"; "42" for one bar. */
  public static String span(String first, String last) {
    return first.equals(last) ? first : first + " to " + last;
  }
}
