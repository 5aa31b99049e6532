package org.barmap.reckon;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.CompletionException;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Function;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Barline;
import org.barmap.map.Content;
import org.barmap.map.Evidence;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Origin;
import org.barmap.map.rule.AlikeEndings;
import org.barmap.reckon.book.Weights;
import org.barmap.reckon.cells.Marks;
import org.barmap.reckon.cost.Costs;
import org.barmap.reckon.second.SecondNumbers;
import org.barmap.reckon.set.BookSettings;
import org.barmap.reckon.set.ReckonSettings;
import org.barmap.reckon.solve.Branch;
import org.barmap.reckon.solve.Move;
import org.barmap.reckon.solve.NoPathException;
import org.barmap.reckon.solve.Observe;
import org.barmap.reckon.solve.Restart;
import org.barmap.reckon.solve.Sections;
import org.barmap.reckon.solve.Solution;
import org.barmap.reckon.solve.Step;
import org.barmap.sign.kind.Reading;

/**
 * Settles a map again after people corrected it: counts and numbers that nobody set are worked out
 * anew from the evidence the map keeps; entries stay as they are drawn.
 *
 * <p>The same steps and the same solver as the first reckoning, without merging or splitting
 * entries. Where a musical number begins, or a person set a bar's number, counting begins anew
 * whatever came before, so that a change is worked out in its own part of the book only ({@link
 * Sections}).
 */
public final class Settler {

  private static final BookSettings SET = ReckonSettings.STANDARD.book();

  /** What was solved of any book is solved for all: what a section comes to depends on it alone. */
  private static final Sections SECTIONS = new Sections();

  /** As many as some five books of 144 pages say. */
  private static final int MOST_WEIGHED = 20_000;

  private static final ConcurrentHashMap<Said, Step> WEIGHED = new ConcurrentHashMap<>();

  private final Costs costs = Costs.DEFAULT;
  private final Sections sections;

  /** Creates a settler with the default costs. */
  public Settler() {
    this(SECTIONS);
  }

  /** Creates one that remembers what these have solved. */
  Settler(Sections sections) {
    this.sections = sections;
  }

  /**
   * Where a bar's choices are among the steps; a bar whose count is known takes no step.
   *
   * @param before steps that come before the bar's rest
   * @param ahead bars counted since the last of them
   * @param rest the step of its rest, or -1
   * @param start where a line begins that may follow missing ones, the first of its two steps; or
   *     -1
   */
  private record OwnSteps(int before, int ahead, int rest, int start) {}

  /**
   * Settles a map.
   *
   * @param map as corrected so far
   * @param fixed what people set; never changed
   * @return the map with numbers, counts and findings of this package's stage worked out anew;
   *     findings of other stages are kept; the map as it is when people set numbers, or counts that
   *     lead to them, beyond those that are told apart ({@code BookSettings.Model})
   */
  public BarMap settle(BarMap map, Fixed fixed) {
    if (map.bars().isEmpty()) {
      return map;
    }
    SettlingRun run = new SettlingRun();
    run.begin();
    BarMap settled;
    try {
      settled = worked(map, fixed);
    } catch (CompletionException | NoPathException e) {
      if (e instanceof NoPathException || e.getCause() instanceof NoPathException) {
        return map;
      }
      throw e;
    }
    run.entries = map.bars().size();
    run.commit();
    return settled;
  }

  private BarMap worked(BarMap map, Fixed fixed) {
    List<Step> flat = new ArrayList<>();
    List<int[]> branches = new ArrayList<>();
    List<OwnSteps> places = lattice(map, fixed, flat, branches);
    List<Step> steps = Branch.fold(flat, branches);
    Bar first = map.bars().get(0);
    List<Bar> bars = map.bars();
    Solution solution =
        sections.solve(
            steps,
            states -> prior(first, fixed, states),
            (from, to) -> states(bars.subList(after(places, from), after(places, to))));
    return written(map, fixed, solution, places);
  }

