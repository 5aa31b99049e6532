package org.barmap.plan.reference.against;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.plan.reference.Aspect;
import org.barmap.plan.reference.Walked.Playing;
import org.barmap.plan.reference.against.PlanUnderTest.PlannedBar;
import org.barmap.plan.reference.against.PlanUnderTest.PlannedNumber;
import org.barmap.plan.reference.books.Feature;
import org.barmap.plan.reference.books.Knobs;
import org.barmap.plan.reference.books.RandomBook;
import org.barmap.plan.reference.books.RandomBooks;
import org.junit.jupiter.api.Test;

/** The comparison finds each kind of fault a planner could have, and makes its book small. */
class ReferenceComparisonTest {

  private static final int BOOKS = 400;

  private static Tally tally(PlanUnderTest plan, Knobs knobs) {
    return Tally.of(plan, seed -> RandomBooks.book(seed, knobs), 1, BOOKS, 3);
  }

  private static PlannedNumber with(PlannedNumber number, List<PlannedBar> order, boolean asked) {
    return new PlannedNumber(
        number.label(),
        number.playing(),
        order,
        number.open(),
        asked,
        number.says(),
        number.total());
  }

  @Test
  void theWalkerAgreesWithItself() {
    Tally tally = tally(new WalkerAsPlan(n -> n), Knobs.hostile());
    assertThat(tally.count(Verdict.Group.DIFFER)).as(tally.toString()).isZero();
    assertThat(tally.count(Verdict.AGREE)).isPositive();
    assertThat(tally.count(Verdict.BOTH_ASK)).isPositive();
  }

  @Test
  void whoNeverAsksGuesses() {
    Tally tally = tally(new WalkerAsPlan(n -> with(n, n.order(), false)), Knobs.hostile());
    assertThat(tally.count(Verdict.PLAN_GUESSES)).isPositive();
    assertThat(tally.count(Verdict.Group.DIFFER)).isEqualTo(tally.count(Verdict.PLAN_GUESSES));
  }

  @Test
  void whoAlwaysAsksIsSeen() {
    Tally tally = tally(new WalkerAsPlan(n -> with(n, n.order(), true)), Knobs.wild());
    assertThat(tally.count(Verdict.AGREE_AND_PLAN_ASKS)).isPositive();
    assertThat(tally.count(Verdict.Group.DIFFER)).isZero();
  }

  @Test
  void whoPlaysNoBarTwiceIsFoundWithASmallBook() {
    WalkerAsPlan once = new WalkerAsPlan(n -> with(n, once(n.order()), n.asked()));
    Tally tally = tally(once, Knobs.wild().with(0, Feature.NUMBERS));
    assertThat(tally.count(Verdict.ORDER)).isPositive();
    for (String difference : tally.differences()) {
      assertThat(difference.lines().filter(l -> l.startsWith("book")).findFirst().orElse(""))
          .as(difference)
          .hasSizeLessThan(40);
    }
  }

  private static List<PlannedBar> once(List<PlannedBar> order) {
    List<PlannedBar> once = new ArrayList<>();
    Map<String, Boolean> heard = new HashMap<>();
    for (PlannedBar bar : order) {
      String key = bar.bar() + "/" + bar.offset() + bar.inserted();
      if (heard.put(key, true) == null) {
        once.add(bar);
      }
    }
    return once;
  }

  @Test
  void whoForgetsThePassIsFound() {
    WalkerAsPlan first =
        new WalkerAsPlan(
            n ->
                with(
                    n,
                    n.order().stream()
                        .map(
                            b ->
                                new PlannedBar(
                                    b.bar(),
                                    b.offset(),
                                    b.inserted(),
                                    b.cutAtStart(),
                                    b.cutInside(),
                                    b.cutAtEnd(),
                                    java.util.OptionalInt.of(1),
                                    b.state()))
                        .toList(),
                    n.asked()));
    assertThat(tally(first, Knobs.wild()).count(Verdict.PASSES)).isPositive();
  }

  @Test
  void whoLosesAVampIsFound() {
    WalkerAsPlan none =
        new WalkerAsPlan(
            n ->
                new PlannedNumber(
                    n.label(),
                    n.playing(),
                    n.order(),
                    Optional.of(List.of()),
                    n.asked(),
                    List.of(),
                    n.total()));
    assertThat(tally(none, Knobs.wild()).count(Verdict.OPEN)).isPositive();
  }

  @Test
  void whoGuessesSecondsIsFound() {
    WalkerAsPlan guess =
        new WalkerAsPlan(
            n ->
                with(
                    n,
                    n.order().stream().map(b -> b.with(Map.of(Aspect.TEMPO, "120"))).toList(),
                    n.asked()));
    Tally tally = tally(guess, Knobs.wild());
    assertThat(tally.count(Verdict.STATE)).isPositive();
    assertThat(tally.differences()).isNotEmpty();
  }

  @Test
  void whoPlaysATacetNumberIsFound() {
    WalkerAsPlan plays =
        new WalkerAsPlan(
            n ->
                new PlannedNumber(
                    n.label(),
                    Playing.PLAYED,
                    n.order(),
                    n.open(),
                    n.asked(),
                    n.says(),
                    n.total()));
    Knobs knobs = Knobs.wild().with(0.5, Feature.TACETS);
    assertThat(tally(plays, knobs).count(Verdict.PLAYING)).isPositive();
  }

  @Test
  void whoThrowsIsFound() {
    PlanUnderTest thrower =
        (map, changes, repeats) -> {
          throw new IllegalStateException("no plan");
        };
    RandomBook book = new RandomBook("1 2", List.of(), false);
    assertThat(new Comparison(thrower).compare(book).verdict()).isEqualTo(Verdict.FAILED);
  }
}
