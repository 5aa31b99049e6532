package org.barmap.plan.turn;

import com.fasterxml.jackson.annotation.JsonIgnore;
import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonProperty;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Locale;
import java.util.Optional;

/**
 * One way to get over a page turn.
 *
 * @param kind what to do
 * @param after id of the bar entry after, or in, which the page is turned
 * @param memorise bars with notes to play from memory
 * @param bars bars to write out, or on the fold-out
 * @param first id of the first bar entry to remember, write out or fold out
 * @param last id of the last one
 * @param cost by the cost model of this package
 * @param chosen part of the cheapest set of turns of its number
 * @param says the same in plain words, without the caution that belongs to its kind
 */
@JsonInclude(JsonInclude.Include.NON_ABSENT)
public record Advice(
    Kind kind,
    Optional<String> after,
    Optional<Integer> memorise,
    Optional<Integer> bars,
    Optional<String> first,
    Optional<String> last,
    double cost,
    boolean chosen,
    @JsonIgnore String says) {

  private static final String AGREEMENT =
      " Copying from a hired book is for the hire agreement and local copyright rules to allow: ask"
          + " the hirer or the show's librarian first.";

  /** The leaf to turn back lies on the left (an opening as it lies); common practice. */
  private static final String BACK =
      " It goes back: the leaf lies on the left, where the left hand reaches it.";

  /** What to do at a turn. */
  public enum Kind {
    /** Turn where the page ends; there is a gap. */
    TURN_HERE,
    /** Turn in an earlier gap and play the rest of the page from memory. */
    TURN_EARLY,
    /** Play the start of the new page from memory and turn in a later gap. */
    TURN_LATE,
    /** Write the first bars of the new page out at the foot of the old one. */
    WRITE_OUT,
    /** Write the last bars of the old page out at the head of the new one. */
    WRITE_OUT_BEFORE,
    /** Copy the next systems onto a fold-out. */
    FOLD_OUT,
    /** A copy of one page on the stand beside the book, so that nothing is turned. */
    LOOSE_COPY,
    /** Stay on the page that is open and play the other one from memory. */
    STAY,
    /** Leave notes out. */
    LEAVE_OUT;

    /** Tells whether notes of the book are copied: whoever does it must be told to ask first. */
    boolean copies() {
      return this == WRITE_OUT
          || this == WRITE_OUT_BEFORE
          || this == FOLD_OUT
          || this == LOOSE_COPY;
    }

    /** Returns the word the format uses. */
    @JsonValue
    public String word() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
  }

  /** Returns it in plain words, with the caution that belongs to its kind. */
  @JsonProperty("text")
  public String text() {
    return kind.copies() ? says + AGREEMENT : says;
  }

  /** Returns the same advice where the turn goes back in a bound book: which hand reaches it. */
  Advice back() {
    boolean turns = kind != Kind.STAY && kind != Kind.LOOSE_COPY;
    String hand = turns && chosen ? BACK : "";
    return new Advice(kind, after, memorise, bars, first, last, cost, chosen, says + hand);
  }

  /** Returns the same advice, chosen or not. */
  Advice chosen(boolean now) {
    return new Advice(kind, after, memorise, bars, first, last, cost, now, says);
  }

  /** Returns the same advice at a cost. */
  Advice at(double price) {
    return new Advice(kind, after, memorise, bars, first, last, price, chosen, says);
  }
}