  /**
   * Writes down the steps; what is known beforehand is added to the next one. A later ending that
   * is numbered like the one before it stays so, unless a person set its number.
   */
  private List<OwnSteps> lattice(BarMap map, Fixed fixed, List<Step> steps, List<int[]> branches) {
    Map<Integer, Integer> alike = new HashMap<>(AlikeEndings.of(map).earlier());
    alike.keySet().removeIf(i -> fixed.numbers().contains(map.bars().get(i).id()));
    int branch = 0;
    Set<String> starts = new HashSet<>();
    for (MusicalNumber n : map.numbers()) {
      n.firstBar().ifPresent(starts::add);
    }
    List<OwnSteps> places = new ArrayList<>();
    List<Bar> bars = map.bars();
    int ahead = 0;
    for (int i = 0; i < bars.size(); i++) {
      Bar bar = bars.get(i);
      List<Step> own = new ArrayList<>();
      if (i > 0) {
        own.addAll(start(bar, bars.get(i - 1), starts.contains(bar.id()), fixed));
      }
      printed(bar, fixed).ifPresent(own::add);
      said(bar, fixed).ifPresent(own::add);
      Optional<Move> rest = rest(bar, fixed);
      boolean lettered = i + 1 < bars.size() && isLettered(bars.get(i + 1));
      boolean open = bar.endBarline() == Barline.NONE && bar.origin() == Origin.READ;
      boolean edge = alike.containsKey(i) || alike.containsValue(i);
      if (ahead > 0 && (!own.isEmpty() || rest.isPresent() || edge)) {
        steps.add(Move.fixed(ahead));
        ahead = 0;
      }
      if (alike.containsKey(i)) {
        branches.add(new int[] {branch, steps.size()});
        steps.add(Move.fixed(0));
      }
      boolean line = !own.isEmpty() && own.get(0) instanceof Restart r && r.stay() == 1;
      int start = line ? steps.size() : -1;
      steps.addAll(own);
      branch = alike.containsValue(i) ? steps.size() : branch;
      places.add(new OwnSteps(steps.size(), ahead, rest.isPresent() ? steps.size() : -1, start));
      rest.ifPresent(steps::add);
      ahead += rest.isPresent() ? 0 : bar.count() - 1;
      if (open && !lettered) {
        steps.add(Move.fixed(ahead));
        ahead = 0;
        steps.add(Move.line(costs.lines().openEnd()));
      } else {
        ahead += lettered ? 0 : 1;
      }
    }
    return places;
  }

  private static boolean isLettered(Bar bar) {
    return bar.label().filter(Marks::isLettered).isPresent();
  }

  private List<Step> start(Bar bar, Bar before, boolean startsNumber, Fixed fixed) {
    if (fixed.numbers().contains(bar.id())) {
      return List.of(new Restart(0, 0, 0, 1));
    }
    if (startsNumber) {
      return List.of(
          new Restart(
              0, 1 - costs.restarts().pickup(), costs.restarts().pickup(), SET.again().hardly()));
    }
    boolean sameLine = bar.page() == before.page() && bar.system() == before.system();
    return sameLine
        ? List.of()
        : List.of(new Restart(1, 0, 0, costs.restarts().missingPages()), Weights.system(costs));
  }

  private Optional<Step> printed(Bar bar, Fixed fixed) {
    if (fixed.numbers().contains(bar.id())) {
      return Optional.of(new Observe(new int[] {bar.number()}, new double[] {1}, 0));
    }
    List<Evidence.Alternative> read = bar.evidence().map(Evidence::numbers).orElse(List.of());
    return read.isEmpty()
        ? Optional.empty()
        : Optional.of(
            weighed(
                new Said(false, read, bar.evidence().map(Evidence::number).orElse(1.0)),
                s -> Weights.printed(readings(s.read), s.sure, costs)));
  }

  /** What a second reading calls the bar, where its numbers begin or jump. */
  private static Optional<Step> said(Bar bar, Fixed fixed) {
    return fixed.numbers().contains(bar.id())
        ? Optional.empty()
        : SecondNumbers.of(bar).map(SecondEvidence::weighed);
  }

