package org.barmap.plan.order;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.Optional;
import org.barmap.plan.change.term.Link;

/**
 * What lies between a number and the next one that the player plays.
 *
 * @param link how it follows
 * @param next label of the number that follows in the show; empty after the last one
 * @param seconds how long it takes until then, where a change says so
 * @param cue what one waits for, where a change says so
 * @param tacet numbers in between in which the player doesn't play
 */
@JsonInclude(JsonInclude.Include.NON_ABSENT)
public record Following(
    Link link,
    Optional<String> next,
    Optional<Double> seconds,
    Optional<String> cue,
    @JsonInclude(JsonInclude.Include.NON_DEFAULT) int tacet) {

  /** Nothing is known. */
  public static final Following UNKNOWN =
      new Following(Link.UNKNOWN, Optional.empty(), Optional.empty(), Optional.empty(), 0);

  /** Returns the same with one more number in between in which the player doesn't play. */
  public Following withTacet() {
    return new Following(link, next, seconds, cue, tacet + 1);
  }

  /** Tells whether the next bar played follows at once, in the same stretch of time. */
  public boolean joined() {
    return link.joined() && tacet == 0;
  }

  /** Tells whether there is time for anything: a scene, or a number without the player. */
  public boolean apart() {
    return tacet > 0 || (link == Link.BREAK && seconds.isEmpty());
  }

  /** Says what lies between, in plain words. */
  public String says() {
    if (tacet > 0) {
      return tacet == 1 ? "you are tacet in the number between" : "you are tacet in between";
    }
    String how =
        switch (link) {
          case UNKNOWN -> "nothing says what lies between the numbers";
          case BREAK -> "the next number doesn't follow directly";
          case APPLAUSE_SEGUE -> "the next number comes after the applause";
          case SEGUE -> "the next number comes on cue";
          case SEGUE_AS_ONE -> "the next number comes in time";
          case ATTACCA -> "the next number comes at once";
        };
    return how + cue.map(c -> ", on " + c).orElse("");
  }
}
