package org.barmap.reckon.book;

import java.util.Arrays;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import org.barmap.reckon.cells.Marks;
import org.barmap.reckon.cells.SystemCells;
import org.barmap.reckon.cost.Costs;
import org.barmap.reckon.set.BookSettings;
import org.barmap.reckon.set.CostSettings;
import org.barmap.reckon.set.ReckonSettings;
import org.barmap.reckon.solve.Solution;
import org.barmap.reckon.solve.Solver;
import org.barmap.reckon.solve.Step;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;

/** Chooses the model a book is settled with, and solves it. */
public final class BookModel {

  private static final BookSettings.Model SET = ReckonSettings.STANDARD.book().model();

  private static final CostSettings.Bounds BOUNDS = ReckonSettings.STANDARD.cost().bounds();

  private final List<SystemCells> systems;
  private final Costs costs;

  /** Takes the cut systems of a book in reading order. */
  public BookModel(List<SystemCells> systems, Costs costs) {
    this.systems = systems;
    this.costs = costs;
  }

  /** A settled book. */
  public record Solved(Lattice lattice, Solution solution, boolean marksCount) {}

  /** The steps of a book under one reading of its marks, and what solves them. */
  private record Model(Lattice lattice, Solver solver, boolean marksCount) {

    /** The same, its likelihood worked out. */
    Model summed() {
      solver.sum();
      return this;
    }
  }

  /** Solves, and once more with the book's own rates of errors where they are unusual. */
  public Solved solve() {
    Model model = likelier();
    Costs own = OwnRates.of(model.lattice, model.solver.bestPath(), costs);
    List<Endings> alike =
        new EndingNumbers(systems, own, model.marksCount)
            .alike(model.lattice, model.solver.bestPath());
    if (!alike.isEmpty()) {
      model = model(costs, model.marksCount, alike);
      own = OwnRates.of(model.lattice, model.solver.bestPath(), costs);
    }
    if (!own.equals(costs)) {
      model = model(own, model.marksCount, alike);
    }
    return new Solved(model.lattice, model.solver.solve(), model.marksCount);
  }

  private Model model(Costs with, boolean marksCount, List<Endings> alike) {
    Lattice lattice = Lattice.of(systems, with, marksCount, alike);
    return new Model(lattice, solver(lattice, costs), marksCount);
  }

  /** Marks that are numbers count bars, or themselves; whichever is likelier. */
  private Model likelier() {
    List<Sign> numeric =
        systems.stream()
            .flatMap(s -> s.signs(SignKind.REHEARSAL).stream())
            .filter(Marks::isNumeric)
            .toList();
    if (numeric.isEmpty()) {
      return model(costs, false, List.of());
    }
    CompletableFuture<Model> going =
        CompletableFuture.supplyAsync(() -> model(costs, true, List.of()).summed());
    Model alone = model(costs, false, List.of()).summed();
    Model together = going.join();
    double least = alone.solver.logLikelihood() + sequence(numeric);
    return together.solver.logLikelihood() > least ? together : alone;
  }

  /** Log likelihood of numeric marks as 1, 2, 3 …: each follows the one before, or is anything. */
  private static double sequence(List<Sign> marks) {
    double log = 0;
    int before = 0;
    for (Sign mark : marks) {
      int now = Marks.number(mark.text());
      boolean follows = now == before + 1 || now == 1;
      log += Math.log(follows ? SET.nextMark() : SET.anyMark() / BOUNDS.numbers());
      before = now;
    }
    return log;
  }

  private static Solver solver(Lattice lattice, Costs costs) {
    int states = states(lattice);
    double[] prior = new double[states];
    Arrays.fill(prior, SET.anyStart());
    prior[0] = costs.restarts().pickup();
    prior[1] = 1;
    return new Solver(lattice.steps(), states, prior);
  }

  /** As many states as the largest number that could be meant. */
  static int states(Lattice lattice) {
    int most = 0;
    int run = 1;
    for (Step step : lattice.steps()) {
      for (Step single : step.single()) {
        run = single.likeliest(run);
        most = Math.max(most, Math.max(run, single.largest(SET.meant())));
      }
    }
    return Math.max(SET.leastStates(), Math.min(SET.mostStates(), most + SET.leastStates()));
  }
}
