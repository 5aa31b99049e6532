package org.barmap.map;

import com.fasterxml.jackson.annotation.JsonIgnore;
import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import java.util.Optional;

/**
 * One bar entry as drawn; a multi-bar rest is one entry standing for {@code count} bars.
 *
 * <p>{@code segno} and {@code coda} take effect at the start of the bar, {@code to-coda}, {@code
 * fine}, {@code da-capo} and {@code dal-segno} at its end.
 *
 * @param id unique in the map
 * @param page page index
 * @param system system index on the page
 * @param outline barline to barline, top staff line to bottom staff line; pixels
 * @param number bar number of the entry's first bar; a pickup is 0
 * @param label what the bar is called where a whole number can't say it, "24A"
 * @param count how many bars it stands for, at least 1
 * @param meter the meter in force
 * @param key the key signature in force; empty for unknown
 * @param startBarline as drawn at its left side
 * @param endBarline as drawn at its right side
 * @param rehearsal the rehearsal mark over its start
 * @param content what the player does
 * @param silentStart beats of silence at its start, as read
 * @param silentEnd beats of silence at its end, as read
 * @param ending which endings it lies under; empty for none
 * @param signs navigation signs and holds at the bar
 * @param times how often it is played in all, at a backward repeat or a bar marked "3X"
 * @param words words read at the bar
 * @param confidence 0 to 1, calibrated
 * @param origin where the present content comes from
 * @param evidence what the page says about it, for settling the book again
 */
public record Bar(
    String id,
    int page,
    int system,
    Outline outline,
    int number,
    Optional<String> label,
    int count,
    Optional<Meter> meter,
    Optional<Key> key,
    Barline startBarline,
    Barline endBarline,
    Optional<RehearsalMark> rehearsal,
    Content content,
    Optional<Double> silentStart,
    Optional<Double> silentEnd,
    @JsonInclude(JsonInclude.Include.NON_EMPTY) List<Integer> ending,
    @JsonInclude(JsonInclude.Include.NON_EMPTY) List<Navigation> signs,
    Optional<Integer> times,
    @JsonInclude(JsonInclude.Include.NON_EMPTY) List<Word> words,
    double confidence,
    Origin origin,
    Optional<Evidence> evidence) {

  /** Reads absent keys as empty, absent barlines as none and single, absent content as music. */
  public Bar {
    label = label == null ? Optional.empty() : label;
    count = count < 1 ? 1 : count;
    meter = meter == null ? Optional.empty() : meter;
    key = key == null ? Optional.empty() : key;
    startBarline = startBarline == null ? Barline.NONE : startBarline;
    endBarline = endBarline == null ? Barline.SINGLE : endBarline;
    rehearsal = rehearsal == null ? Optional.empty() : rehearsal;
    content = content == null ? Content.MUSIC : content;
    silentStart = silentStart == null ? Optional.empty() : silentStart;
    silentEnd = silentEnd == null ? Optional.empty() : silentEnd;
    ending = ending == null ? List.of() : List.copyOf(ending);
    signs = signs == null ? List.of() : List.copyOf(signs);
    times = times == null ? Optional.empty() : times;
    words = words == null ? List.of() : List.copyOf(words);
    origin = origin == null ? Origin.READ : origin;
    evidence = evidence == null ? Optional.empty() : evidence;
  }

  /** Returns the number of the first bar after this entry. */
  @JsonIgnore
  public int nextNumber() {
    return number + count;
  }

  /** Tells whether the player rests throughout. */
  @JsonIgnore
  public boolean isRest() {
    return content == Content.REST || content == Content.MULTI_REST;
  }

  /** Tells whether a sign stands at this bar. */
  public boolean has(Navigation sign) {
    return signs.contains(sign);
  }

  /** Starts a changed copy. */
  public BarBuilder toBuilder() {
    return new BarBuilder(this);
  }

  /** Starts a bar of music with single barlines, number 1, no meter, no key, confidence 1. */
  public static BarBuilder builder(String id, int page, int system, Outline outline) {
    return new BarBuilder(
        new Bar(
            id,
            page,
            system,
            outline,
            1,
            Optional.empty(),
            1,
            Optional.empty(),
            Optional.empty(),
            Barline.NONE,
            Barline.SINGLE,
            Optional.empty(),
            Content.MUSIC,
            Optional.empty(),
            Optional.empty(),
            List.of(),
            List.of(),
            Optional.empty(),
            List.of(),
            1.0,
            Origin.READ,
            Optional.empty()));
  }
}
