package org.barmap.plan.order;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.BiPredicate;
import org.barmap.map.Navigation;
import org.barmap.plan.change.term.Figures;
import org.barmap.plan.pace.Gap;
import org.barmap.plan.pace.Holds;
import org.barmap.plan.pace.Length;
import org.barmap.plan.pace.Measure;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.PlayedPiece;

/** What is played without a break, laid out in time: one number, or several joined by attacca. */
public final class Timeline {

  /**
   * A step with the measure it is played in and the number it belongs to.
   *
   * @param round the time round an open stretch it is part of, where the stretch is laid out so
   */
  public record Event(
      PlayedPiece step, Measure measure, String number, Optional<OpenRun.Round> round) {
    /** Returns what is played. */
    public Piece piece() {
      return step.piece();
    }

    /** Returns the page it is on. */
    public int page() {
      return piece().bar().page();
    }
  }

  /** Quarters of a bar of an unknown meter, as it is laid out. */
  private static final double UNKNOWN_BAR = 4;

  private final List<Event> events = new ArrayList<>();
  private final List<Gap> gaps = new ArrayList<>();
  private final Map<Integer, String> openAt = new HashMap<>();
  private double[] starts = new double[0];

  private double gapFrom;
  private int gapStep = -1;
  private Length gapLength = Length.none();
  private boolean gapHeld;
  private double gapLeast;

  /** Lays out numbers that follow without a break; of an open stretch one time round. */
  public Timeline(List<Performance> joined) {
    this(joined, (from, to) -> false);
  }

  /**
   * Lays out numbers that follow without a break; of an open stretch over a page turn two times
   * round, so that the way back from its end to its beginning is there.
   *
   * @param turned tells whether a page is turned from one page to another
   */
  public Timeline(List<Performance> joined, BiPredicate<Integer, Integer> turned) {
    for (Performance p : joined) {
      layOut(p, turned);
    }
    starts = new double[events.size() + 1];
    for (int i = 0; i < events.size(); i++) {
      starts[i + 1] = starts[i] + quarters(i);
    }
    for (int i = 0; i < events.size(); i++) {
      listen(i);
    }
    close(end(events.size() - 1), events.size() - 1);
  }

  private void layOut(Performance p, BiPredicate<Integer, Integer> turned) {
    List<PlayedPiece> steps = p.order().steps();
    Map<Integer, OpenRun> ends = new HashMap<>();
    OpenRun.of(p.order()).forEach(r -> ends.put(r.last(), r));
    for (int i = 0; i < steps.size(); i++) {
      events.add(event(p, steps.get(i), Optional.empty()));
      OpenRun run = ends.get(i);
      if (run != null && run.rest()) {
        openAt.put(events.size() - 1, run.open().named());
      } else if (run != null && run.turnsBack(steps, turned)) {
        List<PlayedPiece> round = steps.subList(run.first(), run.last() + 1);
        int from = events.size() - round.size();
        Optional<OpenRun.Round> first = Optional.of(new OpenRun.Round(run.open(), from, false));
        for (int e = from; e < from + round.size(); e++) {
          events.set(e, event(p, events.get(e).step(), first));
        }
        Optional<OpenRun.Round> again = Optional.of(new OpenRun.Round(run.open(), from, true));
        round.forEach(s -> events.add(event(p, s, again)));
      }
    }
  }

  private static Event event(Performance p, PlayedPiece step, Optional<OpenRun.Round> round) {
    return new Event(step, p.measure(step), p.number().label(), round);
  }

  /** Returns what is played, in order. */
  public List<Event> events() {
    return events;
  }

  /** Returns the stretches without notes, in order. */
  public List<Gap> gaps() {
    return gaps;
  }

  /** Returns where a step begins, in quarters. */
  public double start(int step) {
    return starts[step];
  }

  /** Returns where a step ends, in quarters. */
  public double end(int step) {
    return step < 0 ? 0 : starts[step + 1];
  }

  /** An unknown meter is laid out as four quarters; its beats and seconds stay unknown. */
  private double quarters(int i) {
    Event e = events.get(i);
    if (e.piece().pickup() && !e.measure().upbeat()) {
      return 0;
    }
    double bar = e.measure().quarters().orElse(UNKNOWN_BAR);
    return Math.max(
        0, bar * e.piece().count() - e.piece().beatsCut() * e.measure().quartersPerUnit());
  }

