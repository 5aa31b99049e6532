package org.barmap.reckon;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.stream.LongStream;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.Content;
import org.barmap.reckon.solve.Move;
import org.barmap.reckon.solve.Observe;
import org.barmap.reckon.solve.Restart;
import org.barmap.reckon.solve.Sections;
import org.barmap.reckon.solve.Solution;
import org.barmap.reckon.solve.Solver;
import org.barmap.reckon.solve.Step;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * What is settled from what is remembered of the sections around a change is what solving the whole
 * book gives.
 */
class LocalSettlingTest {

  static LongStream seeds() {
    return LongStream.range(700, 706);
  }

  /** Edits of every kind that settling knows, one after the other, taken back now and then. */
  @ParameterizedTest
  @MethodSource("seeds")
  void afterAnyEditItIsTheSameAsSettlingTheWholeBook(long seed) {
    Random random = new Random(seed);
    BarMap map =
        new Reckoner()
            .reckon(new Book("made", ""), new MadeBook(seed, 6, MadeBook.Errors.USUAL).pages);
    assertThat(map.numbers()).as("sections").hasSizeGreaterThan(1);
    Settler local = new Settler(new Sections());
    Set<String> counts = new HashSet<>();
    Set<String> numbers = new HashSet<>();
    Set<String> pages = new HashSet<>();
    for (int n = 0; n < 25; n++) {
      List<Bar> bars = new ArrayList<>(map.bars());
      int at = random.nextInt(bars.size());
      Bar bar = bars.get(at);
      switch (random.nextInt(5)) {
        case 0 -> {
          bars.set(
              at, bar.toBuilder().content(Content.MULTI_REST).count(2 + random.nextInt(9)).build());
          counts.add(bar.id());
        }
        case 1 -> {
          bars.set(at, bar.toBuilder().number(random.nextInt(40)).build());
          numbers.add(bar.id());
        }
        case 2 -> bars.remove(at);
        case 3 -> {
          counts.remove(bar.id());
          numbers.remove(bar.id());
        }
        default ->
            bars.stream().filter(b -> b.page() == bar.page()).forEach(b -> pages.add(b.id()));
      }
      Set<String> all = new HashSet<>(numbers);
      all.addAll(pages);
      Fixed fixed = new Fixed(counts, all, pages);
      BarMap edited = map.withBars(bars);
      map = local.settle(edited, fixed);
      assertThat(map).isEqualTo(new Settler(new Sections()).settle(edited, fixed));
      pages.clear();
    }
  }

  /** The same steps in one run, with what is forgotten at a beginning said by its weights alone. */
  @ParameterizedTest
  @MethodSource("seeds")
  void sectionsTogetherAreTheBestPathOfTheWhole(long seed) {
    Random random = new Random(seed);
    List<Step> steps = new ArrayList<>();
    for (int i = 0; i < 120; i++) {
      steps.add(step(random));
    }
    int states = 90;
    double[] prior = new double[states];
    Arrays.fill(prior, 0.001);
    prior[1] = 1;
    Solution whole = new Solver(steps, states, prior).solve();
    Solution parts = new Sections().solve(steps, n -> prior, (from, to) -> states);
    assertThat(parts.first()).isEqualTo(whole.first());
    assertThat(parts.logLikelihood()).isCloseTo(whole.logLikelihood(), within(1e-6));
    assertThat(parts.choices()).hasSameSizeAs(whole.choices());
    for (int t = 0; t < steps.size(); t++) {
      Solution.Choice a = parts.choices().get(t);
      Solution.Choice b = whole.choices().get(t);
      assertThat(List.of(a.before(), a.after())).isEqualTo(List.of(b.before(), b.after()));
      if (!(steps.get(t) instanceof Restart r && r.forgets())) {
        assertThat(a.probability()).isCloseTo(b.probability(), within(1e-9));
      }
    }
  }

  private static Step step(Random random) {
    return switch (random.nextInt(9)) {
      case 0 -> new Restart(0, 0.9, 0.1, 0.000001);
      case 1 -> new Restart(1, 0, 0, 0.0003);
      case 2 -> new Observe(new int[] {1 + random.nextInt(60)}, new double[] {0.93}, 0.001);
      case 3 ->
          new Move(
              new int[] {random.nextInt(6)}, new double[] {0.8}, 0.02 * random.nextDouble(), 0, 9);
      default -> Move.line(0.9 + 0.09 * random.nextDouble());
    };
  }
}
