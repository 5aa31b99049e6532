package org.barmap.reckon;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.fail;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.stream.LongStream;
import java.util.stream.Stream;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.Finding;
import org.barmap.map.Outline;
import org.barmap.sign.ReadPage;
import org.barmap.sign.ReadSystem;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What must hold of every reckoning; books and errors are drawn from seeds. */
class ReckoningPropertyTest {

  static Stream<Long> seeds() {
    return LongStream.range(4000, 4008).boxed();
  }

  private static BarMap reckon(List<ReadPage> pages) {
    return new Reckoner().reckon(new Book("made", ""), pages);
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void anySingleErrorBetweenTwoPrintedNumbersIsFound(long seed) {
    MadeBook book = new MadeBook(seed, 2, MadeBook.Errors.NONE);
    Random random = new Random(seed);
    List<ReadSystem> systems = book.pages.stream().flatMap(p -> p.systems().stream()).toList();
    for (int s = 0; s + 1 < systems.size(); s++) {
      if (has(systems.get(s), SignKind.BAR_NUMBER)
          && has(systems.get(s + 1), SignKind.BAR_NUMBER)) {
        for (List<Sign> wrong : errors(systems.get(s), random)) {
          List<ReadPage> pages = with(book.pages, systems.get(s), wrong);
          List<Finding> found = reckon(pages).findings();
          String name = page(book.pages, systems.get(s)) + "/" + systems.get(s).system().index();
          // at the system itself, or at the printed number that contradicts it
          ReadSystem after = systems.get(s + 1);
          String next = page(book.pages, after) + "/" + after.system().index();
          boolean seen =
              found.stream()
                  .map(f -> f.page().orElse(0) + "/" + f.system().orElse(0))
                  .anyMatch(where -> where.equals(name) || where.equals(next));
          if (!seen) {
            fail("system " + name + " with " + wrong + " gives " + found);
          }
        }
      }
    }
  }

  private static boolean has(ReadSystem system, SignKind kind) {
    return system.signs().stream().anyMatch(x -> x.kind() == kind);
  }

  private static int page(List<ReadPage> pages, ReadSystem system) {
    return pages.stream().filter(p -> p.systems().contains(system)).findFirst().get().index();
  }

  /** Every way to get one sign of a system wrong: its signs then. */
  private static List<List<Sign>> errors(ReadSystem system, Random random) {
    List<List<Sign>> out = new ArrayList<>();
    List<Sign> lines = system.signs().stream().filter(x -> x.kind() == SignKind.BARLINE).toList();
    for (int i = 0; i < system.signs().size(); i++) {
      Sign sign = system.signs().get(i);
      boolean last = sign.equals(lines.get(lines.size() - 1));
      if (sign.kind() == SignKind.BARLINE && !last) {
        out.add(replaced(system.signs(), i, Optional.empty()));
      } else if (sign.kind() == SignKind.COUNT || sign.kind() == SignKind.BAR_NUMBER) {
        String text = misread(sign.text(), random);
        out.add(
            replaced(system.signs(), i, Optional.of(said(sign, List.of(new Reading(text, 0.9))))));
      }
    }
    for (int i = 0; i + 1 < lines.size(); i++) {
      double at = (lines.get(i).at() + lines.get(i + 1).at()) / 2;
      List<Sign> more = new ArrayList<>(system.signs());
      more.add(
          new Sign(
              SignKind.BARLINE,
              at - 0.1,
              at + 0.1,
              -2,
              2,
              Outline.box(at * 10, 0, at * 10 + 2, 40),
              0.97,
              List.of(new Reading("single", 1)),
              Optional.empty()));
      out.add(more);
    }
    return out;
  }

  private static Sign said(Sign sign, List<Reading> readings) {
    return new Sign(
        sign.kind(),
        sign.from(),
        sign.to(),
        sign.top(),
        sign.bottom(),
        sign.outline(),
        sign.probability(),
        readings,
        Optional.empty());
  }

  private static List<Sign> replaced(List<Sign> signs, int i, Optional<Sign> by) {
    List<Sign> out = new ArrayList<>(signs);
    out.remove(i);
    by.ifPresent(out::add);
    return out;
  }

  private static String misread(String text, Random random) {
    while (true) {
      char[] figures = text.toCharArray();
      figures[random.nextInt(figures.length)] = (char) ('0' + random.nextInt(10));
      String other = new String(figures);
      if (!other.equals(text) && !other.startsWith("0")) {
        return other;
      }
    }
  }

  private static List<ReadPage> with(List<ReadPage> pages, ReadSystem system, List<Sign> signs) {
    List<ReadPage> out = new ArrayList<>();
    for (ReadPage p : pages) {
      List<ReadSystem> systems = new ArrayList<>();
      for (ReadSystem s : p.systems()) {
        systems.add(
            s.equals(system) ? new ReadSystem(s.system(), s.length(), s.shape(), signs) : s);
      }
      out.add(new ReadPage(p.index(), p.source(), p.width(), p.height(), systems));
    }
    return out;
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void trueReadingsComeBackUnchanged(long seed) {
    MadeBook book = new MadeBook(seed, 5, MadeBook.Errors.NONE);
    BarMap map = reckon(book.pages);
    assertThat(map.bars())
        .extracting(Bar::number)
        .isEqualTo(book.truth.stream().map(MadeBook.TrueBar::number).toList());
    assertThat(map.bars())
        .extracting(Bar::count)
        .isEqualTo(book.truth.stream().map(MadeBook.TrueBar::count).toList());
    assertThat(map.findings()).isEmpty();
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void orderOfPagesDoesNotMatterToTotals(long seed) {
    // every page begins a musical number
    List<ReadPage> pages = new ArrayList<>();
    for (int i = 0; i < 6; i++) {
      pages.addAll(new MadeBook(seed * 10 + i, 1, MadeBook.Errors.NONE).pages);
    }
    List<Integer> totals = new ArrayList<>();
    for (int order = 0; order < 4; order++) {
      List<ReadPage> ordered = new ArrayList<>();
      for (ReadPage p : pages) {
        int index = ordered.size() + 1;
        ordered.add(new ReadPage(index, p.source(), p.width(), p.height(), p.systems()));
      }
      totals.add(reckon(ordered).writtenBars());
      Collections.shuffle(pages, new Random(seed + order));
    }
    assertThat(new HashSet<>(totals)).hasSize(1);
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void nothingAPersonSetIsEverChanged(long seed) {
    BarMap map = reckon(new MadeBook(seed, 3, MadeBook.Errors.USUAL).pages);
    Random random = new Random(seed);
    List<Bar> bars = new ArrayList<>(map.bars());
    Set<String> counts = new HashSet<>();
    Set<String> numbers = new HashSet<>();
    for (int n = 0; n < 12; n++) {
      int i = random.nextInt(bars.size());
      Bar bar = bars.get(i);
      if (bar.isRest() && random.nextBoolean()) {
        bars.set(i, bar.toBuilder().count(1 + random.nextInt(30)).build());
        counts.add(bar.id());
      } else {
        bars.set(i, bar.toBuilder().number(random.nextInt(200)).build());
        numbers.add(bar.id());
      }
    }
    BarMap set = map.withBars(bars);
    BarMap settled = new Settler().settle(set, new Fixed(counts, numbers, Set.of()));
    counts.forEach(
        id -> assertThat(settled.bar(id).get().count()).isEqualTo(set.bar(id).get().count()));
    numbers.forEach(
        id -> assertThat(settled.bar(id).get().number()).isEqualTo(set.bar(id).get().number()));
    assertThat(settled.bars())
        .extracting(Bar::id)
        .isEqualTo(set.bars().stream().map(Bar::id).toList());
  }
}