  private void listen(int i) {
    Event e = events.get(i);
    Piece piece = e.piece();
    boolean hold = Holds.holds(piece);
    if (piece.rest()) {
      begin(start(i), i);
      longer(silent(i), Holds.isPause(piece) ? 0 : quarters(i));
      gapHeld |= hold;
      return;
    }
    double unit = e.measure().quartersPerUnit();
    double long0 = quarters(i);
    double head =
        piece.first() ? unit * (piece.bar().silentStart().orElse(0.0) - piece.cutStart()) : 0;
    double tail = piece.last() ? unit * (piece.bar().silentEnd().orElse(0.0) - piece.cutEnd()) : 0;
    head = Math.min(Math.max(0, head), long0);
    tail = Math.min(Math.max(0, tail), long0 - head);
    if (head > 0) {
      begin(start(i), i);
      longer(part(e, head), head);
    }
    close(start(i) + head, i);
    boolean caesura = hold && piece.bar().has(Navigation.CAESURA);
    if (tail > 0 || caesura) {
      begin(end(i) - tail, i);
      longer(part(e, tail).with(Holds.of(piece).map(List::of).orElse(List.of())), tail);
      gapHeld |= hold;
    }
  }

  /** Returns the length of a rest, with the open stretch that ends with it. */
  private Length silent(int i) {
    Event e = events.get(i);
    Length length = Length.of(e.piece(), e.measure());
    String open = openAt.get(i);
    return open == null ? length : length.with(List.of(open));
  }

  private void longer(Length length, double quarters) {
    gapLength = gapLength.plus(length);
    gapLeast += Gap.least(length, quarters);
  }

  private static Length part(Event e, double quarters) {
    double whole = e.measure().quartersOrZero();
    Optional<Double> beats =
        whole == 0 ? Optional.empty() : Optional.of(e.measure().beats() * quarters / whole);
    Optional<Double> seconds =
        e.measure().perMinute().isPresent()
            ? Optional.of(quarters * 60 / e.measure().perMinute().getAsDouble())
            : Optional.empty();
    return new Length(0, beats, seconds);
  }

  private void begin(double at, int step) {
    if (gapStep < 0) {
      gapFrom = at;
      gapStep = step;
      gapLength = Length.none();
      gapHeld = false;
      gapLeast = 0;
    }
  }

  private void close(double at, int step) {
    if (gapStep >= 0) {
      gaps.add(new Gap(gapFrom, at, gapStep, step, gapLength, gapHeld, gapLeast));
      gapStep = -1;
    }
  }

  /** Returns the part of a gap that lies before or after a place where a step begins. */
  public Length partOf(Gap gap, int boundaryStep, boolean before) {
    Length sum = Length.none();
    int from = before ? gap.firstStep() : boundaryStep;
    int to = before ? boundaryStep - 1 : gap.lastStep();
    for (int i = from; i <= to && i < events.size(); i++) {
      double a = Math.max(gap.from(), start(i));
      double b = Math.min(gap.to(), end(i));
      if (b - a > Figures.SAME) {
        Event e = events.get(i);
        sum = sum.plus(e.piece().rest() ? silent(i) : part(e, b - a));
      }
    }
    return sum;
  }

  /** Returns a part of a gap, between two places in it, as a gap of its own. */
  public Gap portion(Gap gap, double from, double to) {
    Length sum = Length.none();
    double least = 0;
    int first = gap.lastStep();
    int last = gap.firstStep();
    for (int i = gap.firstStep(); i <= gap.lastStep() && i < events.size(); i++) {
      double quarters = Math.min(to, end(i)) - Math.max(from, start(i));
      if (quarters > Figures.SAME) {
        Length one = share(i, quarters);
        sum = sum.plus(one);
        least += Gap.least(one, quarters);
        first = Math.min(first, i);
        last = i;
      }
    }
    return new Gap(from, to, Math.min(first, last), last, sum, gap.held(), least);
  }

  private Length share(int i, double quarters) {
    Event e = events.get(i);
    if (!e.piece().rest()) {
      return part(e, quarters);
    }
    if (quarters >= quarters(i) - Figures.SAME) {
      return Length.of(e.piece(), e.measure());
    }
    Length some = part(e, quarters);
    double bar = e.measure().quarters().orElse(UNKNOWN_BAR);
    int bars = (int) Math.floor(quarters / bar + Figures.SAME);
    return new Length(bars, some.beats(), some.seconds(), some.plus());
  }

  /** Returns the gap at a place, if the player is silent just before or after it. */
  public Optional<Gap> gapAt(double at) {
    int low = 0;
    int high = gaps.size();
    while (low < high) {
      int middle = (low + high) / 2;
      if (gaps.get(middle).to() < at - Figures.SAME) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low < gaps.size() && gaps.get(low).touches(at)
        ? Optional.of(gaps.get(low))
        : Optional.empty();
  }

  /** Counts bars with notes between two places, bars begun included. */
  public int barsWithNotes(double from, double to, int fromStep, int toStep) {
    int bars = 0;
    for (int i = fromStep; i <= toStep; i++) {
      boolean overlaps = start(i) < to - Figures.SAME && end(i) > from + Figures.SAME;
      boolean pickup = events.get(i).piece().pickup();
      if ((overlaps || pickup) && !events.get(i).piece().rest()) {
        bars += Math.max(1, events.get(i).piece().count());
      }
    }
    return bars;
  }
}
