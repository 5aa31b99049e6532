package org.barmap.reckon.solve;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.IntBinaryOperator;
import java.util.function.IntFunction;
import org.barmap.reckon.solve.Solution.Choice;

/**
 * Solves a book section by section: where counting begins anew whatever stood before ({@link
 * Restart#forgets}), what comes after says nothing about what came before, nor the other way. The
 * sections together are the whole book's best path, exactly, and each is solved once for as long as
 * it is remembered: after a change only the sections it lies in are worked out.
 */
public final class Sections {

  /** As many as some five books of 144 pages have. */
  private static final int REMEMBERED = 512;

  private final Map<Section, Solution> known =
      new LinkedHashMap<>(16, 0.75f, true) {
        @Override
        protected boolean removeEldestEntry(Map.Entry<Section, Solution> eldest) {
          return size() > REMEMBERED;
        }
      };

  /** Creates a solver that remembers nothing yet; one may serve many threads. */
  public Sections() {}

  /**
   * One section, as it is remembered.
   *
   * @param steps in reading order
   * @param prior weight of each number for its first bar
   */
  private record Section(List<Step> steps, double[] prior) {

    @Override
    public boolean equals(Object o) {
      return o instanceof Section s && Arrays.equals(prior, s.prior) && steps.equals(s.steps);
    }

    @Override
    public int hashCode() {
      return 31 * steps.hashCode() + prior.length;
    }
  }

  /**
   * Solves.
   *
   * @param steps in reading order
   * @param first weight of each number for the first bar of the book, by how many are told apart
   * @param states how many numbers are told apart from one beginning to the next: both are choices
   *     counted from 0; -1 is the book's own beginning, the number of all choices its end
   */
  public Solution solve(List<Step> steps, IntFunction<double[]> first, IntBinaryOperator states) {
    List<Choice> choices = new ArrayList<>();
    double log = 0;
    int begins = -1;
    int from = 0;
    int width = 0;
    while (from <= steps.size()) {
      int end = from;
      int at = width;
      while (end < steps.size() && !forgets(steps.get(end))) {
        at += steps.get(end++).width();
      }
      int numbers = states.applyAsInt(width - 1, at);
      double[] prior =
          from == 0 ? first.apply(numbers) : jumps((Restart) steps.get(from - 1), numbers);
      Solution solved = solved(new Section(List.copyOf(steps.subList(from, end)), prior));
      if (from > 0) {
        int before = choices.isEmpty() ? begins : choices.get(choices.size() - 1).after();
        choices.add(new Choice(before, solved.first(), 1, -1, 0, 1));
      }
      begins = begins < 0 ? solved.first() : begins;
      choices.addAll(solved.choices());
      log += solved.logLikelihood();
      from = end + 1;
      width = at + 1;
    }
    return new Solution(choices, begins, log);
  }

  private static boolean forgets(Step step) {
    return step instanceof Restart restart && restart.forgets();
  }

  private static double[] jumps(Restart restart, int states) {
    double[] prior = new double[states];
    for (int s = 0; s < states; s++) {
      prior[s] = restart.jump(s);
    }
    return prior;
  }

  private Solution solved(Section section) {
    synchronized (known) {
      Solution before = known.get(section);
      if (before != null) {
        return before;
      }
    }
    Solution solved = new Solver(section.steps, section.prior.length, section.prior).solve();
    synchronized (known) {
      known.put(section, solved);
    }
    return solved;
  }
}
