package org.barmap.browser.planted;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.barmap.browser.planted.Planted.Kind;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Barline;
import org.barmap.map.Content;
import org.barmap.map.Enclosure;
import org.barmap.map.Meter;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Outline;
import org.barmap.map.Page;
import org.barmap.map.Point;
import org.barmap.map.RehearsalMark;
import org.barmap.map.StaffSystem;

/**
 * Twenty errors in the demo book, put into what is truly on its pages. Bars count on from each, and
 * begin anew where a number is printed at a line, as a reader lets them.
 */
public final class PlantedErrors {

  /** All of them; pages 4 and 8 are clean. */
  public static final List<Planted> ALL =
      List.of(
          new Planted(Kind.MISSING_BARLINE, 1, "b10", ""),
          new Planted(Kind.REST_COUNT, 1, "b18", "8"),
          new Planted(Kind.OTHER_MARK, 1, "b19", "8"),
          new Planted(Kind.LOST_REPEAT_END, 1, "b40", ""),
          new Planted(Kind.REST_AS_MUSIC, 2, "b56", ""),
          new Planted(Kind.EXTRA_BARLINE, 2, "b65", ""),
          new Planted(Kind.NO_MARK, 2, "b94", ""),
          new Planted(Kind.METER, 3, "b123", "4/4"),
          new Planted(Kind.MISSING_BARLINE, 3, "b129", ""),
          new Planted(Kind.REST_COUNT, 3, "b134", "1"),
          new Planted(Kind.EXTRA_BARLINE, 3, "b139", ""),
          new Planted(Kind.EXTRA_BARLINE, 5, "b236", ""),
          new Planted(Kind.LOST_REPEAT_START, 5, "b255", ""),
          new Planted(Kind.REST_COUNT, 5, "b269", "4"),
          new Planted(Kind.METER, 6, "b289", "3/8"),
          new Planted(Kind.NO_MARK, 7, "b327", ""),
          new Planted(Kind.MISSING_BARLINE, 7, "b345", ""),
          new Planted(Kind.OTHER_MARK, 7, "b356", "1"),
          new Planted(Kind.OTHER_NUMBER, 7, "b378", "1"),
          new Planted(Kind.MUSIC_AS_REST, 9, "b448", ""));

  private PlantedErrors() {}

  /** Returns the truth with all of them in it. */
  public static BarMap in(BarMap truth) {
    List<Bar> bars = new ArrayList<>(truth.bars());
    List<MusicalNumber> numbers = new ArrayList<>(truth.numbers());
    for (Planted error : ALL) {
      if (error.kind() == Kind.OTHER_NUMBER) {
        numbers.replaceAll(
            n ->
                n.firstBar().filter(error.bar()::equals).isPresent()
                    ? new MusicalNumber(
                        error.wrong(), n.title(), n.firstBar(), n.lastBar(), n.tacet())
                    : n);
      } else {
        plant(bars, error);
      }
    }
    return new BarMap(
        truth.format(),
        truth.book(),
        truth.pages(),
        numbers,
        counted(truth, bars),
        truth.findings());
  }

  private static void plant(List<Bar> bars, Planted error) {
    int at = bars.stream().map(Bar::id).toList().indexOf(error.bar());
    Bar bar = bars.get(at);
    switch (error.kind()) {
      case MISSING_BARLINE -> {
        Bar next = bars.remove(at + 1);
        Outline whole =
            new Outline(
                bar.outline().topLeft(),
                next.outline().topRight(),
                next.outline().bottomRight(),
                bar.outline().bottomLeft());
        bars.set(at, bar.toBuilder().outline(whole).endBarline(next.endBarline()).build());
      }
      case EXTRA_BARLINE -> {
        Outline o = bar.outline();
        Point top = between(o.topLeft(), o.topRight());
        Point low = between(o.bottomLeft(), o.bottomRight());
        Outline left = new Outline(o.topLeft(), top, low, o.bottomLeft());
        Outline right = new Outline(top, o.topRight(), o.bottomRight(), low);
        bars.set(at, bar.toBuilder().outline(left).endBarline(Barline.SINGLE).build());
        bars.add(
            at + 1,
            bar.toBuilder()
                .id(bar.id() + "x")
                .outline(right)
                .startBarline(Barline.SINGLE)
                .rehearsal(Optional.empty())
                .build());
      }
      case REST_COUNT -> {
        int count = Integer.parseInt(error.wrong());
        Content content = count > 1 ? Content.MULTI_REST : Content.REST;
        bars.set(at, bar.toBuilder().count(count).content(content).build());
      }
      case METER -> meter(bars, at, error.wrong());
      case NO_MARK -> bars.set(at, bar.toBuilder().rehearsal(Optional.empty()).build());
      case OTHER_MARK ->
          bars.set(
              at,
              bar.toBuilder().rehearsal(new RehearsalMark(error.wrong(), Enclosure.BOX)).build());
      case LOST_REPEAT_END -> {
        bars.set(at, bar.toBuilder().endBarline(Barline.SINGLE).build());
        bars.set(at + 1, bars.get(at + 1).toBuilder().startBarline(Barline.SINGLE).build());
      }
      case LOST_REPEAT_START -> bars.set(at, bar.toBuilder().startBarline(Barline.NONE).build());
      case REST_AS_MUSIC -> bars.set(at, bar.toBuilder().content(Content.MUSIC).build());
      case MUSIC_AS_REST -> bars.set(at, bar.toBuilder().content(Content.REST).build());
      default -> throw new IllegalArgumentException(error.toString());
    }
  }

