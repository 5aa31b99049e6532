package org.barmap.reckon;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.map.Navigation;

/** What words at a bar mean for the order of play; the phrases are common practice. */
public final class Phrases {

  private static final Pattern TIMES =
      Pattern.compile(
          "\\(?\\s*(?:play\\s+)?(\\d{1,2}|two|three|four|five|six|seven|eight)\\s*(?:x|×|times)\\b.*",
          Pattern.CASE_INSENSITIVE);

  private static final Map<String, Integer> SPELLED =
      Map.of("two", 2, "three", 3, "four", 4, "five", 5, "six", 6, "seven", 7, "eight", 8);

  private Phrases() {}

  /** Returns the navigation a phrase stands for: "D.S. al Coda" gives dal-segno; may be empty. */
  public static List<Navigation> navigation(String text) {
    String t =
        text.toLowerCase(Locale.ROOT).replaceAll("[^a-z ]", "").replaceAll("\\s+", " ").strip();
    List<Navigation> out = new ArrayList<>();
    if (t.matches("(d ?c|da ?capo)\\b.*")) {
      out.add(Navigation.DA_CAPO);
    } else if (t.matches("(d ?s|dal ?segno)\\b.*")) {
      out.add(Navigation.DAL_SEGNO);
    } else if (t.matches("(to|al) ?coda\\b.*")) {
      out.add(Navigation.TO_CODA);
    } else if (t.matches("fine\\b.*")) {
      out.add(Navigation.FINE);
    } else if (t.matches("coda")) {
      out.add(Navigation.CODA);
    }
    return List.copyOf(out);
  }

  /** Returns how often "3X", "play three times" ask to play in all. */
  public static Optional<Integer> times(String text) {
    Matcher m = TIMES.matcher(text.strip());
    if (!m.matches()) {
      return Optional.empty();
    }
    String word = m.group(1).toLowerCase(Locale.ROOT);
    int n = SPELLED.containsKey(word) ? SPELLED.get(word) : Integer.parseInt(word);
    return n >= 2 ? Optional.of(n) : Optional.empty();
  }
}
