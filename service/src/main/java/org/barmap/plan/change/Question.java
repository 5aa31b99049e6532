package org.barmap.plan.change;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.barmap.plan.change.kind.ShowChange;
import tools.jackson.databind.annotation.JsonSerialize;

/**
 * What a finding asks: the page and what was said leave more than one way, and only a person knows
 * which is meant.
 *
 * @param topic what it is about
 * @param about the bar it is about as the player names it, or the number for a link; empty where it
 *     is about the book
 * @param readings the ways; the plan goes by the first, where {@code goesBy} says no other. One
 *     alone stands where the other ways can't be told beforehand
 * @param goesBy the index of the reading that the plan goes by, where that isn't the first
 */
public record Question(
    Topic topic,
    @JsonInclude(JsonInclude.Include.NON_ABSENT) Optional<String> about,
    List<Reading> readings,
    @JsonInclude(JsonInclude.Include.NON_DEFAULT) int goesBy) {

  /** Takes a defensive copy. */
  public Question {
    readings = List.copyOf(readings);
  }

  /** Makes a question of which the plan goes by the first reading. */
  public Question(Topic topic, Optional<String> about, List<Reading> readings) {
    this(topic, about, readings, 0);
  }

  /** What a question is about. */
  public enum Topic {
    /** How often, and from where, bars are repeated. */
    REPEAT,
    /** Which bars a vamp or safety holds open. */
    VAMP,
    /** Where one goes on after bars left out. */
    LANDING,
    /** How the next number follows. */
    LINK,
    /** On which side of an opening pages lie. */
    SIDE,
    /** In which order numbers come. */
    ORDER,
    /** What inserted bars are, and where. */
    INSERT,
    /** What is played on. */
    INSTRUMENT,
    /** How fast it goes. */
    TEMPO,
    /** Which beats, or how many, are meant. */
    BEATS,
    /** Which meter holds. */
    METER,
    /** Whether something was said twice, or two things against each other. */
    DUPLICATE,
    /** What a track asks for. */
    TRACK,
    /** In which passes something holds. */
    PASS;

    /** Returns the word the format uses. */
    @JsonValue
    public String word() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  /**
   * One way.
   *
   * @param says it, in the words of the trade, short enough for a button
   * @param bars the bars as they would sound, {@code "1-4 (5-6)v 7"}, where the ways differ in that
   * @param instead the changes that say this way beyond doubt, to be put in the place of the change
   *     that the finding is about; empty where none can
   */
  @JsonInclude(JsonInclude.Include.NON_EMPTY)
  public record Reading(
      String says,
      Optional<String> bars,
      @JsonSerialize(contentUsing = ChangeWriter.class) List<ShowChange> instead) {

    /** Takes a defensive copy. */
    public Reading {
      instead = List.copyOf(instead);
    }

    /** Returns a way that is told in words alone. */
    public static Reading of(String says) {
      return new Reading(says, Optional.empty(), List.of());
    }
  }
}
