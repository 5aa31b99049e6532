package org.barmap.plan.trap;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Tells from titles where acts begin: an entr'acte opens the act after the interval, a finale of an
 * act closes it, an opening of a later act opens that (common practice). Maps say nothing of acts.
 */
public final class Acts {
  private static final int FLAGS = Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE;
  private static final Pattern ENTRACTE = Pattern.compile("\\bentre?['\u2019]?\\s?acte?\\b", FLAGS);
  private static final Pattern ACT =
      Pattern.compile("\\bact\\s+(one|two|three|four|i{1,3}|iv|[1-4])\\b", FLAGS);
  private static final Pattern CLOSES = Pattern.compile("\\b(?:finale|end|close)\\b", FLAGS);

  private static final Pattern AFTERWARDS =
      Pattern.compile("\\b(?:bows?|exit|play-?out|curtain|calls?)\\b", FLAGS);

  private Acts() {}

  /**
   * Returns which of the titles begin an act, in their order; the first always does. One alone
   * where nothing tells of acts; empty without titles.
   */
  public static List<Integer> starts(List<String> titles) {
    List<Integer> starts = new ArrayList<>();
    int act = 0;
    int closed = 0;
    for (int i = 0; i < titles.size(); i++) {
      Matcher named = ACT.matcher(titles.get(i));
      int said = named.find() ? figure(named.group(1)) : 0;
      boolean closes = said > 0 && CLOSES.matcher(titles.get(i)).find();
      boolean opens =
          act == 0
              || (closed == act && !AFTERWARDS.matcher(titles.get(i)).find())
              || ENTRACTE.matcher(titles.get(i)).find()
              || (said > act && !closes);
      if (opens) {
        starts.add(i);
        act = Math.max(act + 1, closes ? 0 : said);
      }
      closed = closes ? act : closed;
    }
    return List.copyOf(starts);
  }

  private static int figure(String word) {
    return switch (word.toLowerCase(Locale.ROOT)) {
      case "one", "i", "1" -> 1;
      case "two", "ii", "2" -> 2;
      case "three", "iii", "3" -> 3;
      default -> 4;
    };
  }
}
