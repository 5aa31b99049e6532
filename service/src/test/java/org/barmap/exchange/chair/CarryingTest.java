package org.barmap.exchange.chair;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.stream.IntStream;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.Enclosure;
import org.barmap.map.Meter;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Outline;
import org.barmap.map.RehearsalMark;
import org.barmap.plan.Books;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.kind.ShowChange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Changes carried from one part into the other. The random parts are drawn from one show whose bars
 * are known by name: which bar is which is the show's to say, not the alignment's.
 */
class CarryingTest {

  private static final int BOOKS = Integer.getInteger("barmap.carried", 80);

  /** A part, and by bar number which bar of the show it is. */
  private record Part(BarMap map, Map<Integer, Integer> names) {}

  /** Two parts, by which of the show's bars are in sections where only one part has some bars. */
  private record Show(Part one, Part two, Set<Integer> uneven) {
    static Show of(long seed) {
      Random random = new Random(seed);
      List<Integer> one = new ArrayList<>();
      List<Integer> two = new ArrayList<>();
      Map<Integer, String> marks = new HashMap<>();
      Set<Integer> uneven = new HashSet<>();
      int name = 0;
      for (int s = 0; s < 5; s++) {
        marks.put(name, String.valueOf((char) ('A' + s)));
        int length = 5 + random.nextInt(16);
        int odd = random.nextInt(3) == 0 ? 1 + random.nextInt(3) : 0;
        int at = 1 + random.nextInt(length - 1);
        boolean inOne = random.nextBoolean();
        for (int i = 0; i < length; i++, name++) {
          boolean extra = i >= at && i < at + odd;
          if (odd > 0) {
            uneven.add(name);
          }
          if (!extra || inOne) {
            one.add(name);
          }
          if (!extra || !inOne) {
            two.add(name);
          }
        }
      }
      return new Show(part(one, marks, random), part(two, marks, random), uneven);
    }
  }

  private static Part part(List<Integer> show, Map<Integer, String> marks, Random random) {
    List<Bar> bars = new ArrayList<>();
    Map<Integer, Integer> names = new HashMap<>();
    int number = 1 + random.nextInt(40);
    for (int i = 0; i < show.size(); ) {
      int most = random.nextInt(3) > 0 ? 1 : 1 + random.nextInt(8);
      int count = 1;
      while (count < most && i + count < show.size() && !marks.containsKey(show.get(i + count))) {
        count++;
      }
      for (int k = 0; k < count; k++) {
        names.put(number + k, show.get(i + k));
      }
      Optional<String> mark = Optional.ofNullable(marks.get(show.get(i)));
      bars.add(
          Bar.builder("b" + bars.size(), 1, 1, Outline.box(0, 0, 1, 1))
              .number(number)
              .count(count)
              .meter(Optional.of(new Meter(4, 4, i == 0)))
              .rehearsal(mark.map(m -> new RehearsalMark(m, Enclosure.BOX)))
              .build());
      number += count;
      i += count;
    }
    MusicalNumber seven =
        new MusicalNumber("7", "", Optional.of("b0"), Optional.of("b" + (bars.size() - 1)), false);
    return new Part(BarMap.of(new Book("Saltmarsh", ""), List.of(), List.of(seven), bars), names);
  }

  private static ShowChange change(String id, String keys) {
    return ChangesJson.read(
            "{\"format\":\"changes/1\",\"changes\":[{\"id\":\""
                + id
                + "\",\"number\":\"7\","
                + keys
                + "}]}")
        .changes()
        .get(0);
  }

