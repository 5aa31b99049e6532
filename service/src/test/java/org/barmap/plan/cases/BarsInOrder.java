package org.barmap.plan.cases;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The notation of bars as they sound, "1-4 (5-6)v 7 24A 8+1 12[1-2]". */
public final class BarsInOrder {

  private static final Pattern TOKEN =
      Pattern.compile(
          "\\(|\\)[vs]|(\\d+)-(\\d+)|[0-9A-Za-z]+(\\+\\d+)?(/\\d+)?(\\[[\\d.]+-[\\d.]+])?");

  private BarsInOrder() {}

  /**
   * Returns one text per bar; brackets of open stretches are texts of their own.
   *
   * @throws IllegalArgumentException when the text is no such notation
   */
  public static List<String> spread(String notation) {
    List<String> bars = new ArrayList<>();
    Matcher token = TOKEN.matcher(notation);
    int at = 0;
    while (at < notation.length()) {
      if (notation.charAt(at) == ' ') {
        at++;
        continue;
      }
      if (!token.find(at) || token.start() != at) {
        throw new IllegalArgumentException("no bars in order: " + notation);
      }
      add(bars, token);
      at = token.end();
    }
    return bars;
  }

  private static void add(List<String> bars, Matcher token) {
    if (token.group(1) == null) {
      bars.add(token.group());
      return;
    }
    int last = Integer.parseInt(token.group(2));
    int first = Integer.parseInt(token.group(1));
    if (last <= first) {
      throw new IllegalArgumentException("a run that does not go up: " + token.group());
    }
    for (int bar = first; bar <= last; bar++) {
      bars.add(Integer.toString(bar));
    }
  }

  /** Tells whether a text is such a notation; a number alone is. */
  public static boolean is(String text) {
    try {
      return !spread(text).isEmpty();
    } catch (IllegalArgumentException e) {
      return false;
    }
  }
}
