package org.barmap.bench;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.Outline;
import org.barmap.map.StaffSystem;
import org.barmap.reckon.Reckoner;
import org.barmap.sign.ReadPage;
import org.barmap.sign.ReadSystem;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;

/**
 * A made book as a reader hands it on, so that its map keeps evidence: lines begin with their bar
 * number, one bar in five is a rest, and one numeral in ten could say another count.
 */
final class MadeReadings {

  private static final int SYSTEMS_A_PAGE = 10;
  private static final int SYSTEMS_A_NUMBER = 17;
  private static final int BARS_A_SYSTEM = 6;

  /** Staff spaces. */
  private static final double LENGTH = 100;

  private static final double FIRST_BAR = 7;
  private static final double WIDTH = (LENGTH - FIRST_BAR) / BARS_A_SYSTEM;

  private final Random random = new Random(7);
  private int system;
  private int number = 1;

  private MadeReadings() {}

  /** Returns the map of a book of so many pages, settled from what was read of them. */
  static BarMap settled(int pages) {
    MadeReadings made = new MadeReadings();
    List<ReadPage> read = new ArrayList<>();
    for (int page = 1; page <= pages; page++) {
      List<ReadSystem> systems = new ArrayList<>();
      for (int line = 1; line <= SYSTEMS_A_PAGE; line++) {
        systems.add(made.system(line));
      }
      read.add(new ReadPage(page, "page-" + page + ".png", 1000, 1500, systems));
    }
    return new Reckoner().reckon(new Book("Made", "Bass"), read);
  }

  private ReadSystem system(int line) {
    List<Sign> signs = new ArrayList<>();
    if (system % SYSTEMS_A_NUMBER == 0) {
      number = 1;
      signs.add(says(SignKind.HEADING, 2, 20, "No. " + (system / SYSTEMS_A_NUMBER + 1)));
    } else {
      signs.add(says(SignKind.BAR_NUMBER, 0.5, 2, Integer.toString(number)));
    }
    for (int bar = 0; bar < BARS_A_SYSTEM; bar++) {
      double from = FIRST_BAR + bar * WIDTH;
      boolean rest = random.nextInt(5) == 0;
      int count = rest ? 2 + random.nextInt(14) : 1;
      if (rest) {
        signs.add(sign(SignKind.MULTI_REST, from + 2, from + WIDTH - 2, List.of()));
        double middle = from + WIDTH / 2;
        signs.add(sign(SignKind.COUNT, middle - 1, middle + 1, numeral(count)));
      }
      signs.add(says(SignKind.BARLINE, from + WIDTH - 0.1, from + WIDTH + 0.1, "single"));
      number += count;
    }
    system++;
    StaffSystem staff =
        new StaffSystem(line, outline(line, 0, LENGTH), 10, Optional.empty(), 1, List.of());
    return new ReadSystem(staff, LENGTH, (from, to) -> outline(line, from, to), signs);
  }

  private List<Reading> numeral(int count) {
    return random.nextInt(10) == 0
        ? List.of(
            new Reading(Integer.toString(count), 0.6),
            new Reading(Integer.toString(count + 1), 0.3))
        : List.of(new Reading(Integer.toString(count), 0.99));
  }

  private static Sign says(SignKind kind, double from, double to, String text) {
    return sign(kind, from, to, List.of(new Reading(text, 0.98)));
  }

  private static Sign sign(SignKind kind, double from, double to, List<Reading> readings) {
    return new Sign(kind, from, to, -2, 2, outline(1, from, to), 0.98, readings, Optional.empty());
  }

  private static Outline outline(int line, double from, double to) {
    return Outline.box(from * 10, line * 100, to * 10, line * 100 + 40);
  }
}