  /** The step of a rest whose count may still change. */
  private Optional<Move> rest(Bar bar, Fixed fixed) {
    List<Evidence.Alternative> read = bar.evidence().map(Evidence::counts).orElse(List.of());
    boolean free = bar.isRest() && !fixed.counts().contains(bar.id()) && !read.isEmpty();
    return free
        ? Optional.of(
            (Move)
                weighed(
                    new Said(true, read, bar.evidence().map(Evidence::rest).orElse(1.0)),
                    s -> Weights.rest(readings(s.read), s.sure, costs)))
        : Optional.empty();
  }

  /** What was read at a bar: its rest's count or its number, and how surely it is one. */
  private record Said(boolean count, List<Evidence.Alternative> read, double sure) {}

  /** Weighs what was read; a book that is settled again says nearly all of it again. */
  private static Step weighed(Said said, Function<Said, Step> weigh) {
    if (WEIGHED.size() > MOST_WEIGHED) {
      WEIGHED.clear();
    }
    return WEIGHED.computeIfAbsent(said, weigh);
  }

  private static List<Reading> readings(List<Evidence.Alternative> alternatives) {
    return alternatives.stream().map(a -> new Reading(a.text(), a.probability())).toList();
  }

  /** Index of the first bar whose own steps end after a place; all bars where there is none. */
  private static int after(List<OwnSteps> places, int step) {
    int low = 0;
    int high = places.size();
    while (low < high) {
      int middle = (low + high) / 2;
      if (places.get(middle).before() > step) {
        high = middle;
      } else {
        low = middle + 1;
      }
    }
    return low;
  }

  private static int states(List<Bar> bars) {
    int most = 0;
    for (Bar bar : bars) {
      most = Math.max(most, Math.max(bar.nextNumber(), SecondNumbers.of(bar).orElse(0)));
      for (Evidence.Alternative a : bar.evidence().map(Evidence::numbers).orElse(List.of())) {
        most =
            a.probability() > SET.model().meant() ? Math.max(most, Marks.number(a.text())) : most;
      }
    }
    return Math.min(SET.model().mostStates(), most + SET.again().more());
  }

  private double[] prior(Bar first, Fixed fixed, int states) {
    double[] prior = new double[states];
    if (fixed.numbers().contains(first.id()) && first.number() < states) {
      prior[first.number()] = 1;
      return prior;
    }
    Arrays.fill(prior, SET.model().anyStart());
    prior[0] = costs.restarts().pickup();
    prior[1] = 1;
    return prior;
  }

  private BarMap written(BarMap map, Fixed fixed, Solution solution, List<OwnSteps> places) {
    List<Bar> bars = new ArrayList<>(map.bars());
    double[] sure = new double[bars.size()];
    int[] other = new int[bars.size()];
    Set<Integer> jumps = new TreeSet<>();
    Arrays.fill(sure, 1);
    List<Solution.Choice> choices = solution.choices();
    for (int i = 0; i < bars.size(); i++) {
      OwnSteps place = places.get(i);
      Bar bar = bars.get(i);
      if (place.start() >= 0
          && choices.get(place.start()).shift() + choices.get(place.start() + 1).shift() != 0) {
        jumps.add(i);
      }
      int open = place.before() == 0 ? solution.first() : choices.get(place.before() - 1).after();
      int number = open + place.ahead();
      if (!isLettered(bar) && bar.number() != number) {
        bar = bar.toBuilder().number(number).build();
      }
      if (place.rest() >= 0) {
        Solution.Choice c = choices.get(place.rest());
        sure[i] = c.probability();
        other[i] = c.bestOther() + 1;
        if (bar.count() != c.shift() + 1) {
          Content content = c.shift() == 0 ? Content.REST : Content.MULTI_REST;
          bar = bar.toBuilder().count(c.shift() + 1).content(content).build();
        }
      }
      bars.set(i, bar);
    }
    BarMap settled = map.withBars(bars);
    return settled.withFindings(
        new SettledFindings(costs, fixed, settled).of(map.findings(), sure, other, jumps));
  }
}
