package org.barmap.sign.rule;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.map.Navigation;
import org.barmap.sign.set.SignSettings;
import org.barmap.sign.set.TextSettings;

/**
 * What words at a bar mean for the order of play.
 *
 * @param navigation the jump or goal they name
 * @param times how often a passage is played in all
 * @param cue another instruction a plan must know
 */
public record WordMeaning(
    Optional<Navigation> navigation, Optional<Integer> times, Optional<Cue> cue) {

  private static final TextSettings.Meaning SET = SignSettings.STANDARD.text().meaning();

  /** Instructions that are neither jumps nor counts of repeats. */
  public enum Cue {
    /** The player does not play in this number or passage. */
    TACET,
    /** The passage goes round until the conductor goes on. */
    VAMP,
    /** The bar is there in case it is needed. */
    SAFETY,
    /** The next number follows at once. */
    SEGUE,
    /** Turn the page quickly (volti subito). */
    TURN
  }

  private static final WordMeaning NOTHING =
      new WordMeaning(Optional.empty(), Optional.empty(), Optional.empty());

  private static final Pattern TIMES =
      Pattern.compile(
          "(?:play |repeat |vamp )?(?:(\\d{1,2}|two|three|four|five|six|seven|eight) ?(?:x|times)"
              + "|x ?(\\d{1,2}))(?: .*)?");

  private static final List<String> SPELLED =
      List.of("two", "three", "four", "five", "six", "seven", "eight");

  private static final Pattern LIMIT = Pattern.compile("only|tacet|\\d(?:st|nd|rd|th)");

  private record Phrase(String text, WordMeaning meaning) {}

  /** Longer phrases first: "to coda" is also contained in "d s to coda". */
  private static final List<Phrase> PHRASES =
      List.of(
          jump("d c al coda", Navigation.DA_CAPO),
          jump("d c al fine", Navigation.DA_CAPO),
          jump("d s al coda", Navigation.DAL_SEGNO),
          jump("d s al fine", Navigation.DAL_SEGNO),
          jump("da capo al fine", Navigation.DA_CAPO),
          jump("da capo al coda", Navigation.DA_CAPO),
          jump("dal segno al fine", Navigation.DAL_SEGNO),
          jump("dal segno al coda", Navigation.DAL_SEGNO),
          jump("dal segno", Navigation.DAL_SEGNO),
          jump("da capo", Navigation.DA_CAPO),
          jump("to coda", Navigation.TO_CODA),
          jump("al coda", Navigation.TO_CODA),
          jump("d c", Navigation.DA_CAPO),
          jump("d s", Navigation.DAL_SEGNO),
          jump("coda", Navigation.CODA),
          jump("fine", Navigation.FINE),
          cue("volti subito", Cue.TURN),
          cue("v s", Cue.TURN),
          cue("tacet", Cue.TACET),
          cue("vamp", Cue.VAMP),
          cue("safety", Cue.SAFETY),
          cue("segue", Cue.SEGUE),
          cue("attacca", Cue.SEGUE));

  private static Phrase jump(String text, Navigation navigation) {
    return new Phrase(
        text, new WordMeaning(Optional.of(navigation), Optional.empty(), Optional.empty()));
  }

  private static Phrase cue(String text, Cue cue) {
    return new Phrase(text, new WordMeaning(Optional.empty(), Optional.empty(), Optional.of(cue)));
  }

  /**
   * Understands words as they were read: case, stops, brackets and spacing don't matter, and in
   * longer phrases a misread letter in six is forgiven.
   */
  public static WordMeaning of(String words) {
    String plain = plain(words);
    Matcher times = TIMES.matcher(plain);
    if (times.matches() && !LIMIT.matcher(plain).find()) {
      String figure = times.group(1) == null ? times.group(2) : times.group(1);
      int spelled = SPELLED.indexOf(figure);
      int n = spelled >= 0 ? spelled + 2 : Integer.parseInt(figure);
      return n < 2 ? NOTHING : new WordMeaning(Optional.empty(), Optional.of(n), Optional.empty());
    }
    if (LIMIT.matcher(plain).find() && !plain.equals("tacet")) {
      return plain.endsWith("tacet") && !plain.matches(".*\\d.*") ? tacet() : NOTHING;
    }
    String letters = plain.replace('0', 'o').replace('1', 'l');
    for (Phrase p : PHRASES) {
      if (matches(letters, p.text)) {
        return p.meaning;
      }
    }
    return NOTHING;
  }

  private static WordMeaning tacet() {
    return new WordMeaning(Optional.empty(), Optional.empty(), Optional.of(Cue.TACET));
  }

  /** Tells whether nothing was understood. */
  public boolean isNothing() {
    return navigation.isEmpty() && times.isEmpty() && cue.isEmpty();
  }

  private static String plain(String words) {
    return words
        .toLowerCase(Locale.ROOT)
        .replaceAll("[^a-z0-9]+", " ")
        .strip()
        .replaceAll("^d([cs])\\b", "d $1")
        .replaceAll("^vs$", "v s");
  }

  /**
   * The phrase alone, or at the beginning with something after it ("Vamp till cue"); spaces don't
   * count, text models lose them.
   */
  private static boolean matches(String text, String phrase) {
    String t = text.replace(" ", "");
    String p = phrase.replace(" ", "");
    boolean initials = phrase.startsWith("d ");
    if (initials && !t.startsWith(p.substring(0, 2))) {
      return false; // one letter tells D.C. from D.S.
    }
    if (distance(t, p) <= p.length() / SET.lettersAMisread()) {
      return true;
    }
    if (p.length() < SET.leastBegun()) {
      return initials && text.startsWith(phrase + " ");
    }
    return !p.equals("fine") && !p.equals("coda") && t.startsWith(p);
  }

  /** Returns the number of letters to change, add, leave out or swap with their neighbour. */
  public static int distance(String a, String b) {
    int[][] d = new int[a.length() + 1][b.length() + 1];
    for (int i = 0; i <= a.length(); i++) {
      for (int j = 0; j <= b.length(); j++) {
        if (i == 0 || j == 0) {
          d[i][j] = i + j;
          continue;
        }
        int same = a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1;
        d[i][j] = Math.min(d[i - 1][j - 1] + same, Math.min(d[i - 1][j], d[i][j - 1]) + 1);
        boolean swapped =
            i > 1
                && j > 1
                && a.charAt(i - 1) == b.charAt(j - 2)
                && a.charAt(i - 2) == b.charAt(j - 1);
        if (swapped) {
          d[i][j] = Math.min(d[i][j], d[i - 2][j - 2] + 1);
        }
      }
    }
    return d[a.length()][b.length()];
  }
}
