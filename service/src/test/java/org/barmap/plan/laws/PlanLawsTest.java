package org.barmap.plan.laws;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.annotation.JsonTypeName;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import java.util.Set;
import java.util.function.BiConsumer;
import java.util.stream.Collectors;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Severity;
import org.barmap.plan.NumberPlan;
import org.barmap.plan.Plan;
import org.barmap.plan.PlanJson;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.kind.Kinds;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.reference.books.Feature;
import org.barmap.plan.reference.books.Knobs;
import org.barmap.plan.reference.books.RandomBook;
import org.barmap.plan.reference.books.RandomBooks;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.node.ObjectNode;

/** What holds for every plan, whatever book and changes: seeds are the books' numbers. */
class PlanLawsTest {
  /** More are tried with {@code -Dbarmap.laws.books=2000}. */
  private static final int BOOKS = Integer.getInteger("barmap.laws.books", 150);

  /** More bars than changes of three times at most make of a book: it would go round for ever. */
  private static final int MOST_BARS = 50_000;

  private static final int MEETINGS = 3;

  private static Plan plan(BarMap map, List<ShowChange> changes) {
    return Planner.plan(map, new ShowChanges(changes), PlanSettings.USUAL);
  }

  private static void everyBook(BiConsumer<BarMap, AnyChange> law) {
    for (int seed = 0; seed < BOOKS; seed++) {
      RandomBook book = RandomBooks.book(seed, Knobs.wild());
      BarMap map = book.map();
      if (WrittenNumber.all(map).stream().anyMatch(n -> n.slots() > 0 && !n.label().isEmpty())) {
        law.accept(map, new AnyChange(new Random(seed), map));
      }
    }
  }

  private static List<ShowChange> and(List<ShowChange> changes, ShowChange... more) {
    List<ShowChange> all = new ArrayList<>(changes);
    Collections.addAll(all, more);
    return all;
  }

  private static String said(BarMap map, List<ShowChange> changes) {
    return changes + " in " + map.bars().stream().map(Bar::id).toList();
  }

  /** What the player does: all of a plan but the findings. */
  private static ObjectNode done(Plan plan) {
    ObjectNode tree = (ObjectNode) PlanJson.tree(plan).deepCopy();
    tree.remove("findings");
    return tree;
  }

  @Test
  void everyKindIsTried() {
    RandomBook book = RandomBooks.book(1, Knobs.wild().with(1, Feature.NUMBERS));
    assertThat(new AnyChange(new Random(1), book.map()).kinds())
        .containsAll(Kinds.all().map(k -> k.getAnnotation(JsonTypeName.class).value()).toList());
  }

  @Test
  void everyChangeHasAnEffectOrAFinding() {
    everyBook(
        (map, any) -> {
          for (String kind : any.kinds()) {
            ShowChange change = any.make("it", kind);
            Plan with = plan(map, List.of(change));
            boolean told =
                with.findings().stream().anyMatch(f -> f.change().filter("it"::equals).isPresent());
            if (!told) {
              assertThat(done(with))
                  .as(() -> said(map, List.of(change)))
                  .isNotEqualTo(done(plan(map, List.of())));
            }
          }
        });
  }

  @Test
  void whatIsSwitchedOffDoesNothing() {
    everyBook(
        (map, any) -> {
          List<ShowChange> some = any.some("c", 3);
          ShowChange cut = any.make("it", "cut");
          Plan before = plan(map, some);
          ShowChange off = ChangesJson.readOne(ChangesJson.tree(cut).put("on", false));
          assertThat(plan(map, and(some, off))).isEqualTo(before);
        });
  }

  @Test
  void aCutThatIsInAgainIsAsIfNobodyHadCut() {
    everyBook(
        (map, any) -> {
          ShowChange cut = any.make("it", "cut");
          ShowChange back =
              ChangesJson.readOne(ChangesJson.tree(cut).put("id", "back").put("kind", "restore"));
          assertThat(done(plan(map, List.of(cut, back))))
              .as(() -> said(map, List.of(cut)))
              .isEqualTo(done(plan(map, List.of())));
        });
  }

