package org.barmap.browser.planted;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.barmap.map.Bar;
import org.barmap.map.BarBuilder;
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

/** A made book of 144 pages that keeps what was read of it. */
public final class MadeBook {

  /** How many pages it has. */
  public static final int PAGES = 144;

  private static final int LINES = 10;
  private static final int BARS = 6;
  private static final int LINES_A_NUMBER = 17;

  private final List<Bar> bars = new ArrayList<>();

  private MadeBook() {}

  /** Makes it. */
  public static BarMap make() {
    return new MadeBook().made();
  }

  /** Lines begin with their printed number, one bar in five is a rest with its numeral. */
  private BarMap made() {
    Random random = new Random(7);
    List<Page> pages = new ArrayList<>();
    List<MusicalNumber> numbers = new ArrayList<>();
    int number = 1;
    for (int page = 1; page <= PAGES; page++) {
      List<StaffSystem> lines = new ArrayList<>();
      for (int line = 1; line <= LINES; line++) {
        int at = (page - 1) * LINES + line - 1;
        double top = 250.0 * line;
        boolean starts = at % LINES_A_NUMBER == 0;
        number = starts ? 1 : number;
        Optional<Integer> printed = starts ? Optional.empty() : Optional.of(number);
        lines.add(
            new StaffSystem(
                line, Outline.box(200, top, 2300, top + 84), 21, printed, 1, List.of()));
        if (starts) {
          numbers.add(begun(numbers.size() + 1, "b" + (bars.size() + 1)));
        }
        for (int i = 0; i < BARS; i++) {
          int count = random.nextInt(5) == 0 ? 2 + random.nextInt(14) : 1;
          double left = 200 + i * 350.0;
          BarBuilder bar =
              Bar.builder(
                      "b" + (bars.size() + 1),
                      page,
                      line,
                      Outline.box(left, top, left + 350, top + 84))
                  .number(number)
                  .meter(new Meter(4, 4, starts && i == 0))
                  .evidence(
                      Optional.of(
                          new Evidence(
                              count > 1 ? said(count) : List.of(),
                              i == 0 && !starts ? said(number) : List.of(),
                              0.99)));
          if (count > 1) {
            bar.content(Content.MULTI_REST).count(count);
          }
          boolean last = i == BARS - 1 && (at + 1) % LINES_A_NUMBER == 0;
          bars.add(bar.endBarline(last ? Barline.FINAL : Barline.SINGLE).build());
          number += count;
        }
        MusicalNumber now = numbers.get(numbers.size() - 1);
        numbers.set(
            numbers.size() - 1,
            new MusicalNumber(
                now.label(), "", now.firstBar(), Optional.of("b" + bars.size()), false));
      }
      pages.add(new Page(page, "page-" + page + ".png", 2480, 3508, lines));
    }
    return BarMap.of(new Book("Made", "Bass"), pages, numbers, bars);
  }

  private static MusicalNumber begun(int label, String bar) {
    return new MusicalNumber(
        Integer.toString(label), "", Optional.of(bar), Optional.of(bar), false);
  }

  private static List<Evidence.Alternative> said(int figure) {
    return List.of(new Evidence.Alternative(Integer.toString(figure), 0.97));
  }
}
