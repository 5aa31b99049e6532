package org.barmap.reckon.book;

import java.util.ArrayList;
import java.util.List;
import org.barmap.reckon.cells.Marks;
import org.barmap.reckon.set.BookSettings;
import org.barmap.reckon.set.ReckonSettings;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.Sign;

/**
 * Settles rehearsal marks as a sequence: A, B, C … Z, AA, BB …, or 1, 2, 3 …, starting again at a
 * new musical number.
 *
 * <p>A shortest path over what each mark may say; a mark may also be skipped by the book (I, J, O
 * and Q often are) or be missed by the reader.
 */
public final class MarkSequence {

  private static final BookSettings.MarkOrder SET = ReckonSettings.STANDARD.book().marks();

  private static final int LETTERS = 26;

  /**
   * A settled mark.
   *
   * @param text what it says
   * @param changed true when the best reading of the page said something else
   * @param probability how likely it is, among what it may say
   */
  public record Settled(String text, boolean changed, double probability) {}

  private MarkSequence() {}

  /**
   * Settles the marks of a book.
   *
   * @param marks in reading order
   * @param afterRestart whether a new musical number began between the mark before and this one
   * @return one entry for each mark
   */
  public static List<Settled> settle(List<Sign> marks, List<Boolean> afterRestart) {
    List<List<Reading>> options = new ArrayList<>();
    for (int i = 0; i < marks.size(); i++) {
      options.add(options(marks, i));
    }
    int n = marks.size();
    double[][] best = new double[n][];
    int[][] from = new int[n][];
    for (int i = 0; i < n; i++) {
      List<Reading> now = options.get(i);
      best[i] = new double[now.size()];
      from[i] = new int[now.size()];
      for (int k = 0; k < now.size(); k++) {
        double read = Math.log(now.get(k).probability());
        if (i == 0) {
          best[i][k] = read + Math.log(isFirst(now.get(k).text()) ? SET.follows() : SET.starts());
          continue;
        }
        best[i][k] = Double.NEGATIVE_INFINITY;
        List<Reading> before = options.get(i - 1);
        for (int j = 0; j < before.size(); j++) {
          double cost =
              best[i - 1][j]
                  + read
                  + Math.log(step(before.get(j).text(), now.get(k).text(), afterRestart.get(i)));
          if (cost > best[i][k]) {
            best[i][k] = cost;
            from[i][k] = j;
          }
        }
      }
    }
    return trace(marks, options, best, from);
  }

  private static List<Settled> trace(
      List<Sign> marks, List<List<Reading>> options, double[][] best, int[][] from) {
    int n = marks.size();
    Settled[] out = new Settled[n];
    int at = -1;
    for (int i = n - 1; i >= 0; i--) {
      at = at < 0 ? argMax(best[i]) : from[i + 1][at];
      String text = options.get(i).get(at).text();
      double total = 0;
      for (double b : best[i]) {
        total += Math.exp(b - best[i][argMax(best[i])]);
      }
      double share = Math.exp(best[i][at] - best[i][argMax(best[i])]) / total;
      out[i] = new Settled(text, !text.equals(marks.get(i).text()), share);
    }
    return List.of(out);
  }

  private static int argMax(double[] values) {
    int best = 0;
    for (int i = 1; i < values.length; i++) {
      best = values[i] > values[best] ? i : best;
    }
    return best;
  }

  /** What a mark was read as, and what its neighbours would make of it. */
  private static List<Reading> options(List<Sign> marks, int i) {
    List<Reading> out = new ArrayList<>();
    for (Reading r : marks.get(i).readings()) {
      if (!r.text().isBlank()) {
        out.add(new Reading(r.text(), Math.max(SET.unlisted(), r.probability())));
      }
    }
    double listed = out.stream().mapToDouble(Reading::probability).sum();
    double unlisted =
        Math.max(
            SET.unlisted() / SET.leastUnlisted(),
            Math.min(SET.unlisted(), (1 - listed) / SET.unlistedShare()));
    if (i > 0) {
      addIfNew(out, next(marks.get(i - 1).text()), unlisted);
    }
    if (i + 1 < marks.size()) {
      addIfNew(out, previous(marks.get(i + 1).text()), unlisted);
    }
    if (out.isEmpty()) {
      out.add(new Reading("?", 1));
    }
    return out;
  }

  private static void addIfNew(List<Reading> out, String text, double probability) {
    if (!text.isEmpty() && out.stream().noneMatch(r -> isSame(r.text(), text))) {
      out.add(new Reading(text, probability));
    }
  }

  private static double step(String before, String now, boolean restarted) {
    if (restarted && isFirst(now)) {
      return SET.follows();
    }
    if (isSame(now, next(before))) {
      return SET.follows();
    }
    if (isSame(now, next(next(before))) || rises(before, now)) {
      return SET.skips();
    }
    return isFirst(now) ? SET.starts() : SET.anything();
  }

  private static boolean rises(String before, String now) {
    int a = Marks.number(before);
    int b = Marks.number(now);
    return a >= 0 && b > a;
  }

  /** AA and Aa are the same mark in two houses' styles. */
  private static boolean isSame(String a, String b) {
    return a.equals(b) || (a.length() == 2 && a.equalsIgnoreCase(b));
  }

  private static boolean isFirst(String text) {
    return text.equals("A") || text.equals("1") || text.equals("a");
  }

  /** The mark after another, or the empty text: B after A, AA after Z, BB after AA, 8 after 7. */
  public static String next(String mark) {
    return shifted(mark, 1);
  }

  /** The mark before another, or the empty text. */
  static String previous(String mark) {
    return shifted(mark, -1);
  }

  private static String shifted(String mark, int by) {
    int number = Marks.number(mark);
    if (number >= 0 && !Marks.isLettered(mark)) {
      return number + by >= 1 ? Integer.toString(number + by) : "";
    }
    boolean mixed = mark.matches("([A-Z])(?i:\\1)") && Character.isLowerCase(mark.charAt(1));
    if (!mixed && !mark.matches("([A-Z])\\1?|([a-z])\\2?")) {
      return "";
    }
    char first = Character.isUpperCase(mark.charAt(0)) ? 'A' : 'a';
    int index = (mark.length() - 1) * LETTERS + mark.charAt(0) - first + by;
    if (index < 0 || index >= 2 * LETTERS) {
      return "";
    }
    String letter = String.valueOf((char) (first + index % LETTERS));
    return mixed && index >= LETTERS
        ? letter + letter.toLowerCase(java.util.Locale.ROOT)
        : letter.repeat(1 + index / LETTERS);
  }
}
