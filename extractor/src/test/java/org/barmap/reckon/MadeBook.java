package org.barmap.reckon;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.barmap.map.Outline;
import org.barmap.map.StaffSystem;
import org.barmap.reckon.cost.Costs;
import org.barmap.sign.ReadPage;
import org.barmap.sign.ReadSystem;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;

/**
 * A made-up book with known bar numbers, and the signs a reader would find in it, with errors drawn
 * at random on demand.
 */
final class MadeBook {

  /** One true bar entry: where it is and what it is called. */
  record TrueBar(int system, double from, double to, int number, int count) {}

  /** Shares of signs that go wrong. */
  record Errors(double missedLines, double inventedLines, double wrongCounts, double wrongAnchors) {
    static final Errors NONE = new Errors(0, 0, 0, 0);
    static final Errors USUAL = new Errors(0.05, 0.02, 0.10, 0.10);
  }

  /** An error that was drawn: the system it is in and where. */
  record Injected(String kind, int system, double at) {}

  final List<TrueBar> truth = new ArrayList<>();
  final List<Injected> injected = new ArrayList<>();
  final List<ReadPage> pages = new ArrayList<>();

  private final Random random;
  private final Errors errors;

  private final boolean boxedNumbers;
  private int number = 1;
  private int letter = 0;
  private int musicalNumber = 1;
  private int left;
  private int system = 0;

  MadeBook(long seed, int pageCount, Errors errors) {
    this.random = new Random(seed);
    this.errors = errors;
    this.boxedNumbers = seed % 2 == 0;
    this.left = 3 + random.nextInt(30);
    for (int p = 1; p <= pageCount; p++) {
      List<ReadSystem> systems = new ArrayList<>();
      int lines = 8 + random.nextInt(4);
      for (int s = 1; s <= lines; s++) {
        systems.add(system(s));
      }
      pages.add(new ReadPage(p, "page-" + p + ".png", 1000, 1500, systems));
    }
  }

  private ReadSystem system(int onPage) {
    boolean first = system == 0;
    List<Sign> signs = new ArrayList<>();
    if (!first && left <= 0) {
      musicalNumber++;
      number = random.nextInt(8) == 0 ? 0 : 1;
      letter = 0;
      left = 10 + random.nextInt(30);
      heading(signs);
    } else if (first) {
      heading(signs);
    }
    if (number > 1) {
      anchor(signs, number, system);
    }
    double line = 100;
    bars(signs, line, first);
    left--;
    system++;
    StaffSystem staves = OnLine.staff(onPage);
    return new ReadSystem(staves, line, MadeBook.shape(onPage), signs);
  }

  private void heading(List<Sign> signs) {
    List<Reading> says = List.of(new Reading("No. " + musicalNumber, 0.95));
    signs.add(OnLine.sign(SignKind.HEADING, 2, 20, 0.97, says));
  }

  private void bars(List<Sign> signs, double line, boolean first) {
    int bars = 2 + random.nextInt(6);
    double at = 7;
    double usual = (line - at) / bars;
    for (int b = 0; b < bars; b++) {
      double width = b == bars - 1 ? line - at : usual * (0.7 + 0.6 * random.nextDouble());
      if (at + width > line - 4 && b < bars - 1) {
        width = line - at;
        b = bars - 1;
      }
      boolean rest = random.nextInt(4) == 0 && number > 0;
      int count = rest ? 2 + random.nextInt(random.nextInt(4) == 0 ? 40 : 10) : 1;
      if (rest) {
        rest(signs, at, width, count, system);
      }
      if (random.nextInt(10) == 0 && !first && at > 7) {
        mark(signs, at, boxedNumbers ? number : -1, letter, system);
        letter++;
      }
      truth.add(new TrueBar(system, at, at + width, number, count));
      at += width;
      line(signs, at, system, b == bars - 1, width);
      number += count;
    }
  }

  /** A boxed bar number, or a letter in sequence. */
  private void mark(List<Sign> signs, double at, int number, int letter, int system) {
    List<Reading> says = List.of(new Reading(letter(letter), 0.97), new Reading("8", 0.01));
    if (number >= 0) {
      boolean wrong = random.nextDouble() < errors.wrongAnchors();
      if (wrong) {
        injected.add(new Injected("anchor", system, at));
      }
      says = readings(number, wrong, errors.wrongAnchors());
    }
    signs.add(OnLine.sign(SignKind.REHEARSAL, at, at + 2, 0.98, says));
  }

  private static ReadSystem.Shape shape(int s) {
    return (from, to) -> Outline.box(from * 10, s * 100, to * 10, s * 100 + 40);
  }

