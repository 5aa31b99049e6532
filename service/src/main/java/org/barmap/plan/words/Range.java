package org.barmap.plan.words;

import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.Address;
import org.barmap.plan.change.Addresses;
import org.barmap.plan.change.Found;
import org.barmap.plan.change.Place;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.term.Figures;
import org.barmap.plan.change.term.Numerals;

/**
 * A stretch of bars as it is said: "34 to 49", "60-61", "from the end of 6 to the beginning of 12",
 * "the 4 bars before B", "the last 8 bars", or one bar.
 *
 * @param first address of its first bar; empty when refused
 * @param last address of its last bar
 * @param text how it is read back, "bars 7 to 11", or why it was refused
 * @param candidates when refused
 */
record Range(Optional<String> first, String last, String text, List<String> candidates) {

  private static final int FLAGS = Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE;
  private static final String EDGE = "(?:the\\s+)?(end|beginning|start|top|downbeat)\\s+of\\s+";
  private static final Pattern EDGES =
      Pattern.compile(
          "(?:from\\s+)?" + EDGE + "(.+?)\\s+(?:to|until|till)\\s+(?:" + EDGE + ")?(.+)", FLAGS);
  private static final Pattern TO_EDGE =
      Pattern.compile("(?:from\\s+)?(.+?)\\s+(?:to|until|till)\\s+" + EDGE + "(.+)", FLAGS);
  private static final Pattern BEFORE =
      Pattern.compile(
          "(?:the\\s+)?(" + Numerals.CARDINAL + ")\\s+bars?\\s+(before|from|after)\\s+(.+)", FLAGS);
  private static final Pattern LAST =
      Pattern.compile(
          "(?:the\\s+)?(last|first)\\s+(" + Numerals.CARDINAL + ")(?:\\s+bars?)?", FLAGS);
  private static final Pattern TO =
      Pattern.compile(
          "(?:from\\s+)?(.+?)(?:\\s+(?:to|through|thru|until|till)\\s+|\\s*(?:\\u2013|\\u2014)\\s*|\\s*-\\s*)(.+)",
          FLAGS);
  private static final Pattern BARS =
      Pattern.compile("^(?:bars?|measures?|mm?\\.?)\\s+(?=\\S)", FLAGS);

  private static Range refused(String text, List<String> candidates) {
    return new Range(Optional.empty(), "", text, candidates);
  }

  /** Reads a stretch of bars of a number. */
  static Range read(WrittenNumber number, String words) {
    Addresses addresses = new Addresses(number);
    String text = BARS.matcher(words.strip()).replaceFirst("");
    Matcher edges = EDGES.matcher(text);
    if (edges.matches()) {
      boolean afterFirst = edges.group(1).equalsIgnoreCase("end");
      boolean throughLast = edges.group(3) != null && edges.group(3).equalsIgnoreCase("end");
      return between(
          number,
          addresses,
          edges.group(2),
          afterFirst ? 1 : 0,
          edges.group(4),
          throughLast ? 0 : -1);
    }
    Matcher toEdge = TO_EDGE.matcher(text);
    if (toEdge.matches()) {
      boolean through = toEdge.group(2).equalsIgnoreCase("end");
      return between(number, addresses, toEdge.group(1), 0, toEdge.group(3), through ? 0 : -1);
    }
    Matcher last = LAST.matcher(text);
    if (last.matches()) {
      int bars = Numerals.value(last.group(2)).orElse(1);
      boolean atEnd = last.group(1).equalsIgnoreCase("last");
      return atEnd
          ? between(number, addresses, "end", 1 - bars, "end", 0)
          : between(number, addresses, "start", 0, "start", bars - 1);
    }
    Matcher before = BEFORE.matcher(text);
    if (before.matches()) {
      int bars = Numerals.value(before.group(1)).orElse(1);
      return switch (before.group(2).toLowerCase(java.util.Locale.ROOT)) {
        case "before" -> between(number, addresses, before.group(3), -bars, before.group(3), -1);
        case "from" -> between(number, addresses, before.group(3), 0, before.group(3), bars - 1);
        default -> between(number, addresses, before.group(3), 1, before.group(3), bars);
      };
    }
    Matcher plain = TO.matcher(text);
    if (plain.matches()
        && Address.parse(plain.group(1)).isPresent()
        && Address.parse(BARS.matcher(plain.group(2)).replaceFirst("")).isPresent()) {
      return between(number, addresses, plain.group(1), 0, plain.group(2), 0);
    }
    return between(number, addresses, text, 0, text, 0);
  }

  private static Range between(
      WrittenNumber number, Addresses addresses, String first, int plus, String last, int minus) {
    Found from = addresses.find(BARS.matcher(first.strip()).replaceFirst(""));
    if (from instanceof Found.Refused refused) {
      return refused(refused.text(), refused.candidates());
    }
    Found to = addresses.find(BARS.matcher(last.strip()).replaceFirst(""));
    if (to instanceof Found.Refused refused) {
      return refused(refused.text(), refused.candidates());
    }
    Place a = ((Found.At) from).place();
    Place b = ((Found.At) to).place();
    int start = addresses.moved(a.slot(), plus);
    int end = addresses.moved(b.slot(), minus);
    if (start < 0 || end >= number.slots() || start > end) {
      return refused(
          start > end
              ? "That leaves no bars: it ends before it begins."
              : "That reaches beyond " + number.spoken() + ".",
          List.of());
    }
    String firstName = plus == 0 ? said(first) : number.nameAt(start);
    String lastName = minus == 0 ? said(last) : number.nameAt(end);
    String beatA = a.beat().isPresent() ? " beat " + Figures.plain(a.beat().getAsDouble()) : "";
    String beatB = b.beat().isPresent() ? " beat " + Figures.plain(b.beat().getAsDouble()) : "";
    String heard =
        start == end && beatA.isEmpty() && beatB.isEmpty()
            ? "bar " + number.nameAt(start)
            : "bars " + number.nameAt(start) + beatA + " to " + number.nameAt(end) + beatB;
    int bars = end - start + 1;
    String count = bars > 1 && beatA.isEmpty() && beatB.isEmpty() ? " (" + bars + " bars)" : "";
    return new Range(Optional.of(firstName), lastName, heard + count, List.of());
  }

  private static String said(String words) {
    return BARS.matcher(words.strip()).replaceFirst("").replaceFirst("(?i)^from\\s+", "");
  }
}
