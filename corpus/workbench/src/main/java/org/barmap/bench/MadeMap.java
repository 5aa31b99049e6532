package org.barmap.bench;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.barmap.edit.kind.BarCorrection;
import org.barmap.map.Bar;
import org.barmap.map.BarBuilder;
import org.barmap.map.BarMap;
import org.barmap.map.Barline;
import org.barmap.map.Book;
import org.barmap.map.Content;
import org.barmap.map.Enclosure;
import org.barmap.map.Meter;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Outline;
import org.barmap.map.Page;
import org.barmap.map.RehearsalMark;
import org.barmap.map.StaffSystem;

/** The map of a made book of a given number of bars, for measuring. */
final class MadeMap {

  /** How many bars the usual book to measure with has at least. */
  static final int USUAL = 3000;

  private static final int BARS_A_SYSTEM = 6;
  private static final int SYSTEMS_A_PAGE = 10;
  private static final int SYSTEMS_A_NUMBER = 17;

  private final Random random = new Random(7);
  private final List<Page> pages = new ArrayList<>();
  private final List<MusicalNumber> numbers = new ArrayList<>();
  private final List<Bar> bars = new ArrayList<>();

  private MadeMap() {}

  /** Returns a book of at least so many bars, in numbers of about a hundred. */
  static BarMap of(int atLeast) {
    return new MadeMap().make(atLeast);
  }

  /** Returns a correction of one bar, another bar and another length every round. */
  static BarCorrection correction(BarMap map, int round) {
    List<Bar> bars = map.bars();
    Bar bar = bars.get(Math.floorMod(round * 37, bars.size()));
    return new BarCorrection.SetCount(bar.id(), 2 + Math.floorMod(round, 9));
  }

  private BarMap make(int atLeast) {
    int written = 0;
    int system = 0;
    int number = 1;
    int firstOfNumber = 0;
    List<StaffSystem> systems = new ArrayList<>();
    while (written < atLeast) {
      int page = system / SYSTEMS_A_PAGE + 1;
      int index = system % SYSTEMS_A_PAGE + 1;
      double top = 200 + 300.0 * index;
      systems.add(
          new StaffSystem(
              index, Outline.box(200, top, 2300, top + 84), 21, Optional.empty(), 1, List.of()));
      for (int i = 0; i < BARS_A_SYSTEM; i++) {
        Bar bar = bar(page, index, i, top, number, bars.size() == firstOfNumber);
        bars.add(bar);
        number = bar.nextNumber();
        written += bar.count();
      }
      system++;
      if (system % SYSTEMS_A_NUMBER == 0 || written >= atLeast) {
        closeNumber(firstOfNumber);
        firstOfNumber = bars.size();
        number = 1;
      }
      if (index == SYSTEMS_A_PAGE || written >= atLeast) {
        pages.add(new Page(page, "page-" + page + ".png", 2480, 3508, systems));
        systems = new ArrayList<>();
      }
    }
    return BarMap.of(new Book("Made", "Bass"), pages, numbers, bars);
  }

  private Bar bar(int page, int system, int i, double top, int number, boolean first) {
    double width = 2100.0 / BARS_A_SYSTEM;
    BarBuilder bar =
        Bar.builder(
                "b" + (bars.size() + 1),
                page,
                system,
                Outline.box(200 + i * width, top, 200 + (i + 1) * width, top + 84))
            .number(number)
            .meter(new Meter(4, 4, first))
            .startBarline(i == 0 ? Barline.NONE : Barline.SINGLE);
    if (random.nextInt(12) == 0) {
      bar.content(Content.MULTI_REST).count(2 + random.nextInt(14));
    }
    if (random.nextInt(15) == 0) {
      bar.rehearsal(new RehearsalMark(Character.toString('A' + random.nextInt(26)), Enclosure.BOX));
    }
    return bar.build();
  }

  private void closeNumber(int first) {
    int last = bars.size() - 1;
    bars.set(last, bars.get(last).toBuilder().endBarline(Barline.FINAL).build());
    numbers.add(
        new MusicalNumber(
            Integer.toString(numbers.size() + 1),
            "",
            Optional.of(bars.get(first).id()),
            Optional.of(bars.get(last).id()),
            false));
  }
}
