package org.barmap.plan.words.earlier;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.barmap.plan.change.effect.Stretch;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.words.grammar.Bars;

/**
 * An earlier change as it is called: "that cut", "the vamp at 25", "the second cut".
 *
 * @param kinds the kinds it may be of, as {@code changes/1} calls them
 * @param noun what it was called
 * @param which "first", "second", "last" where it was told from others by its place; else empty
 * @param place the bar or the bars that were named with it; may be empty
 * @param all several at once: "the cuts", "both vamps"
 */
record Reference(Set<String> kinds, String noun, String which, String place, boolean all) {
  private static final Map<String, Set<String>> KINDS = ShowChange.nouns();

  private static final String NOUN =
      KINDS.keySet().stream()
          .sorted(java.util.Comparator.reverseOrder())
          .collect(Collectors.joining("|"));

  /** "The cut I gave you yesterday". */
  private static final String GIVEN =
      "(?:\\s+(?:that\\s+|which\\s+)?(?:i|we)\\s+(?:just\\s+)?(?:gave|told|made|did|had|said|put\\s+in)(?:\\s+you)?(?:\\s+(?:yesterday|before|earlier|last\\s+(?:night|week)|this\\s+morning|today))?)?";

  private static final Pattern TAIL = phrase("(.+?)" + GIVEN);

  /** An earlier change, without named groups, for patterns that are made of it. */
  static final String SAID =
      "(?:(?:the|that|this|those|these|our|your|my|his|her|yesterday's|last night's|this morning's|today's|old|earlier|previous|first|second|third|last|other|same|big|little|small|long|short|whole|two|both|all|of)\\s+)+(?:"
          + NOUN
          + ")(?:es|s)?(?:\\s+(?:at|in|on|of|from|to|over|around|before|after|for|into|between)\\s+[^,.;]{1,30}?)?"
          + GIVEN;

  private static final Pattern PARTS =
      phrase(
          "(?<det>(?:\\S+\\s+)+?)(?<noun>"
              + NOUN
              + ")(?<many>es|s)?(?:\\s+(?<prep>at|in|on|of|from|to|over|around|before|after|for|into|between)\\s+(?<place>.+))?");

  private static final Pattern WHICH = phrase(".*\\b(first|second|third|last)\\b.*");

  /** Takes defensive copies. */
  Reference {
    kinds = Set.copyOf(kinds);
  }

  /** Reads words that {@link #SAID} matches. */
  static Optional<Reference> of(String words) {
    Matcher tail = TAIL.matcher(words.strip());
    Matcher m = PARTS.matcher(tail.matches() ? tail.group(1) : words.strip());
    if (!m.matches()) {
      return Optional.empty();
    }
    String noun = m.group("noun").toLowerCase(Locale.ROOT);
    Set<String> kinds =
        KINDS.entrySet().stream()
            .filter(e -> noun.matches(e.getKey()))
            .flatMap(e -> e.getValue().stream())
            .collect(Collectors.toSet());
    Matcher which = WHICH.matcher(m.group("det"));
    String place = m.group("place") == null ? "" : m.group("place").strip();
    boolean all =
        m.group("many") != null || m.group("det").matches("(?i).*\\b(?:both|those|these|two)\\b.*");
    return Optional.of(
        new Reference(
            kinds,
            noun,
            which.matches() ? which.group(1).toLowerCase(Locale.ROOT) : "",
            place,
            all));
  }

  /** Returns which of earlier changes of one number it may be. */
  List<ShowChange> among(List<ShowChange> changes, Optional<Bars> bars) {
    List<ShowChange> kind = changes.stream().filter(c -> kinds.contains(c.kind())).toList();
    if (place.isEmpty() || bars.isEmpty()) {
      return place.isEmpty() ? kind : List.of();
    }
    List<ShowChange> there = kind.stream().filter(c -> at(c, bars.get(), true)).toList();
    return there.isEmpty() ? kind.stream().filter(c -> at(c, bars.get(), false)).toList() : there;
  }

  /** Whether a place was named that is none of the number. */
  boolean nowhere(Bars bars) {
    return !place.isEmpty() && bars.slot(place).isEmpty() && bars.ends(place).isEmpty();
  }

  /** Whether a change begins, or is, where this was said to be; or, less strictly, lies there. */
  private boolean at(ShowChange change, Bars bars, boolean exactly) {
    Optional<Stretch> where = change.where();
    OptionalInt from = where.map(w -> bars.slot(w.first())).orElse(OptionalInt.empty());
    OptionalInt to = where.map(w -> bars.slot(w.last())).orElse(OptionalInt.empty());
    Optional<Bars.Ends> ends = bars.ends(place).filter(e -> !e.first().equals(e.last()));
    OptionalInt first = ends.map(e -> bars.slot(e.first())).orElseGet(() -> bars.slot(place));
    OptionalInt last = ends.map(e -> bars.slot(e.last())).orElse(first);
    if (from.isEmpty() || to.isEmpty() || first.isEmpty() || last.isEmpty()) {
      return false;
    }
    if (exactly) {
      return from.equals(first) && (ends.isEmpty() || to.equals(last));
    }
    if (ends.isPresent()) { // all of it lies there, give or take the bars one leaves and lands on
      return first.getAsInt() <= from.getAsInt() + 1 && to.getAsInt() - 1 <= last.getAsInt();
    }
    return from.getAsInt() <= last.getAsInt() && first.getAsInt() <= to.getAsInt();
  }
}
