package org.barmap.reckon.book;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.barmap.reckon.cells.SystemCells;
import org.barmap.reckon.cost.Costs;
import org.barmap.reckon.set.BookSettings;
import org.barmap.reckon.set.ReckonSettings;
import org.barmap.reckon.solve.Solution.Choice;
import org.barmap.reckon.solve.Solver;

/**
 * Finds out which musical numbers count their second endings like the first ones.
 *
 * <p>Only where counting straight through had to bend something after an ending are both ways
 * weighed against each other, so an ordinary book is settled as if there were no other way. A
 * musical number that says nothing about it is counted as the rest of the book is.
 */
final class EndingNumbers {

  private static final BookSettings.Numbering SET = ReckonSettings.STANDARD.book().numbering();

  /**
   * Logarithm of the odds at which the print has to speak for it: one book in fifty counts so (from
   * memory, not measured), and it has to be twenty times as likely as not.
   */
  private static final double LEAST = Math.log(SET.books() * SET.likelier());

  private final List<SystemCells> systems;
  private final Costs costs;
  private final boolean marksCount;

  EndingNumbers(List<SystemCells> systems, Costs costs, boolean marksCount) {
    this.systems = systems;
    this.costs = costs;
    this.marksCount = marksCount;
  }

  /** A musical number with later endings: its systems, {@code end} excluded. */
  private record Stretch(int from, int end, List<Endings> endings) {}

  /**
   * The later endings that are numbered like the ones before them.
   *
   * @param straight the book's steps when counting goes straight through all endings
   * @param path the best path through them
   */
  List<Endings> alike(Lattice straight, List<Choice> path) {
    List<Stretch> stretches = stretches();
    List<Stretch> bent = stretches.stream().filter(s -> bends(straight, path, s)).toList();
    if (bent.isEmpty()) {
      return List.of();
    }
    double[] of = gains(bent);
    boolean book = Arrays.stream(of).sum() > LEAST;
    List<Stretch> asked = book ? stretches : bent;
    double[] gains = book ? gains(stretches) : of;
    List<Endings> out = new ArrayList<>();
    for (int i = 0; i < gains.length; i++) {
      if (gains[i] > (book ? -LEAST / 2 : LEAST)) {
        out.addAll(asked.get(i).endings());
      }
    }
    return List.copyOf(out);
  }

  private List<Stretch> stretches() {
    List<Endings> all = Endings.in(systems);
    List<Stretch> out = new ArrayList<>();
    int from = 0;
    for (int i = 1; i <= systems.size(); i++) {
      if (i == systems.size() || Endings.begins(systems.get(i))) {
        int first = from;
        int end = i;
        List<Endings> own =
            all.stream()
                .filter(e -> e.from().system() >= first && e.from().system() < end)
                .toList();
        if (!own.isEmpty()) {
          out.add(new Stretch(first, end, own));
        }
        from = i;
      }
    }
    return out;
  }

  /** Tells whether the path bends something at the first later ending or after it. */
  private static boolean bends(Lattice lattice, List<Choice> path, Stretch stretch) {
    int from = stretch.endings().get(0).from().system();
    for (int t = 0; t < path.size(); t++) {
      About about = lattice.abouts().get(t);
      if (about.system() >= from && about.system() < stretch.end() && about.bends(path.get(t))) {
        return true;
      }
    }
    return false;
  }

  /** How much likelier each stretch is when its later endings are numbered like the first. */
  private double[] gains(List<Stretch> stretches) {
    List<Endings> all = stretches.stream().flatMap(s -> s.endings().stream()).toList();
    Lattice straight = Lattice.of(systems, costs, marksCount);
    Lattice alike = Lattice.of(systems, costs, marksCount, all);
    int states = BookModel.states(straight);
    double[] prior = new double[states];
    Arrays.fill(prior, 1.0 / states);
    double[] out = new double[stretches.size()];
    for (int i = 0; i < out.length; i++) {
      int from = stretches.get(i).from();
      int end = stretches.get(i).end();
      out[i] =
          new Solver(alike.steps(from, end), states, prior).logLikelihood()
              - new Solver(straight.steps(from, end), states, prior).logLikelihood();
    }
    return out;
  }
}
