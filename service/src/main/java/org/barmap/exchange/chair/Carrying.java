package org.barmap.exchange.chair;

import java.util.List;
import org.barmap.plan.change.kind.ShowChange;

/**
 * Changes of one part said in the bars of another. What is said by a mark both parts have is left
 * as it was said; what is said by numbers is said in the other part's. A change of which one bar
 * has no sure partner is not carried at all.
 */
public final class Carrying {

  /**
   * What came of a list.
   *
   * @param changes in the other part's bars, with the ids they had
   * @param left what could not be carried
   */
  public record Carried(List<ShowChange> changes, List<Left> left) {
    /** Takes defensive copies. */
    public Carried {
      changes = List.copyOf(changes);
      left = List.copyOf(left);
    }
  }

  /**
   * A change that was not carried.
   *
   * @param change as it was
   * @param says it in words
   * @param why one sentence
   */
  public record Left(ShowChange change, String says, String why) {}

  /** Says changes of this part in the other part's bars. */
  public static Carried carry(TwoParts parts, List<ShowChange> changes) {
    return new Carrier(parts, Carrier.Called.BOOKS, true).all(changes);
  }

  /**
   * Says what a player typed in the bars of somebody else's part in their own.
   *
   * @param parts the other's part first, then the player's
   * @param whose what the other's part is called
   */
  static Carried typed(TwoParts parts, List<ShowChange> changes, String whose) {
    Carrier.Called called = new Carrier.Called(whose + "'s part", "this part", whose + "'s ");
    return new Carrier(parts, called, false).all(changes);
  }
}
