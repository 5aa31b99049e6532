package org.barmap.sign.rule;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Predicate;
import org.barmap.map.Enclosure;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.set.NumberSettings;
import org.barmap.sign.set.SignSettings;

/**
 * Tells marks from bar numbers by how large they are: a house sets each of the two in one size, and
 * marks in the larger one (common practice).
 *
 * <p>Marks with their frames count as large as those are. A text as small as the page's bar numbers
 * is one; a number as large as its marks is a mark, surely where the sizes lie far apart, else
 * where it is what comes between its neighbours: a 1 between H and J is an I. Where no numbers tell
 * their size but marks theirs, a smaller number without a frame is a bar's: one way of drawing
 * serves one purpose.
 */
record MarkBySize(double small, double large, boolean alike) {

  private static final NumberSettings.Sizes SET = SignSettings.STANDARD.number().sizes();

  /** Settles the signs of a page, given and returned by system. */
  static List<List<Sign>> settle(List<List<Sign>> page) {
    List<Sign> all = page.stream().flatMap(List::stream).toList();
    OptionalDouble marks = usual(all, MarkBySize::isSureMark);
    if (marks.isEmpty()) {
      return page;
    }
    double numbers = usual(all, MarkBySize::isNumber).orElse(Double.NaN);
    long framed = all.stream().filter(s -> isMark(s) && !isBare(s)).count();
    long sure = all.stream().filter(MarkBySize::isSureMark).count();
    boolean alike =
        framed >= SET.framed() * all.stream().filter(MarkBySize::isMark).count()
            || sure >= SET.many();
    return new MarkBySize(numbers, marks.getAsDouble(), alike).all(page);
  }

  /**
   * Tells whether a number where a line begins is as large as the page's marks are, or much larger
   * than the numbers of its other lines. Figures elsewhere, of tuplets, say nothing of either.
   */
  static boolean isLarge(Sign s, List<List<Sign>> page) {
    List<Sign> all = page.stream().flatMap(List::stream).toList();
    OptionalDouble numbers = usual(all, n -> isNumber(n) && MarkOrNumber.startsLine(n));
    OptionalDouble marks =
        usual(all, m -> MarkOrNumber.isNumeric(m) && !MarkOrNumber.startsLine(m));
    if (numbers.isEmpty()) {
      return false;
    }
    double over = height(s) / numbers.getAsDouble();
    return over > SET.farApart()
        || marks.isPresent()
            && marks.getAsDouble() > SET.larger() * numbers.getAsDouble()
            && over > Math.sqrt(marks.getAsDouble() / numbers.getAsDouble());
  }

  private List<List<Sign>> all(List<List<Sign>> page) {
    List<Sign> marks = page.stream().flatMap(List::stream).filter(MarkBySize::isMark).toList();
    List<List<Sign>> out = new ArrayList<>();
    int before = 0;
    for (List<Sign> system : page) {
      List<Sign> settled = new ArrayList<>();
      for (Sign s : system) {
        before += isMark(s) ? 1 : 0;
        settled.add(isMark(s) ? mark(s) : isNumber(s) ? number(s, marks, before) : s);
      }
      out.add(settled);
    }
    return out;
  }

  /** Where between the two sizes a sign lies: 0 as small as a number, 1 as large as a mark. */
  private double place(Sign s) {
    return Math.log(height(s) / small) / Math.log(large / small);
  }

  private Sign mark(Sign s) {
    boolean bare = isBare(s) && s.text().matches("\\d{1,4}") && s.probability() < SET.surelyMark();
    boolean asNumber = large >= SET.apart() * small && place(s) < SET.asSmall();
    boolean unframed = alike && Double.isNaN(small) && height(s) < SET.unframed() * large;
    return bare && (asNumber || unframed) ? s.as(SignKind.BAR_NUMBER) : s;
  }

  private Sign number(Sign s, List<Sign> marks, int before) {
    if (MarkOrNumber.beforeStaff(s) || Math.abs(Math.log(height(s) / large)) > SET.asLarge()) {
      return s;
    }
    Optional<Sign> follows =
        before > 0 ? next(s, marks.get(before - 1).text(), 1) : Optional.empty();
    Optional<Sign> leads =
        before < marks.size() ? next(s, marks.get(before).text(), -1) : Optional.empty();
    boolean far = large >= SET.farApart() * small;
    return follows.or(() -> leads).orElse(far ? s.as(SignKind.REHEARSAL) : s);
  }

  /** The sign as the mark one before or after another, where it may be read so. */
  private static Optional<Sign> next(Sign s, String mark, int by) {
    if (mark.matches("\\d{1,3}")) {
      String wanted = Integer.toString(Integer.parseInt(mark) + by);
      return s.text().equals(wanted) ? Optional.of(s.as(SignKind.REHEARSAL)) : Optional.empty();
    }
    String letter = mark.matches("[A-Z]") ? String.valueOf((char) (mark.charAt(0) + by)) : "";
    boolean like =
        letter.equals("I") && s.text().equals("1") || letter.equals("O") && s.text().equals("0");
    if (!like) {
      return Optional.empty();
    }
    List<Reading> readings = new ArrayList<>(s.readings());
    readings.set(0, new Reading(letter, s.readings().get(0).probability()));
    return Optional.of(s.as(SignKind.REHEARSAL).saying(readings));
  }

  private static OptionalDouble usual(List<Sign> signs, Predicate<Sign> which) {
    double[] heights = signs.stream().filter(which).mapToDouble(MarkBySize::height).toArray();
    Arrays.sort(heights);
    return heights.length < SET.least()
        ? OptionalDouble.empty()
        : OptionalDouble.of(heights[heights.length / 2]);
  }

  private static boolean isMark(Sign s) {
    return s.kind() == SignKind.REHEARSAL;
  }

  private static boolean isSureMark(Sign s) {
    return isMark(s) && s.probability() >= SET.sureMark();
  }

  private static boolean isNumber(Sign s) {
    return s.kind() == SignKind.BAR_NUMBER;
  }

  private static boolean isBare(Sign s) {
    return s.enclosure().filter(e -> e != Enclosure.NONE).isEmpty();
  }

  private static double height(Sign s) {
    return s.bottom() - s.top();
  }
}