  /** Changes of every way to name bars, of bars drawn from a part. */
  private static List<ShowChange> changes(Part part, Random random) {
    List<Integer> bars = part.names().keySet().stream().sorted().toList();
    List<ShowChange> changes = new ArrayList<>();
    for (int i = 0; i < 12; i++) {
      int from = random.nextInt(bars.size());
      int to = from + random.nextInt(Math.min(12, bars.size() - from));
      int a = bars.get(from);
      int b = bars.get(to);
      String range = "\"first\":\"" + a + "\",\"last\":\"" + b + "\"";
      String keys =
          switch (i % 6) {
            case 0 -> "\"kind\":\"cut\"," + range;
            case 1 -> "\"kind\":\"play\",\"times\":3," + range;
            case 2 -> "\"kind\":\"cut\",\"first\":\"" + a + " beat 3\",\"last\":\"" + b + "\"";
            case 3 -> "\"kind\":\"insert\",\"bars\":2,\"after\":\"" + a + "\"";
            case 4 -> "\"kind\":\"jump\",\"from\":\"" + a + "\",\"to\":\"" + b + "\"";
            default -> "\"kind\":\"safety\"," + range;
          };
      changes.add(change("c" + i, keys));
    }
    return changes;
  }

  static IntStream seeds() {
    return IntStream.range(0, BOOKS);
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void thereAndBackIsTheSameWhereBothHaveTheBars(int seed) {
    Show show = Show.of(seed);
    TwoParts parts = TwoParts.of(show.one().map(), show.two().map(), List.of());
    List<ShowChange> changes = changes(show.one(), new Random(seed));
    Carrying.Carried there = Carrying.carry(parts, changes);
    Carrying.Carried back = Carrying.carry(parts.turned(), there.changes());

    Set<String> left = new HashSet<>();
    there.left().forEach(l -> left.add(l.change().meta().id()));
    assertThat(back.left()).isEmpty();
    assertThat(ChangesJson.write(new ShowChanges(back.changes())))
        .isEqualTo(
            ChangesJson.write(
                new ShowChanges(
                    changes.stream().filter(c -> !left.contains(c.meta().id())).toList())));
    for (ShowChange change : changes) {
      assertThat(left.contains(change.meta().id())).isEqualTo(touches(change, show));
    }
    there.changes().forEach(c -> assertSameBars(byId(changes, c.meta().id()), c, show));
  }

  private static ShowChange byId(List<ShowChange> changes, String id) {
    return changes.stream().filter(c -> c.meta().id().equals(id)).findFirst().orElseThrow();
  }

  /** The bars a change names, by their numbers. */
  private static List<Integer> named(ShowChange change) {
    List<Integer> bars = new ArrayList<>();
    var tree = ChangesJson.tree(change);
    for (String key : List.of("first", "last", "after", "from", "to")) {
      if (tree.has(key)) {
        bars.add(Integer.valueOf(tree.path(key).asString().replaceAll(" beat.*", "")));
      }
    }
    return bars;
  }

  private static boolean touches(ShowChange change, Show show) {
    return named(change).stream()
        .anyMatch(
            bar -> {
              int name = show.one().names().getOrDefault(bar, -1);
              return show.uneven().contains(name) && !isMarked(name, show);
            });
  }

  /** The bar a mark stands over is sure whatever follows it. */
  private static boolean isMarked(int name, Show show) {
    return show.one().map().bars().stream()
        .filter(b -> b.rehearsal().isPresent())
        .anyMatch(b -> Objects.equals(show.one().names().get(b.number()), name));
  }

  private static void assertSameBars(ShowChange here, ShowChange there, Show show) {
    List<Integer> mine = named(here);
    List<Integer> others = named(there);
    assertThat(others).hasSameSizeAs(mine);
    for (int i = 0; i < mine.size(); i++) {
      assertThat(show.two().names().get(others.get(i)))
          .isEqualTo(show.one().names().get(mine.get(i)));
    }
  }

  private static final BarMap PART = Books.book("%7 1 2 3 4@mA 5 6 7@mB 8 9 %8 c1 c2");
  private static final BarMap DIRECTOR = Books.book("%7 1 2 3 4 5 6@mA 7 8 9@mB 10 11 %9 d1");

  private static Carrying.Carried carried(List<TwoParts.Pin> pins, String... keys) {
    List<ShowChange> changes = new ArrayList<>();
    for (String k : keys) {
      changes.add(change("c" + changes.size(), k));
    }
    return Carrying.carry(TwoParts.of(PART, DIRECTOR, pins), changes);
  }

  @Test
  void whatIsSaidByAMarkStaysSaidByIt() {
    Carrying.Carried carried =
        carried(
            List.of(),
            "\"kind\":\"cut\",\"first\":\"A\",\"last\":\"the bar before B\"",
            "\"kind\":\"cut\",\"first\":\"5\",\"last\":\"B + 1\"");
    assertThat(carried.left()).isEmpty();
    assertThat(carried.changes().get(0).says()).isEqualTo("cut A to the bar before B");
    assertThat(carried.changes().get(1).says()).isEqualTo("cut 7 to B + 1");
  }

  @Test
  void whatHasNoSurePlaceIsSaidWithItsReason() {
    String early = "\"kind\":\"cut\",\"first\":\"2\",\"last\":\"5\"";
    Carrying.Carried unsure = carried(List.of(), early);
    assertThat(unsure.changes()).isEmpty();
    assertThat(unsure.left().get(0).why()).contains("bar 2").contains("not sure");
    Carrying.Carried pinned = carried(List.of(new TwoParts.Pin("7", "2", "4")), early);
    assertThat(pinned.changes().get(0).says()).isEqualTo("cut 4 to 7");

    ShowChange eight =
        ChangesJson.read(
                "{\"format\":\"changes/1\",\"changes\":[{\"id\":\"x\",\"number\":\"8\",\"kind\":\"cut\",\"first\":\"1\",\"last\":\"2\"}]}")
            .changes()
            .get(0);
    assertThat(
            Carrying.carry(TwoParts.of(PART, DIRECTOR, List.of()), List.of(eight))
                .left()
                .get(0)
                .why())
        .isEqualTo("The other book has no No. 8.");
  }

  @Test
  void whatIsOfTheChairStaysWithIt() {
    Carrying.Carried carried =
        carried(List.of(), "\"kind\":\"instrument\",\"first\":\"5\",\"to\":\"electric bass\"");
    assertThat(carried.changes()).isEmpty();
    assertThat(carried.left().get(0).why()).isEqualTo("It is about this chair only.");
  }

  @Test
  void pinsThatCannotBeAreSaid() {
    List<TwoParts.Pin> pins =
        List.of(
            new TwoParts.Pin("7", "5", "7"),
            new TwoParts.Pin("7", "6", "6"),
            new TwoParts.Pin("7", "99", "1"),
            new TwoParts.Pin("8", "1", "1"));
    TwoParts parts = TwoParts.of(PART, DIRECTOR, pins);
    assertThat(parts.problems()).hasSize(3);
    assertThat(parts.problems().toString()).contains("crosses", "99", "no such number");
    assertThat(parts.of("7", "6")).contains("8");
  }

  @Test
  void theTableSaysWhatIsCalledHow() {
    AlignTable table = AlignTable.of(TwoParts.of(PART, DIRECTOR, List.of()), PART, DIRECTOR);
    assertThat(table.onlyHere()).containsExactly("8");
    assertThat(table.onlyThere()).containsExactly("9");
    AlignTable.Row row = table.numbers().get(0);
    assertThat(row.same()).isFalse();
    AlignTable.Stretch last = row.stretches().get(row.stretches().size() - 1);
    assertThat(last.how()).isEqualTo("otherwise");
    assertThat(List.of(last.first(), last.last(), last.otherFirst(), last.otherLast()))
        .containsExactly(Optional.of("4"), Optional.of("9"), Optional.of("6"), Optional.of("11"));
    int mine =
        row.stretches().stream().filter(s -> s.first().isPresent()).mapToInt(s -> s.bars()).sum();
    assertThat(mine).isEqualTo(row.bars()).isEqualTo(9);
  }
}
