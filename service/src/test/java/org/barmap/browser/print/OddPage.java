package org.barmap.browser.print;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Barline;
import org.barmap.map.Book;
import org.barmap.map.Content;
import org.barmap.map.Evidence;
import org.barmap.map.Meter;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Outline;
import org.barmap.map.Page;
import org.barmap.map.StaffSystem;
import org.barmap.reckon.Fixed;
import org.barmap.reckon.Settler;

/**
 * A made page of one number as a reader has it: four bars a line, the number printed at each line's
 * first bar, and what may be misread on it. Counts, numbers and doubts are the reckoning's own.
 */
final class OddPage {

  private static final int BARS = 4;

  private final List<Bar> bars = new ArrayList<>();
  private final List<StaffSystem> lines = new ArrayList<>();

  /** A bar of music. */
  static final int MUSIC = 0;

  /** A rest without a numeral that could be read: a whole note, perhaps. */
  static final int NO_NUMERAL = -1;

  /**
   * Adds a line.
   *
   * @param prints what is read at its bars, as "print" at the first and more at others by their
   *     place, empty for nothing
   * @param kinds of its bars, {@link #MUSIC}, {@link #NO_NUMERAL} or a rest's count
   */
  OddPage line(List<String> prints, int... kinds) {
    int line = lines.size() + 1;
    double top = 300.0 * line;
    lines.add(
        new StaffSystem(
            line, Outline.box(200, top, 2300, top + 84), 21, number(prints.get(0)), 1, List.of()));
    for (int i = 0; i < kinds.length; i++) {
      double left = 200 + i * 2100.0 / kinds.length;
      double right = 200 + (i + 1) * 2100.0 / kinds.length;
      String print = i < prints.size() ? prints.get(i) : "";
      Evidence evidence =
          new Evidence(
              kinds[i] > 0 ? numeral(kinds[i]) : List.of(),
              print.isEmpty() ? List.of() : said(print),
              0.99);
      bars.add(
          Bar.builder("b" + (bars.size() + 1), 1, line, Outline.box(left, top, right, top + 84))
              .number(bars.size() + 1)
              .content(kinds[i] == MUSIC ? Content.MUSIC : Content.MULTI_REST)
              .count(kinds[i] == MUSIC ? 1 : Math.max(2, kinds[i]))
              .meter(new Meter(4, 4, bars.isEmpty()))
              .endBarline(Barline.SINGLE)
              .evidence(Optional.of(evidence))
              .build());
    }
    return this;
  }

  private static Optional<Integer> number(String print) {
    return print.matches("\\d+") ? Optional.of(Integer.valueOf(print)) : Optional.empty();
  }

  private static List<Evidence.Alternative> said(String text) {
    return List.of(new Evidence.Alternative(text, 0.97));
  }

  private static List<Evidence.Alternative> numeral(int count) {
    return List.of(
        new Evidence.Alternative(Integer.toString(count), 0.5),
        new Evidence.Alternative(Integer.toString(count / 10), 0.4));
  }

  /** Returns its map, settled. */
  BarMap settled(String title) {
    MusicalNumber number =
        new MusicalNumber("1", "", Optional.of("b1"), Optional.of("b" + bars.size()), false);
    BarMap map =
        BarMap.of(
            new Book(title, "Bass"),
            List.of(new Page(1, "page-1.png", 2480, 3508, lines)),
            List.of(number),
            bars);
    return new Settler().settle(map, Fixed.NOTHING);
  }
}
