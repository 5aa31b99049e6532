package org.barmap.plan.change.say;

import java.util.List;
import java.util.regex.Pattern;
import org.barmap.plan.change.term.Figures;

/** The words the sentences of changes share. */
public final class Saying {
  private static final List<String> NUMBERS =
      List.of(
          "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
          "eleven", "twelve");

  /** A rehearsal mark: behind "to" it is where one lands. */
  private static final Pattern NAMED =
      Pattern.compile(
          "(?!end\\b|the end\\b|start\\b|the\\b)(?:letter |mark |figure )?\\p{L}[\\p{L}\\p{N}]{0,11}",
          Pattern.CASE_INSENSITIVE);

  private static final Pattern MARK = Pattern.compile("[A-Z]{1,2}");

  private static final Pattern AFTER =
      Pattern.compile("^(\\d{1,5}) (?:bars? )?after (\\S+)$", Pattern.CASE_INSENSITIVE);
  private static final Pattern FEW_BEFORE =
      Pattern.compile("\\w+ before .*", Pattern.CASE_INSENSITIVE);

  private Saying() {}

  /** Returns a stretch of bars: "34 to 49", or "34". */
  public static String range(String first, String last) {
    String from = bar(first);
    if (first.strip().equals(last.strip())) {
      return NAMED.matcher(from).matches() ? "the bar at " + from : before(from);
    }
    String to = bar(last);
    return NAMED.matcher(to).matches() ? from + " through the bar at " + to : from + " to " + to;
  }

  /** Returns the section that a mark alone is called, where bars are out: "letter A". */
  public static String section(String said) {
    return MARK.matcher(said.strip()).matches() ? "letter " + said.strip() : said;
  }

  private static String before(String bar) {
    return FEW_BEFORE.matcher(bar).matches() ? "the bar " + bar : bar;
  }

  /** "4 after B" may be counted from B or behind it, "B + 4" may not. */
  private static String bar(String address) {
    return AFTER.matcher(one(address)).replaceFirst("$2 + $1");
  }

  /** Returns one line, whatever was typed. */
  public static String one(String text) {
    return text.strip().replaceAll("[\\p{Cntrl}\\s]+", " ");
  }

  /** Returns a small number in words. */
  public static String count(int n) {
    return n >= 0 && n < NUMBERS.size() ? NUMBERS.get(n) : Integer.toString(n);
  }

  /** Returns so many of something, with one decimal at most: "1 bar", "2.5 beats". */
  public static String many(double n, String one) {
    String figure = Figures.rough(n);
    return figure + " " + one + (figure.equals("1") ? "" : "s");
  }

  /** Returns how often: "once", "twice", "7 times". */
  public static String often(int times) {
    return times == 1 ? "once" : times == 2 ? "twice" : times + " times";
  }
}