  /** Where the cut takes a sign of the form along the player is told, and all bets are off. */
  @Test
  void cuttingNeverLengthens() {
    everyBook(
        (map, any) -> {
          ShowChange cut = any.make("it", "cut");
          Plan before = plan(map, List.of());
          Plan after = plan(map, List.of(cut));
          Set<Object> known = new HashSet<>(before.findings());
          boolean asked =
              after.findings().stream()
                  .anyMatch(f -> f.severity() != Severity.INFO && !known.contains(f));
          if (!asked) {
            for (int i = 0; i < before.numbers().size(); i++) {
              assertThat(after.numbers().get(i).played().bars())
                  .as(said(map, List.of(cut)))
                  .isLessThanOrEqualTo(before.numbers().get(i).played().bars());
            }
          }
        });
  }

  @Test
  void changesOfDifferentNumbersCommute() {
    everyBook(
        (map, any) -> {
          ShowChange a = any.any("a");
          ShowChange b = any.any("b");
          boolean apart = !a.number().equals(b.number()) && !a.number().isEmpty();
          if (apart && !b.number().isEmpty()) {
            assertThat(done(plan(map, List.of(a, b))))
                .as(() -> said(map, List.of(a, b)))
                .isEqualTo(done(plan(map, List.of(b, a))));
          }
        });
  }

  /** However changes meet: a plan comes, it ends, it can be written, and it adds up. */
  @Test
  void changesThatMeetGiveAPlan() {
    everyBook(
        (map, any) -> {
          for (int i = 0; i < MEETINGS; i++) {
            List<ShowChange> changes = any.meeting("m");
            String what = said(map, changes);
            Plan plan = whole(map, changes, what);
            Map<String, Bar> bars =
                map.bars().stream().collect(Collectors.toMap(Bar::id, b -> b, (a, b) -> a));
            for (NumberPlan number : plan.numbers()) {
              assertThat(number.played().bars()).as(what).isLessThan(MOST_BARS);
              adds(number, bars, what);
            }
            assertThat(plan.findings()).as(what).noneMatch(f -> f.code().equals("too-long"));
          }
        });
  }

  private static Plan whole(BarMap map, List<ShowChange> changes, String what) {
    try {
      Plan plan = plan(map, changes);
      assertThat(PlanJson.tree(plan).isObject()).as(what).isTrue();
      return plan;
    } catch (RuntimeException e) {
      throw new AssertionError(what, e);
    }
  }

  @Test
  void whatIsPlayedIsWrittenOrAddedAndAddsUp() {
    everyBook(
        (map, any) -> {
          List<ShowChange> some = any.some("c", 4);
          Map<String, Bar> bars =
              map.bars().stream().collect(Collectors.toMap(Bar::id, b -> b, (a, b) -> a));
          for (NumberPlan number : plan(map, some).numbers()) {
            adds(number, bars, said(map, some));
          }
        });
  }

  private static void adds(NumberPlan number, Map<String, Bar> bars, String what) {
    int sum = 0;
    Map<String, Integer> passes = new HashMap<>();
    for (NumberPlan.Entry entry : number.order()) {
      assertThat(bars).as(what).containsKey(entry.bar());
      Bar bar = Objects.requireNonNull(bars.get(entry.bar()));
      boolean added = entry.inserted().isPresent();
      int count = added ? entry.bars().orElse(1) : entry.bars().orElse(bar.count());
      if (!added) {
        int from = entry.from().orElse(1);
        assertThat(from + count - 1).as(what).isBetween(1, bar.count());
        for (int k = 0; k < count; k++) {
          String bit = bar.id() + " " + (from + k);
          assertThat(entry.pass()).as(what).isEqualTo(passes.merge(bit, 1, Integer::sum));
        }
      }
      boolean pickup = !added && bar.number() == 0 && bar.label().isEmpty() && bar.count() == 1;
      sum += pickup ? 0 : count;
    }
    assertThat(number.played().bars()).as(what).isEqualTo(sum);
  }
}
