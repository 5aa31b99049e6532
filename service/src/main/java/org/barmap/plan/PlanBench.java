package org.barmap.plan;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.barmap.map.Bar;
import org.barmap.map.BarBuilder;
import org.barmap.map.BarMap;
import org.barmap.map.Barline;
import org.barmap.map.Book;
import org.barmap.map.Content;
import org.barmap.map.Enclosure;
import org.barmap.map.Meter;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Navigation;
import org.barmap.map.Outline;
import org.barmap.map.Page;
import org.barmap.map.Placement;
import org.barmap.map.RehearsalMark;
import org.barmap.map.StaffSystem;
import org.barmap.map.Word;
import org.barmap.plan.change.Leave;
import org.barmap.plan.change.Meta;
import org.barmap.plan.change.Reminder;
import org.barmap.plan.change.ShowChange;
import org.barmap.plan.change.ShowChanges;

/** Measures how long a plan of a large show takes: 3,000 written bars, 200 changes. */
public final class PlanBench {
  private static final int NUMBERS = 30;
  private static final int BARS = 100;
  private static final int CHANGES = 200;

  private PlanBench() {}

  /**
   * The figures of one run.
   *
   * @param writtenBars bars written in the book
   * @param changes changes planned
   * @param turns turns found
   * @param planMillis median of the warm runs
   * @param worstMillis slowest of the warm runs
   * @param runs warm runs
   */
  public record Figures(
      int writtenBars, int changes, int turns, double planMillis, double worstMillis, int runs) {}

  /** Plans a made-up show again and again and returns the figures of the warm runs. */
  public static Figures run() {
    BarMap map = book(new Random(3));
    ShowChanges changes = changes(new Random(4));
    int turns = 0;
    for (int i = 0; i < 30; i++) {
      turns = Planner.plan(map, changes, PlanSettings.USUAL).turns().size();
    }
    double[] millis = new double[30];
    for (int i = 0; i < millis.length; i++) {
      long start = System.nanoTime();
      Plan plan = Planner.plan(map, changes, PlanSettings.USUAL);
      millis[i] = (System.nanoTime() - start) / 1e6 + (plan.numbers().isEmpty() ? 1 : 0);
    }
    Arrays.sort(millis);
    return new Figures(
        map.writtenBars(),
        changes.changes().size(),
        turns,
        millis[millis.length / 2],
        millis[millis.length - 1],
        millis.length);
  }

  private static BarMap book(Random random) {
    List<Bar> bars = new ArrayList<>();
    List<MusicalNumber> numbers = new ArrayList<>();
    List<Page> pages = new ArrayList<>();
    int line = 0;
    for (int n = 1; n <= NUMBERS; n++) {
      String first = "b" + (bars.size() + 1);
      int at = 1;
      while (at <= BARS) {
        int count = at < BARS - 12 && random.nextInt(9) == 0 ? 2 + random.nextInt(8) : 1;
        BarBuilder bar =
            Bar.builder(
                    "b" + (bars.size() + 1),
                    line / 40 + 1,
                    line / 5 % 8 + 1,
                    Outline.box(0, 0, 9, 9))
                .number(at)
                .count(count)
                .meter(new Meter(at > 60 && n % 3 == 0 ? 3 : 4, 4, at == 1 || at == 61))
                .content(count > 1 ? Content.MULTI_REST : Content.MUSIC);
        if (at % 16 == 1) {
          bar.rehearsal(new RehearsalMark(Character.toString('A' + at / 16), Enclosure.BOX));
        }
        if (at == 1) {
          bar.words(List.of(new Word("\u2669 = 120", Placement.ABOVE, Optional.empty())));
        }
        bar.startBarline(at == 17 ? Barline.REPEAT_START : Barline.NONE);
        bar.endBarline(at == 32 ? Barline.REPEAT_END : Barline.SINGLE);
        if (count == 1 && n % 4 == 0) {
          bar.signs(
              at == 40
                  ? List.of(Navigation.SEGNO)
                  : at == BARS ? List.of(Navigation.DAL_SEGNO) : List.of());
        }
        bars.add(bar.build());
        at += count;
        line++;
      }
      numbers.add(
          new MusicalNumber(
              Integer.toString(n),
              "Number " + n,
              Optional.of(first),
              Optional.of(bars.get(bars.size() - 1).id()),
              false));
    }
    List<StaffSystem> systems = new ArrayList<>();
    for (int s = 1; s <= 8; s++) {
      systems.add(new StaffSystem(s, Outline.box(0, 0, 9, 9), 2, Optional.empty(), 1, List.of()));
    }
    for (int p = 1; p <= line / 40 + 1; p++) {
      pages.add(new Page(p, "page-" + p + ".png", 100, 100, systems));
    }
    return BarMap.of(new Book("Bench", "Double Bass"), pages, numbers, bars);
  }

  private static ShowChanges changes(Random random) {
    List<ShowChange> changes = new ArrayList<>();
    for (int i = 0; i < CHANGES; i++) {
      Meta meta = Meta.of("c" + i);
      String number = Integer.toString(1 + random.nextInt(NUMBERS));
      int from = 1 + random.nextInt(BARS - 12);
      String first = Integer.toString(from);
      String last = Integer.toString(from + random.nextInt(8));
      changes.add(
          switch (i % 8) {
            case 0, 1 -> new ShowChange.Cut(meta, number, first, last);
            case 2 -> new ShowChange.Vamp(meta, number, first, last, Leave.END_OF_PASS);
            case 3 -> new ShowChange.Beats(meta, number, first, last, 2);
            case 4 -> new ShowChange.Tempo(meta, number, first, "1/4", 90 + random.nextInt(60));
            case 5 -> new ShowChange.Remind(meta, number, first, Reminder.WATCH);
            case 6 -> new ShowChange.Instrument(meta, number, "2 before E", "electric bass");
            default -> new ShowChange.Play(meta, number, first, last, 3);
          });
    }
    return new ShowChanges(changes);
  }
}
