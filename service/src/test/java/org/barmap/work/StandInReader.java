package org.barmap.work;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.atomic.AtomicInteger;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.Finding;
import org.barmap.map.Outline;
import org.barmap.map.Page;
import org.barmap.map.Severity;
import org.barmap.map.StaffSystem;
import org.barmap.map.Stage;
import org.barmap.sign.ReadPage;
import org.barmap.sign.ReadSystem;

/**
 * A reader for tests that look at the queue, not at the reading: two systems of three bars on every
 * page, twice as large in files called {@code large…}; files called {@code opening…} hold two
 * pages, {@code blank…} no music, {@code broken…} can't be read.
 */
public final class StandInReader implements PageReader {

  private static final int BARS = 3;

  private final List<String> seen = new CopyOnWriteArrayList<>();
  private final Map<Integer, Runnable> meanwhile = new ConcurrentHashMap<>();
  private final AtomicInteger settlings = new AtomicInteger();
  private volatile boolean dies;

  /** Makes a reader that has read nothing yet. */
  public StandInReader() {}

  /** Returns the names of the files read, in order. */
  public List<String> seen() {
    return seen;
  }

  /** From now on every reading breaks off as if the process had been killed. */
  public void die() {
    dies = true;
  }

  /**
   * Lets something happen while a settling is on its way, after it has seen its pages.
   *
   * @param nth 1 for the first settling from now on
   */
  public void during(int nth, Runnable step) {
    meanwhile.put(settlings.get() + nth, step);
  }

  /** Returns how often a book was settled. */
  public int settlings() {
    return settlings.get();
  }

  @Override
  public List<Result> read(Path picture, String source, int index) {
    if (dies) {
      throw new ThreadDeath();
    }
    seen.add(source);
    if (source.startsWith("broken")) {
      Finding finding =
          Finding.ofPage(Severity.ERROR, Stage.PAGE, index, "damaged", source + ": damaged");
      return List.of(new Result(Optional.empty(), List.of(finding)));
    }
    if (source.startsWith("defect")) {
      throw new IllegalStateException("a defect of ours");
    }
    if (source.startsWith("deep")) {
      throw new StackOverflowError();
    }
    if (source.startsWith("bomb")) {
      throw new OutOfMemoryError("as a decoder throws it");
    }
    List<Result> results = new ArrayList<>();
    results.add(new Result(Optional.of(page(source, index)), List.of()));
    if (source.startsWith("opening")) {
      results.add(new Result(Optional.of(page(source, index + 1)), List.of()));
    }
    return results;
  }

  private static ReadPage page(String source, int index) {
    int scale = source.startsWith("large") ? 2 : 1;
    List<ReadSystem> systems =
        source.startsWith("blank") ? List.of() : List.of(system(1, scale), system(2, scale));
    return new ReadPage(index, source, 1000 * scale, 1400 * scale, systems);
  }

  private static ReadSystem system(int index, int scale) {
    double top = 300.0 * index * scale;
    double left = 100.0 * scale;
    double bottom = top + 80 * scale;
    Outline whole = Outline.box(left, top, 900 * scale, bottom);
    return new ReadSystem(
        new StaffSystem(index, whole, 20 * scale, Optional.empty(), 1, List.of()),
        40,
        (from, to) -> Outline.box(left + from * 20 * scale, top, left + to * 20 * scale, bottom),
        List.of());
  }

  @Override
  public BarMap settle(Book book, List<ReadPage> pages) {
    Optional.ofNullable(meanwhile.remove(settlings.incrementAndGet())).ifPresent(Runnable::run);
    List<Page> made = new ArrayList<>();
    List<Bar> bars = new ArrayList<>();
    for (ReadPage page : pages) {
      List<StaffSystem> systems = page.systems().stream().map(ReadSystem::system).toList();
      made.add(new Page(page.index(), page.source(), page.width(), page.height(), systems));
      for (ReadSystem s : page.systems()) {
        for (int i = 0; i < BARS; i++) {
          double from = s.length() * i / BARS;
          Outline place = s.shape().between(from, s.length() * (i + 1) / BARS).rounded();
          bars.add(
              Bar.builder("b" + (bars.size() + 1), page.index(), s.system().index(), place)
                  .number(bars.size() + 1)
                  .build());
        }
      }
    }
    return BarMap.of(book, made, List.of(), bars);
  }

  @Override
  public void close() {
    // holds nothing
  }
}
