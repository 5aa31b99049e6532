package org.barmap.reckon.book;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.reckon.cells.BarSpan;
import org.barmap.reckon.cells.GapEvidence;
import org.barmap.reckon.cells.Marks;
import org.barmap.reckon.cells.RestEvidence;
import org.barmap.reckon.cells.SystemCells;
import org.barmap.reckon.solve.Solution;
import org.barmap.reckon.solve.Solution.Choice;
import org.barmap.sign.kind.Sign;

/** Turns the solved path into bars, system by system. */
public final class PathReader {

  /** A system's bars, and whether counting starts again at it. */
  public record SystemBars(
      SystemCells cells,
      List<BarSpan> bars,
      boolean restarts,
      boolean jumps,
      boolean startRepeat) {}

  private final Lattice lattice;
  private final Solution solution;

  /** Reads one path through the steps of a book. */
  public PathReader(Lattice lattice, Solution solution) {
    this.lattice = lattice;
    this.solution = solution;
  }

  /** Returns the bars of every system, in reading order. */
  public List<SystemBars> read() {
    List<SystemBars> out = new ArrayList<>();
    int t = 0;
    for (int i = 0; i < lattice.systems().size(); i++) {
      Walker walker = new Walker(i, lattice.systems().get(i));
      while (t < lattice.abouts().size() && lattice.abouts().get(t).system() == i) {
        walker.take(lattice.abouts().get(t), solution.choices().get(t));
        t++;
      }
      out.add(walker.done());
    }
    return out;
  }

  /** Collects one system's bars along the path. */
  private static final class Walker implements About.Follower {
    private final int system;
    private final SystemCells cells;
    private final List<BarSpan> bars = new ArrayList<>();
    private boolean restarts;
    private boolean jumps;
    private boolean startRepeat;

    private double from;
    private double leftLine = 1;
    private double inside = 1;
    private int count = 1;
    private int number = -1;
    private double numberProbability = 1;
    private Optional<RestEvidence> rest = Optional.empty();
    private double countChoice = 1;
    private int otherCount;
    private boolean inferred;
    private List<Sign> anchors = new ArrayList<>();
    private Optional<String> label = Optional.empty();

    Walker(int system, SystemCells cells) {
      this.system = system;
      this.cells = cells;
      this.from = cells.begin();
    }

    void take(About about, Choice choice) {
      if (number < 0) {
        number(choice.before(), choice);
      }
      about.take(choice, this);
    }

    private void number(int open, Choice choice) {
      number = open;
      numberProbability = choice.numberProbability();
    }

    @Override
    public void start(About.Start start, Choice choice) {
      // the first step of its system
      number(choice.after(), choice);
      restarts = choice.after() != choice.before() && choice.after() <= 1;
      jumps = choice.after() != choice.before() && choice.after() > 1;
    }

    @Override
    public void missed(About.Missed missed, Choice choice) {
      if (choice.shift() > 0) {
        jumps = true;
        number(choice.after(), choice);
      }
    }

    @Override
    public void back(About.Back back, Choice choice) {
      number(choice.after(), choice);
    }

    @Override
    public void anchor(About.Anchor anchor, Choice choice) {
      anchors.add(anchor.sign());
      if (Marks.isLettered(anchor.sign().text())) {
        label = Optional.of(anchor.sign().text());
      }
    }

    @Override
    public void rest(About.Rest about, Choice choice) {
      RestEvidence evidence = about.evidence();
      if (choice.shift() > 0 || (evidence.seen() && evidence.sign().probability() >= 0.5)) {
        rest = Optional.of(evidence);
      }
      count += choice.shift();
      countChoice *= choice.probability();
      otherCount = choice.bestOther() + 1;
    }

    @Override
    public void gap(About.Gap gap, Choice choice) {
      double left = Math.max(from, cells.from(gap.cell()));
      double right = cells.to(gap.cell());
      int parts = choice.shift() + 1;
      inside *= choice.probability();
      Optional<Sign> trace = parts == 2 ? cells.trace(gap.cell()) : Optional.empty();
      if (parts == 2 && rest.isPresent()) {
        besideRest(rest.get(), gap.cell(), choice, trace);
        return;
      }
      for (int part = 1; part < parts; part++) {
        inferred = true;
        double at =
            parts == 2
                ? GapEvidence.place(cells, gap.cell())
                : cells
                    .beats()
                    .endOfBar(left, right, part)
                    .orElse(left + (right - left) * part / parts);
        int next = number + count;
        close(at, trace, choice.probability());
        open(at, next, choice.numberProbability());
        inferred = true;
      }
    }

    /** A barline was missed between a rest and a bar of music. */
    private void besideRest(RestEvidence evidence, int cell, Choice choice, Optional<Sign> trace) {
      double at = GapEvidence.place(cells, cell);
      double sure = choice.numberProbability();
      inferred = true;
      if (at > evidence.sign().at()) {
        close(at, trace, choice.probability());
        open(at, number + count, sure);
      } else {
        int restCount = count;
        double countSure = countChoice;
        int other = otherCount;
        rest = Optional.empty();
        count = 1;
        countChoice = 1;
        close(at, trace, choice.probability());
        open(at, number + 1, sure);
        rest = Optional.of(evidence);
        count = restCount;
        countChoice = countSure;
        otherCount = other;
      }
      inferred = true;
    }

    @Override
    public void candidate(About.Candidate about, Choice choice) {
      SystemCells.Candidate line = cells.lines().get(about.line());
      boolean last = about.line() == cells.lines().size() - 1;
      if (choice.shift() == 0 && cells.opens(about.line())) {
        startRepeat = true;
        from = line.at();
        return;
      }
      if (choice.shift() == 0 && !about.lettered() && !last) {
        inside *= choice.probability();
        return;
      }
      close(line.at(), Optional.of(line.sign()), choice.probability());
      open(line.at(), choice.after(), choice.numberProbability());
      leftLine = choice.probability();
    }

    private void close(double at, Optional<Sign> sign, double probability) {
      bars.add(
          new BarSpan(
              system,
              from,
              at,
              number,
              label,
              Math.max(1, count),
              rest,
              countChoice,
              otherCount,
              leftLine * inside * probability,
              sign,
              probability,
              inferred,
              List.copyOf(anchors),
              numberProbability));
    }

    private void open(double at, int next, double sure) {
      from = at;
      leftLine = 1;
      inside = 1;
      count = 1;
      number = next;
      numberProbability = sure;
      rest = Optional.empty();
      countChoice = 1;
      otherCount = 0;
      inferred = false;
      anchors = new ArrayList<>();
      label = Optional.empty();
    }

    SystemBars done() {
      return new SystemBars(cells, List.copyOf(bars), restarts, jumps, startRepeat);
    }
  }
}
