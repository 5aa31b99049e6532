package org.barmap.reckon.book;

import java.util.ArrayList;
import java.util.List;
import org.barmap.map.Enclosure;
import org.barmap.reckon.cells.Marks;
import org.barmap.reckon.set.BookSettings;
import org.barmap.reckon.set.ReckonSettings;
import org.barmap.sign.kind.Sign;

/**
 * Tells marks that are bar numbers from bar numbers that only look like marks, by the bars they
 * stand on.
 *
 * <p>A house that prints a number over every fifth or tenth bar prints it without a frame, and over
 * no other bar; rehearsal marks stand where the music begins anew, on one bar in five by chance.
 * What says another number than that of its bar, bare and unsurely seen, is neither.
 */
public final class CountingMarks {

  private static final BookSettings.Counting SET = ReckonSettings.STANDARD.book().counting();

  private CountingMarks() {}

  /**
   * Returns which of a book's numeric marks are marks.
   *
   * @param marks in reading order
   * @param bars the number of the bar under each
   */
  public static List<Boolean> areMarks(List<Sign> marks, List<Integer> bars) {
    double odds = SET.habit();
    List<Boolean> astray = new ArrayList<>();
    for (int i = 0; i < marks.size(); i++) {
      Sign mark = marks.get(i);
      astray.add(isBare(mark) && mark.probability() < SET.unsure() && !says(mark, bars.get(i)));
      if (isBare(mark) && !astray.get(i)) {
        odds += bars.get(i) % SET.every() == 0 ? SET.onFives() : SET.besideFives();
      }
    }
    List<Boolean> out = new ArrayList<>();
    for (int i = 0; i < marks.size(); i++) {
      boolean habit = odds > 0 && isBare(marks.get(i)) && bars.get(i) % SET.every() == 0;
      out.add(!habit && !astray.get(i));
    }
    return List.copyOf(out);
  }

  private static boolean isBare(Sign mark) {
    return mark.enclosure().filter(e -> e != Enclosure.NONE).isEmpty();
  }

  private static boolean says(Sign mark, int bar) {
    return mark.readings().stream()
        .anyMatch(r -> r.probability() >= SET.read() && Marks.number(r.text()) == bar);
  }
}