  private static Point between(Point a, Point b) {
    return new Point(a.x() + 0.55 * (b.x() - a.x()), a.y() + 0.55 * (b.y() - a.y()));
  }

  /** It holds to the next one drawn. */
  private static void meter(List<Bar> bars, int at, String wrong) {
    int beats = Integer.parseInt(wrong.substring(0, wrong.indexOf('/')));
    int unit = Integer.parseInt(wrong.substring(wrong.indexOf('/') + 1));
    bars.set(at, bars.get(at).toBuilder().meter(new Meter(beats, unit, true)).build());
    for (int i = at + 1; i < bars.size(); i++) {
      if (bars.get(i).meter().filter(Meter::printed).isPresent()) {
        return;
      }
      bars.set(i, bars.get(i).toBuilder().meter(new Meter(beats, unit, false)).build());
    }
  }

  private static List<Bar> counted(BarMap truth, List<Bar> bars) {
    Map<String, Integer> printed = new HashMap<>();
    for (Page page : truth.pages()) {
      for (StaffSystem line : page.systems()) {
        line.printedBarNumber().ifPresent(n -> printed.put(page.index() + "/" + line.index(), n));
      }
    }
    List<Bar> counted = new ArrayList<>();
    String line = "";
    for (Bar bar : bars) {
      int is = truth.indexOf(bar.id());
      String now = bar.page() + "/" + bar.system();
      boolean starts =
          truth.numbers().stream().anyMatch(n -> n.firstBar().filter(bar.id()::equals).isPresent());
      int number = bar.number();
      if (!starts && (now.equals(line) || !printed.containsKey(now))) {
        // as far on from the bar before as it truly is
        int step = is < 1 ? 0 : number - truth.bars().get(is - 1).nextNumber();
        number = counted.get(counted.size() - 1).nextNumber() + step;
      }
      line = now;
      counted.add(bar.toBuilder().number(number).build());
    }
    return counted;
  }

  /** Returns what of the map is not as it truly is, bar by bar; empty when all of it is. */
  public static List<String> differences(BarMap now, BarMap truth) {
    List<String> is = said(now);
    List<String> should = said(truth);
    List<String> found = new ArrayList<>();
    for (int i = 0; i < Math.max(is.size(), should.size()); i++) {
      String a = i < is.size() ? is.get(i) : "nothing";
      String b = i < should.size() ? should.get(i) : "nothing";
      if (!a.equals(b)) {
        found.add(a + " should be " + b);
      }
    }
    return found;
  }

  private static List<String> said(BarMap map) {
    Stream<String> numbers =
        map.numbers().stream()
            .map(
                n ->
                    "No. %s begins at %d"
                        .formatted(n.label(), n.firstBar().map(map::indexOf).orElse(-1)));
    Stream<String> bars = map.bars().stream().map(PlantedErrors::said);
    return Stream.concat(numbers, bars).toList();
  }

  private static String said(Bar b) {
    return "page %d line %d bar %s: %s x%d, mark %s, %s, %s to %s"
        .formatted(
            b.page(),
            b.system(),
            b.label().orElse(Integer.toString(b.number())),
            b.content(),
            b.count(),
            b.rehearsal().map(RehearsalMark::text).orElse("none"),
            b.meter().map(m -> m.beats() + "/" + m.unit() + (m.printed() ? " drawn" : "")),
            b.startBarline(),
            b.endBarline());
  }
}
