package org.barmap.plan.order;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonProperty;
import com.fasterxml.jackson.annotation.JsonUnwrapped;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.barmap.plan.change.effect.Leaving;
import org.barmap.plan.change.term.Pass;

/**
 * Bars of which nobody knows beforehand how often they are played.
 *
 * @param kind vamp or safety
 * @param first id of the first bar entry
 * @param last id of the last bar entry
 * @param firstBar which bar of the first entry it begins with, 1 for its first; only where it
 *     begins inside a multi-bar rest
 * @param lastBar which bar of the last entry it ends with; only where it ends inside a multi-bar
 *     rest
 * @param bars the bars as a player calls them, "9-12", "33"
 * @param leaving how it is left, as far as known
 * @param pass in which pass of a repeat around it; empty for every one
 * @param places where it comes in the order of play
 * @param change id of the change that says so; empty when the book does
 */
@JsonInclude(JsonInclude.Include.NON_ABSENT)
public record OpenStretch(
    Kind kind,
    String first,
    String last,
    Optional<Integer> firstBar,
    Optional<Integer> lastBar,
    String bars,
    @JsonUnwrapped Leaving leaving,
    Optional<Pass> pass,
    @JsonInclude(JsonInclude.Include.NON_EMPTY) List<Place> places,
    Optional<String> change) {

  /** Takes a defensive copy. */
  public OpenStretch {
    places = List.copyOf(places);
  }

  /** What kind of open stretch. */
  public enum Kind {
    /** Repeated until the cue. */
    VAMP,
    /** Repeated only if the director says so. */
    SAFETY;

    /** Returns the word the format uses. */
    @JsonValue
    public String word() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  /**
   * One of the places where it comes in the order of play.
   *
   * @param from how many single bars of the order of play come before it, each bar of a multi-bar
   *     rest and pickups counted
   * @param bars how many single bars one time through it has there
   */
  public record Place(int from, int bars) {}

  /** Returns the same stretch with the places where it comes. */
  OpenStretch at(List<Place> found) {
    return new OpenStretch(
        kind, first, last, firstBar, lastBar, bars, leaving, pass, found, change);
  }

  /** Returns it as a length says what comes on top of it: "vamp 9-12". */
  public String named() {
    return kind.word() + " " + bars;
  }

  /** Returns it with how it is left: "vamp 9-12 till the cart stops, out after bar 10". */
  @JsonProperty("says")
  public String says() {
    return named()
        + pass.map(p -> " " + p.says()).orElse("")
        + till()
        + leaving.out().map(o -> ", " + o).orElse("");
  }

  /** Returns until when it goes on, with a blank before it: " till cue", " if needed". */
  public String till() {
    return kind == Kind.SAFETY
        ? leaving.cue().map(c -> " till " + c).orElse(" if needed")
        : " till " + leaving.cue().orElse("cue");
  }

  /** Tells whether the player is told the same of two stretches, wherever they come. */
  public boolean same(OpenStretch other) {
    return at(List.of()).equals(other.at(List.of()));
  }
}
