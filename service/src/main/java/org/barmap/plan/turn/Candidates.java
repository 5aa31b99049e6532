package org.barmap.plan.turn;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.barmap.plan.change.term.Figures;
import org.barmap.plan.order.Timeline;
import org.barmap.plan.pace.Gap;
import org.barmap.plan.page.Sides;

/** Lists the ways to get over one turn. */
record Candidates(Timeline line, Judge judge, TurnSettings settings, Sides sides) {
  private static final TurnCosts COSTS = TurnCosts.USUAL;

  /**
   * Returns the ways to get over the turn before a step; leaving notes out is always one.
   *
   * @param arrives index of the first step on the new page
   * @param load how many turns' time it takes
   * @param own the part of the gap at the turn that it has for itself
   */
  List<Candidate> of(int arrives, double load, Optional<Gap> own) {
    double at = line.start(arrives);
    List<Candidate> all = new ArrayList<>();
    int after = line.gaps().size();
    int before = -1;
    for (int g = firstNear(at); g < line.gaps().size(); g++) {
      Gap gap = line.gaps().get(g);
      if (gap.touches(at)) {
        add(all, g, load, 0, AdviceText.here(line, own.orElse(gap), arrives));
      } else if (gap.to() < at) {
        before = g;
      } else {
        after = g;
        break;
      }
    }
    early(all, before, arrives, load);
    late(all, after, arrives, load);
    all.add(new Candidate(-1, at, at, load, COSTS.leaveOut(), AdviceText.leaveOut(line, arrives)));
    Advice copy = AdviceText.looseCopy(line, arrives);
    all.add(new Candidate(-1, at, at, load, COSTS.looseCopy(), copy));
    return all;
  }

  /** Index of the last gap that ends before a place, or 0. */
  private int firstNear(double at) {
    int low = 0;
    int high = line.gaps().size();
    while (low < high) {
      int middle = (low + high) / 2;
      if (line.gaps().get(middle).to() < at) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return Math.max(0, low - 1);
  }

  private void early(List<Candidate> all, int last, int arrives, double load) {
    boolean written = false;
    int seen = arrives;
    for (int g = last; g >= 0; g--) {
      Gap gap = line.gaps().get(g);
      double at = line.start(arrives);
      int from = firstWithNotes(gap.lastStep(), arrives - 1, gap.to());
      while (seen > from) {
        seen--;
        if (!away(seen, arrives)) {
          return; // it would be read from the page that is come to
        }
      }
      int bars = line.barsWithNotes(gap.to(), at, gap.lastStep(), arrives - 1);
      if (bars > Math.max(settings.memoryBars(), COSTS.mostWritten())) {
        return;
      }
      if (judge.cost(gap, load) == Double.POSITIVE_INFINITY) {
        continue;
      }
      memorise(all, g, load, bars, AdviceText.early(line, gap, from, arrives - 1, bars));
      if (!written && bars <= COSTS.mostWritten()) {
        written = true;
        add(
            all,
            g,
            load,
            COSTS.writeOut() + COSTS.writeOutBar() * bars,
            AdviceText.writeOutBefore(line, gap, from, arrives - 1, bars));
      }
    }
  }

  private void late(List<Candidate> all, int first, int arrives, double load) {
    boolean written = false;
    int seen = arrives - 1;
    for (int g = first; g < line.gaps().size(); g++) {
      Gap gap = line.gaps().get(g);
      double at = line.start(arrives);
      int to = lastWithNotes(arrives, gap.firstStep(), gap.from());
      while (seen < to) {
        seen++;
        if (!away(seen, arrives - 1)) {
          return; // it is read from the page that is left
        }
      }
      int bars = line.barsWithNotes(at, gap.from(), arrives, gap.firstStep());
      int systems = systems(arrives, to);
      if (bars > COSTS.mostWritten()
          && systems > COSTS.mostSystems()
          && bars > settings.memoryBars()) {
        return;
      }
      if (judge.cost(gap, load) == Double.POSITIVE_INFINITY) {
        continue;
      }
      memorise(all, g, load, bars, AdviceText.late(line, gap, arrives, to, bars));
      if (!written && bars <= COSTS.mostWritten()) {
        double cost = COSTS.writeOut() + COSTS.writeOutBar() * bars;
        add(all, g, load, cost, AdviceText.writeOut(line, gap, arrives, to, bars));
      }
      if (!written && systems <= COSTS.mostSystems()) {
        double cost = COSTS.foldOut() + COSTS.foldOutSystem() * systems;
        add(all, g, load, cost, AdviceText.foldOut(line, gap, arrives, to, bars, systems));
      }
      written = true;
    }
  }

  /** Tells whether the page of a step lies under another leaf than that of another step. */
  private boolean away(int step, int open) {
    return sides.turned(line.events().get(step).page(), line.events().get(open).page());
  }

  /** Adds a way that needs bars played from memory, where the player trusts so many to it. */
  private void memorise(List<Candidate> all, int g, double load, int bars, Advice advice) {
    if (bars <= settings.memoryBars()) {
      add(all, g, load, COSTS.barFromMemory() * bars, advice);
    }
  }

  private void add(List<Candidate> all, int g, double load, double base, Advice advice) {
    Gap gap = line.gaps().get(g);
    double extra = judge.cost(gap, load);
    if (extra < Double.POSITIVE_INFINITY) {
      all.add(new Candidate(g, gap.from(), gap.to(), load, base, advice.at(base + extra)));
    }
  }

  private int firstWithNotes(int from, int to, double after) {
    for (int i = from; i <= to; i++) {
      if (!line.events().get(i).piece().rest() && line.end(i) > after + Figures.SAME) {
        return i;
      }
    }
    return to;
  }

  private int lastWithNotes(int from, int to, double before) {
    for (int i = to; i >= from; i--) {
      if (!line.events().get(i).piece().rest() && line.start(i) < before - Figures.SAME) {
        return i;
      }
    }
    return from;
  }

  private int systems(int from, int to) {
    Set<String> seen = new HashSet<>();
    for (int i = from; i <= to; i++) {
      var bar = line.events().get(i).piece().bar();
      seen.add(bar.page() + "/" + bar.system());
      if (seen.size() > COSTS.mostSystems()) {
        return seen.size();
      }
    }
    return seen.size();
  }

  /** Returns an id of a bar entry, as a plan names it. */
  static Optional<String> id(Timeline line, int step) {
    return Optional.of(line.events().get(step).piece().bar().id());
  }
}
