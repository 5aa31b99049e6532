package org.barmap.reckon.book;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Barline;
import org.barmap.reckon.cells.GapEvidence;
import org.barmap.reckon.cells.LineEvidence;
import org.barmap.reckon.cells.Marks;
import org.barmap.reckon.cells.RestEvidence;
import org.barmap.reckon.cells.Room;
import org.barmap.reckon.cells.SystemCells;
import org.barmap.reckon.cost.Costs;
import org.barmap.reckon.set.BookSettings;
import org.barmap.reckon.set.ReckonSettings;
import org.barmap.reckon.solve.Branch;
import org.barmap.reckon.solve.Move;
import org.barmap.reckon.solve.Restart;
import org.barmap.reckon.solve.Step;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;

/**
 * All steps of a book in reading order, and what each one is about.
 *
 * @param steps for the solver
 * @param abouts what each choice of theirs decides, in the same order
 * @param systems the systems of the book, in reading order
 */
public record Lattice(List<Step> steps, List<About> abouts, List<SystemCells> systems) {

  private static final BookSettings.Steps SET = ReckonSettings.STANDARD.book().steps();

  /** Cuts the systems and writes down every step. */
  static Lattice of(List<SystemCells> systems, Costs costs, boolean numericMarksAreBarNumbers) {
    return of(systems, costs, numericMarksAreBarNumbers, List.of());
  }

  /**
   * The same.
   *
   * @param alike later endings that are numbered like the ones before them, in reading order
   */
  static Lattice of(
      List<SystemCells> systems,
      Costs costs,
      boolean numericMarksAreBarNumbers,
      List<Endings> alike) {
    Builder b = new Builder(systems, costs, numericMarksAreBarNumbers, alike);
    for (int i = 0; i < systems.size(); i++) {
      b.system(i);
    }
    List<Step> steps = Branch.fold(b.steps, b.branches);
    return new Lattice(steps, List.copyOf(b.abouts), systems);
  }

  /** The steps of systems {@code from} to {@code end - 1}; no branch goes over either edge. */
  List<Step> steps(int from, int end) {
    List<Step> out = new ArrayList<>();
    int at = 0;
    for (Step step : steps) {
      int system = abouts.get(at).system();
      if (system >= from && system < end) {
        out.add(step);
      }
      at += step.width();
    }
    return out;
  }

  private static final class Builder {
    private final List<SystemCells> systems;
    private final Costs costs;
    private final boolean marksCount;
    private final List<Double> usualWidths;
    private final List<Step> steps = new ArrayList<>();
    private final List<About> abouts = new ArrayList<>();
    private final List<Endings> alike;
    private final List<int[]> branches = new ArrayList<>();
    private int branch;

    Builder(List<SystemCells> systems, Costs costs, boolean marksCount, List<Endings> alike) {
      this.systems = systems;
      this.alike = alike;
      this.costs = costs;
      this.marksCount = marksCount;
      this.usualWidths = Room.usual(systems);
    }

    private void add(Step step, About about) {
      steps.add(step);
      abouts.add(about);
    }

    void system(int i) {
      SystemCells cells = systems.get(i);
      start(i);
      List<Optional<RestEvidence>> rests = new ArrayList<>();
      for (int c = 0; c < cells.lines().size(); c++) {
        rests.add(RestEvidence.in(cells, c));
      }
      double onPage = usualWidths.get(i);
      double usual = Room.usual(cells, onPage);
      for (int c = 0; c < cells.lines().size(); c++) {
        endings(new Endings.Beginning(i, c));
        anchors(i, c);
        if (rests.get(c).isPresent()) {
          rest(i, c, rests.get(c).get());
        }
        gap(i, c, onPage, rests.get(c));
        line(i, c, onPage, usual);
      }
    }

    private void endings(Endings.Beginning at) {
      if (alike.stream().anyMatch(e -> e.to().equals(at))) {
        branches.add(new int[] {branch, steps.size()});
        add(Move.fixed(0), new About.Back(at.system(), at.cell()));
      }
      if (alike.stream().anyMatch(e -> e.from().equals(at))) {
        branch = steps.size();
      }
    }

    private void start(int i) {
      Optional<Sign> heading =
          systems.get(i).signs(SignKind.HEADING).stream()
              .max(java.util.Comparator.comparingDouble(Sign::probability));
      double again;
      if (heading.isPresent()) {
        again = costs.restarts().restartAtHeading() * heading.get().probability();
      } else if (i > 0 && endsFinal(systems.get(i - 1))) {
        again = costs.restarts().restartAfterFinal();
      } else {
        again = costs.restarts().restartElsewhere();
      }
      double toZero = again * costs.restarts().pickup();
      double missing = i == 0 ? 0 : costs.restarts().missingPages();
      if (i > 0) {
        add(new Restart(1 - again, again - toZero, toZero, missing), new About.Start(i, heading));
        if (heading.isEmpty()) {
          add(Weights.system(costs), new About.Missed(i));
        }
      }
    }

    private static boolean endsFinal(SystemCells cells) {
      return !cells.lines().isEmpty()
          && cells.lines().get(cells.lines().size() - 1).sign().text().equals(Barline.FINAL.word());
    }

    private void anchors(int i, int c) {
      for (Sign sign : systems.get(i).source().signs()) {
        boolean counts =
            sign.kind() == SignKind.BAR_NUMBER
                || (marksCount && sign.kind() == SignKind.REHEARSAL && Marks.isNumeric(sign));
        if (counts && Marks.cellOf(systems.get(i), sign) == c) {
          observe(i, c, sign);
        }
      }
    }

    private void observe(int i, int c, Sign sign) {
      Step step = Weights.printed(sign.readings(), costs.number(sign, c > 0), costs);
      add(step, new About.Anchor(i, c, sign));
    }

    private void rest(int i, int c, RestEvidence rest) {
      Step step = Weights.rest(rest.readings(), costs.rest(rest), costs);
      add(step, new About.Rest(i, c, rest));
    }

    private void gap(int i, int c, double onPage, Optional<RestEvidence> rest) {
      GapEvidence cell = GapEvidence.of(systems.get(i), c, onPage);
      double p = costs.missed(cell);
      double two =
          p * (rest.isPresent() ? SET.twoBesideRest() * (1 - p) : costs.missedTwo(cell, p));
      p -= cell.fill().known() ? two : 0;
      add(Move.of(new int[] {0, 1, 2}, new double[] {1 - p - two, p, two}), new About.Gap(i, c));
    }

    private void line(int i, int c, double onPage, double usual) {
      SystemCells cells = systems.get(i);
      SystemCells.Candidate line = cells.lines().get(c);
      LineEvidence around = LineEvidence.of(cells, c, onPage, usual);
      double p = costs.line(line.probability(), line.ink(), around);
      boolean lettered = c + 1 < cells.lines().size() && lettered(cells, c + 1);
      p = cells.opens(c) ? costs.lines().openingRepeat() : p;
      Move move =
          lettered
              ? Move.of(new int[] {0, 1}, new double[] {SET.lettered(), SET.letteredCounts()})
              : Move.line(p);
      add(move, new About.Candidate(i, c, lettered));
    }

    /** A bar printed "24A" counts as part of 24. */
    private static boolean lettered(SystemCells cells, int cell) {
      return cells.signs(SignKind.BAR_NUMBER).stream()
          .anyMatch(s -> Marks.isLettered(s.text()) && Marks.cellOf(cells, s) == cell);
    }
  }
}
