package org.barmap.reckon.cells;

import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Pattern;
import org.barmap.reckon.set.CellSettings;
import org.barmap.reckon.set.ReckonSettings;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;

/** Where printed numbers and rehearsal marks belong, and what they say. */
public final class Marks {

  private static final CellSettings.Printed SET = ReckonSettings.STANDARD.cells().printed();

  /** Figures there are, 0 to 9. */
  private static final int FIGURES = 10;

  private static final Pattern LETTERED = Pattern.compile("(\\d{1,4})[A-Ha-h]");

  private Marks() {}

  /** The number a text says, or -1; "24A" says 24. */
  public static int number(String text) {
    String digits = isLettered(text) ? text.substring(0, text.length() - 1) : text;
    return digits.matches("\\d{1,4}") ? Integer.parseInt(digits) : -1;
  }

  /**
   * Spreads what a misread numeral may have been: mostly one figure is wrong.
   *
   * @param text as read, figures only
   * @param mass weight to spread over all numerals that differ in one figure
   * @return weight by value
   */
  public static Map<Integer, Double> oneFigureOff(String text, double mass) {
    Map<Integer, Double> out = new TreeMap<>();
    int n = text.length();
    for (int i = 0; i < n; i++) {
      for (char c = '0'; c <= '9'; c++) {
        boolean leading = c == '0' && i == 0;
        if (c != text.charAt(i) && !leading) {
          String other = text.substring(0, i) + c + text.substring(i + 1);
          out.merge(Integer.parseInt(other), mass / ((FIGURES - 1) * n), Double::sum);
        }
      }
    }
    return out;
  }

  /**
   * Spreads what a misread numeral may have been when a figure was lost or added.
   *
   * @param text as read, figures only
   * @param mass weight to spread
   * @param most largest value that may be meant
   * @return weight by value
   */
  public static Map<Integer, Double> figureMoreOrLess(String text, double mass, int most) {
    Map<Integer, Double> out = new TreeMap<>();
    int n = text.length();
    int value = Integer.parseInt(text);
    int tail = 1;
    for (int i = 0; i <= n; i++, tail *= FIGURES) {
      int low = value % tail;
      int high = value / tail;
      if (i < n && n > 1) {
        put(out, high / FIGURES * tail + low, n - 1, mass / 2 / n, most);
      }
      for (int figure = 0; figure < FIGURES; figure++) {
        int more = (high * FIGURES + figure) * tail + low;
        put(out, more, n + 1, mass / 2 / (FIGURES * (n + 1)), most);
      }
    }
    return out;
  }

  /** Puts a value that is written with so many figures, none of them a zero in front. */
  private static void put(
      Map<Integer, Double> out, int value, int figures, double weight, int most) {
    boolean whole =
        figures <= SET.mostFigures()
            && value >= (figures == 1 ? 1 : (int) Math.pow(FIGURES, figures - 1));
    if (whole && value <= most) {
      out.merge(value, weight, Double::sum);
    }
  }

  /** Tells whether a bar number carries a letter, "24A". */
  public static boolean isLettered(String text) {
    return LETTERED.matcher(text).matches();
  }

  /** Tells whether a mark is a plain number. */
  public static boolean isNumeric(Sign mark) {
    return mark.text().matches("\\d{1,4}");
  }

  /**
   * The cell a printed number or mark belongs to: the one beginning under it, else the one it is
   * in.
   */
  public static int cellOf(SystemCells cells, Sign sign) {
    if (cells.lines().isEmpty()) {
      return -1;
    }
    if (sign.at() < cells.begin() + SET.first() && sign.kind() == SignKind.BAR_NUMBER) {
      return 0;
    }
    int near = cells.cellStartingNear(sign.at());
    double off = distance(sign, cells.from(near));
    return off <= SET.reach() ? near : cells.cellAt(sign.at());
  }

  /** How far a mark is from a bar's beginning: it may be centred over it or start at it. */
  static double distance(Sign sign, double start) {
    return Math.min(Math.abs(sign.at() - start), Math.abs(sign.from() - start));
  }
}
