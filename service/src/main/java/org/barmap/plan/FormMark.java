package org.barmap.plan;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * A change of the show where it stands in the written form.
 *
 * @param change id of the change; empty where the book itself says so
 * @param number label of the number it stands in; empty for the whole show, and for a book without
 *     numbers
 * @param place at bars, as new bars, at the head or at the end of a number, or at no bar there is
 * @param sign what a player would write there, "in 2", "VAMP, out any time"
 * @param says the change in words, without its number
 * @param from where it begins; only at bars and as new bars
 * @param to where it ends, where it has bars from one to another
 * @param added what new bars are called; "" where they have no name
 * @param open its bars go round until somebody says so
 */
@JsonInclude(JsonInclude.Include.NON_ABSENT)
public record FormMark(
    String change,
    String number,
    Place place,
    String sign,
    String says,
    Optional<Spot> from,
    Optional<Spot> to,
    @JsonInclude(JsonInclude.Include.NON_EMPTY) List<String> added,
    @JsonInclude(JsonInclude.Include.NON_DEFAULT) boolean open) {

  /** Takes a defensive copy. */
  public FormMark {
    added = List.copyOf(added);
  }

  /** A mark at a number, not at its bars. */
  FormMark(String change, String number, Place place, String sign, String says) {
    this(change, number, place, sign, says, Optional.empty(), Optional.empty(), List.of(), false);
  }

  /** Returns it as bars that go round, with what is said of them. */
  FormMark opened(String how) {
    return new FormMark(change, number, place, how, says, from, to, added, true);
  }

  /** Where a mark stands. */
  public enum Place {
    /** At a bar, or from one bar to another. */
    BARS,
    /** New bars, at the spot where they come in. */
    NEW_BARS,
    /** At the head of its number. */
    HEAD,
    /** Behind the last bar of its number. */
    END,
    /** At the head of the whole show. */
    SHOW,
    /** Nowhere: it names bars, or a number, that the book hasn't. */
    LOST;

    /** Returns the word that is sent. */
    @JsonValue
    public String word() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
  }

  /**
   * A spot inside a bar entry.
   *
   * @param bar id of the entry
   * @param at share of the entry before it, 0 at its start to 1 at its end
   */
  public record Spot(String bar, double at) {}
}
