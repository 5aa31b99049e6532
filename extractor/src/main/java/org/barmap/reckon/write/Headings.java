package org.barmap.reckon.write;

import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.IntStream;

/**
 * What the heading of a musical number says.
 *
 * @param label "7", "7A"; empty when no number is printed
 * @param title what else stands there
 * @param tacet the heading says the player does not play in it
 */
record Headings(String label, String title, boolean tacet) {

  /** Numbers that may be left out between two headings; a larger step is another figure. */
  private static final int MOST_SILENT = 5;

  /** A letter that stands apart is the number's only where no word follows: "No. 4 A Boat". */
  private static final Pattern NUMBERED =
      Pattern.compile(
          "(?:(?:no|nr|n°|№|#)\\s*[.:]?\\s*)?"
              + "(\\d{1,3}(?:[a-z]|\\s[a-z](?=\\s*(?:[.:),](?:\\s|$)|$)|\\s+[\\-–—]\\s))?)"
              + "\\b\\s*[.:)\\-–—]*\\s*(.*)",
          Pattern.CASE_INSENSITIVE);

  private static final Pattern TACET =
      Pattern.compile("[-–—:,(\\s]*\\btacet\\b[).\\s]*", Pattern.CASE_INSENSITIVE);

  static Headings of(String text) {
    String clean = text.strip().replaceAll("\\s+", " ");
    boolean tacet = clean.toLowerCase(Locale.ROOT).contains("tacet");
    if (tacet) {
      clean = TACET.matcher(clean).replaceAll(" ").strip();
    }
    Matcher m = NUMBERED.matcher(clean);
    if (m.matches()) {
      String label = m.group(1).replace(" ", "").toUpperCase(Locale.ROOT);
      return new Headings(label, unquoted(m.group(2)), tacet);
    }
    return new Headings("", unquoted(clean), tacet);
  }

  /**
   * Returns the one of the headings over a line of music that names its bars, from the top of the
   * page down: of numbers in their order the last one, for one with music has it under itself.
   */
  static Headings ofTheBars(List<Headings> read) {
    Headings own = new Headings("", "", false);
    for (Headings h : read) {
      boolean first = own.label.isEmpty() && own.title.isEmpty();
      if (!h.tacet && (first || (!own.label.isEmpty() && own.isFollowedBy(h)))) {
        own = h;
      }
    }
    return own;
  }

  /** Returns those that have no music: they say so, or the next one in their order follows. */
  static List<Headings> withoutBars(List<Headings> read) {
    Headings own = ofTheBars(read);
    int at = read.indexOf(own);
    return IntStream.range(0, read.size())
        .filter(i -> read.get(i).tacet || (i < at && read.get(i).isFollowedBy(own)))
        .mapToObj(read::get)
        .toList();
  }

  private boolean isFollowedBy(Headings next) {
    int step = figures(next.label) - figures(label);
    boolean numbered = figures(label) > 0 && figures(next.label) > 0;
    boolean letter = step == 0 && next.label.compareTo(label) > 0;
    return numbered && (letter || (step > 0 && step <= MOST_SILENT));
  }

  private static int figures(String label) {
    String digits = label.replaceAll("[^0-9]", "");
    return digits.isEmpty() ? 0 : Integer.parseInt(digits);
  }

  private static String unquoted(String text) {
    return text.replaceAll("^[\"“„'‘\\s]+|[\"”“'’\\s]+$", "");
  }
}