  private static String letter(int i) {
    return String.valueOf((char) ('A' + i % 26)).repeat(1 + (i / 26) % 2);
  }

  private void anchor(List<Sign> signs, int number, int system) {
    boolean wrong = random.nextDouble() < errors.wrongAnchors();
    if (wrong) {
      injected.add(new Injected("anchor", system, 7));
    }
    signs.add(
        OnLine.sign(
            SignKind.BAR_NUMBER, 0.5, 2, 0.97, readings(number, wrong, errors.wrongAnchors())));
  }

  private void rest(List<Sign> signs, double at, double width, int count, int system) {
    boolean wrong = random.nextDouble() < errors.wrongCounts();
    if (wrong) {
      injected.add(new Injected("count", system, at + width / 2));
    }
    double middle = at + width / 2;
    signs.add(OnLine.sign(SignKind.MULTI_REST, at + 2, at + width - 2, 0.98, List.of()));
    signs.add(
        OnLine.sign(
            SignKind.COUNT,
            middle - 1,
            middle + 1,
            0.98,
            readings(count, wrong, errors.wrongCounts())));
  }

  /**
   * Readings of a numeral by a reader who knows how sure it is: of all numerals it gives 0.6, six
   * in ten are right. Wrong ones are off by one figure; half of them list the true number second.
   */
  private List<Reading> readings(int value, boolean wrong, double wrongShare) {
    // doubtful readings have p in 0.4 ... 0.9, 0.65 on average, so 0.35 of them are wrong
    double doubtfulAndRight = wrongShare * 0.65 / 0.35 / (1 - wrongShare);
    boolean doubtful = wrong || random.nextDouble() < doubtfulAndRight;
    if (!doubtful) {
      return List.of(new Reading(Integer.toString(value), 0.99));
    }
    double p = calibrated(wrong, 0.4, 0.9);
    int other = misread(value);
    List<Reading> out = new ArrayList<>();
    out.add(new Reading(Integer.toString(wrong ? other : value), p));
    if (random.nextBoolean()) {
      out.add(new Reading(Integer.toString(wrong ? value : other), (1 - p) * 0.6));
    }
    return said(out);
  }

  /** What the reader says where these are the probabilities. */
  private static List<Reading> said(List<Reading> true0) {
    double power = 1 / Costs.DEFAULT.numerals().numeralSlope();
    double sum = true0.stream().mapToDouble(Reading::probability).sum();
    double powers = true0.stream().mapToDouble(r -> Math.pow(r.probability(), power)).sum();
    return true0.stream()
        .map(r -> new Reading(r.text(), sum * Math.pow(r.probability(), power) / powers))
        .toList();
  }

  /**
   * Draws p between two bounds, with density proportional to p for right and 1 - p for wrong ones.
   */
  private double calibrated(boolean wrong, double low, double high) {
    while (true) {
      double p = low + (high - low) * random.nextDouble();
      if (random.nextDouble() < (wrong ? 1 - p : p)) {
        return p;
      }
    }
  }

  /** What the reader says of a line that is a barline with probability p. */
  private static double said(double p) {
    double odds =
        (Math.log(p / (1 - p)) - Costs.DEFAULT.lines().lineBias())
            / Costs.DEFAULT.lines().lineSlope();
    return 1 / (1 + Math.exp(-odds));
  }

  private void line(List<Sign> signs, double at, int system, boolean last, double width) {
    if (!last && random.nextDouble() < errors.missedLines()) {
      injected.add(new Injected("missed", system, at));
    } else {
      boolean doubtful = random.nextDouble() < errors.inventedLines() * 0.735 / 0.265;
      signs.add(barline(at, doubtful ? said(calibrated(false, 0.5, 0.97)) : 0.999));
    }
    if (random.nextDouble() < errors.inventedLines()) {
      double false0 = at - width * (0.2 + 0.6 * random.nextDouble());
      injected.add(new Injected("invented", system, false0));
      signs.add(barline(false0, said(calibrated(true, 0.5, 0.97))));
    }
  }

  private static Sign barline(double at, double p) {
    return OnLine.sign(SignKind.BARLINE, at - 0.1, at + 0.1, p, List.of(new Reading("single", 1)));
  }

  private int misread(int value) {
    char[] digits = Integer.toString(value).toCharArray();
    int i = random.nextInt(digits.length);
    char old = digits[i];
    while (digits[i] == old || digits[0] == '0') {
      digits[i] = (char) ('0' + random.nextInt(10));
    }
    return Integer.parseInt(new String(digits));
  }
}
