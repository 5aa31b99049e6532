package org.barmap.reckon.write;

import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What the heading of a musical number says.
 *
 * @param label "7", "7A"; empty when no number is printed
 * @param title what else stands there
 * @param tacet the heading says the player does not play in it
 */
record Headings(String label, String title, boolean tacet) {

  private static final Pattern NUMBERED =
      Pattern.compile(
          "(?:(?:no|nr|n°|№|#)\\s*[.:]?\\s*)?(\\d{1,3}\\s?[a-z]?)\\b\\s*[.:)\\-–—]*\\s*(.*)",
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

  private static String unquoted(String text) {
    return text.replaceAll("^[\"“„'‘\\s]+|[\"”“'’\\s]+$", "");
  }
}
