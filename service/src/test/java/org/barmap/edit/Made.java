package org.barmap.edit;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.barmap.edit.draft.Draft;
import org.barmap.map.Bar;
import org.barmap.map.BarBuilder;
import org.barmap.map.BarMap;
import org.barmap.map.Barline;
import org.barmap.map.Book;
import org.barmap.map.Content;
import org.barmap.map.Enclosure;
import org.barmap.map.Evidence;
import org.barmap.map.Finding;
import org.barmap.map.Key;
import org.barmap.map.Meter;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Outline;
import org.barmap.map.Page;
import org.barmap.map.Point;
import org.barmap.map.RehearsalMark;
import org.barmap.map.Severity;
import org.barmap.map.StaffSystem;
import org.barmap.map.Stage;

/** Made maps on sloped and bent staves, from a seed. */
public final class Made {

  private final Random random;
  private final double slope;
  private final boolean loses;
  private final List<Page> pages = new ArrayList<>();
  private final List<Bar> bars = new ArrayList<>();
  private final List<MusicalNumber> numbers = new ArrayList<>();

  private Made(long seed, boolean loses) {
    this.loses = loses;
    random = new Random(seed);
    slope = (random.nextDouble() - 0.5) * 0.12;
  }

  /** Returns a map of some pages with some systems each, in two or more musical numbers. */
  public static BarMap book(long seed) {
    return new Made(seed, true).make();
  }

  /** Returns a map in which no bars were lost: every number counts on from the one before. */
  public static BarMap wholeBook(long seed) {
    return new Made(seed, false).make();
  }

  /** Returns the first open doubt of a kind. */
  public static Finding open(Draft draft, String code) {
    return draft.open().stream().filter(f -> f.code().equals(code)).findFirst().orElseThrow();
  }

  /** Returns a map whose bars keep what the page says about them, some of it misread. */
  public static BarMap bookWithEvidence(long seed) {
    Random random = new Random(seed);
    BarMap map = book(seed);
    List<Bar> told = new ArrayList<>();
    for (Bar bar : map.bars()) {
      List<Evidence.Alternative> counts =
          bar.content() == Content.MULTI_REST
              ? List.of(
                  new Evidence.Alternative(Integer.toString(bar.count()), 0.8),
                  new Evidence.Alternative(Integer.toString(bar.count() + 5), 0.15))
              : List.of();
      List<Evidence.Alternative> numbers =
          random.nextInt(4) == 0
              ? List.of(
                  new Evidence.Alternative(
                      Integer.toString(bar.number() + (random.nextInt(5) == 0 ? 10 : 0)), 0.9))
              : List.of();
      told.add(bar.toBuilder().evidence(Optional.of(new Evidence(counts, numbers, 0.95))).build());
    }
    return map.withBars(told);
  }

  /** Returns a point of a staff that slopes and sags, at a share of the page's width. */
  private Point on(double x, double y) {
    double bend = 14 * Math.sin(Math.PI * (x - 200) / 2100);
    return new Point(x - slope * (y - 1700), y + slope * (x - 200) + bend).rounded();
  }

  private Outline outline(double left, double right, double top) {
    return new Outline(on(left, top), on(right, top), on(right, top + 84), on(left, top + 84));
  }

  private BarMap make() {
    int pageCount = 2 + random.nextInt(3);
    int number = 1;
    int start = 0;
    for (int p = 1; p <= pageCount; p++) {
      List<StaffSystem> systems = new ArrayList<>();
      int systemCount = 2 + random.nextInt(4);
      for (int s = 1; s <= systemCount; s++) {
        double top = 150 + 420.0 * s;
        boolean restart = !bars.isEmpty() && random.nextInt(5) == 0;
        if (restart) {
          close(start);
          start = bars.size();
          number = random.nextInt(3) == 0 ? 0 : 1;
        }
        boolean printed = random.nextBoolean();
        if (loses && printed && !restart && !bars.isEmpty() && random.nextInt(4) == 0) {
          number += 1 + random.nextInt(4); // bars the reading lost; the print says so
        }
        systems.add(
            new StaffSystem(
                s,
                outline(200, 2300, top),
                21,
                printed ? Optional.of(number) : Optional.empty(),
                1,
                List.of()));
        number = system(p, s, top, number);
      }
      pages.add(new Page(p, "page-" + p + ".png", 2480, 3508, systems));
    }
    close(start);
    return BarMap.of(new Book("Made", "Bass"), pages, numbers, bars).withFindings(findings());
  }

  private int system(int page, int system, double top, int from) {
    int count = 2 + random.nextInt(5);
    double width = 2100.0 / count;
    int number = from;
    for (int i = 0; i < count; i++) {
      BarBuilder bar =
          Bar.builder(
                  "b" + (bars.size() + 1),
                  page,
                  system,
                  outline(200 + i * width, 200 + (i + 1) * width, top))
              .number(number)
              .meter(new Meter(4, 4, bars.isEmpty()))
              .key(key())
              .startBarline(i == 0 ? Barline.NONE : Barline.SINGLE)
              .confidence(0.9);
      if (random.nextInt(4) == 0) {
        bar.content(Content.MULTI_REST).count(2 + random.nextInt(20));
      }
      if (random.nextInt(6) == 0) {
        bar.rehearsal(new RehearsalMark("A", Enclosure.BOX));
      }
      bars.add(bar.build());
      number = bars.get(bars.size() - 1).nextNumber();
    }
    return number;
  }

  /** Two flats in the whole first number, unknown later, as where a number's key was not read. */
  private Optional<Key> key() {
    boolean first = numbers.isEmpty();
    return first ? Optional.of(new Key(-2, bars.isEmpty())) : Optional.empty();
  }

  private void close(int start) {
    numbers.add(
        new MusicalNumber(
            Integer.toString(numbers.size() + 1),
            "Made " + numbers.size(),
            Optional.of(bars.get(start).id()),
            Optional.of(bars.get(bars.size() - 1).id()),
            false));
  }

  private List<Finding> findings() {
    List<Finding> findings = new ArrayList<>();
    for (Bar bar : bars) {
      if (random.nextInt(4) == 0) {
        findings.add(Finding.ofBar(Severity.DOUBT, Stage.RECKON, bar, "count", "Look at it"));
      }
    }
    return findings;
  }
}
