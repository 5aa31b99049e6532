package org.barmap.plan.ready;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.plan.change.term.Figures;
import org.barmap.plan.order.Following;
import org.barmap.plan.order.Performance;
import org.barmap.plan.order.Timeline;
import org.barmap.plan.pace.Gap;
import org.barmap.plan.pace.Length;
import org.barmap.plan.turn.BetweenNumbers;
import org.barmap.plan.turn.Verdict;

/** Finds the changes of instrument, bow, mute, extension and tuning of a show. */
public final class Readies {

  /** What changes at one note. */
  private record Change(GetReady.Kind kind, String from, String to) {}

  private final ReadyTimes times;
  private final double takeUp;
  private final List<GetReady> found = new ArrayList<>();
  private Optional<Timeline> before = Optional.empty();
  private Following following = Following.UNKNOWN;
  private Hands now = Hands.EMPTY;
  private boolean played;

  private Readies(ReadyTimes times, double takeUp) {
    this.times = times;
    this.takeUp = takeUp;
  }

  /**
   * Returns the changes in the order they come. What is announced in a rest is needed at the next
   * note.
   *
   * @param show played numbers in the order of the night
   * @param held what is held at each piece of each number, in reading order
   * @param first what is held before the first number
   * @param takeUp seconds that taking up an instrument needs
   */
  public static List<GetReady> of(
      List<Performance> show,
      List<List<Hands>> held,
      Hands first,
      ReadyTimes times,
      double takeUp) {
    Readies readies = new Readies(times, takeUp);
    readies.now = first;
    int i = 0;
    while (i < show.size()) {
      int to = i;
      while (to + 1 < show.size() && show.get(to).following().joined()) {
        to++;
      }
      readies.line(show.subList(i, to + 1), held.subList(i, to + 1));
      i = to + 1;
    }
    return List.copyOf(readies.found);
  }

  /** Numbers that follow without a break. */
  private void line(List<Performance> joined, List<List<Hands>> held) {
    Timeline line = new Timeline(joined);
    List<Hands> hands = new ArrayList<>();
    for (int i = 0; i < joined.size(); i++) {
      List<Hands> pieces = held.get(i);
      joined.get(i).order().steps().forEach(s -> hands.add(pieces.get(s.index())));
    }
    if (hands.isEmpty()) {
      following =
          joined.get(joined.size() - 1).following().joined() ? following : Following.UNKNOWN;
      return;
    }
    for (int i = 0; i < line.events().size(); i++) {
      if (!line.events().get(i).piece().rest()) {
        note(line, i, hands.get(i));
      }
    }
    before = Optional.of(line);
    following = joined.get(joined.size() - 1).following();
  }

  private void note(Timeline line, int step, Hands next) {
    List<Change> changes = new ArrayList<>();
    if (!next.equals(now)) {
      differ(changes, GetReady.Kind.INSTRUMENT, now.instrument(), next.instrument());
      differ(changes, GetReady.Kind.BOW, now.bow(), next.bow());
      differ(changes, GetReady.Kind.MUTE, now.mute(), next.mute());
      differ(changes, GetReady.Kind.EXTENSION, now.extension(), next.extension());
      differ(changes, GetReady.Kind.RETUNE, now.tuning(), next.tuning());
    }
    double needed =
        changes.stream().mapToDouble(c -> times.needed(c.kind(), c.from(), c.to(), takeUp)).sum();
    for (Change change : changes) {
      add(line, step, change, needed, changes.size() > 1);
    }
    now = next;
    played = true;
  }

  /** What is told before the first note only is no change, but for the instrument to take up. */
  private void differ(List<Change> changes, GetReady.Kind kind, String from, String to) {
    boolean first = kind != GetReady.Kind.INSTRUMENT && from.isEmpty() && !played;
    boolean sameHand =
        kind == GetReady.Kind.BOW && !from.isEmpty() && !from.equals("pizz") && !to.equals("pizz");
    String held = from.isEmpty() ? unsaid(kind) : from;
    if (!to.isEmpty() && !held.equals(to) && !first && !sameHand) {
      changes.add(new Change(kind, held, to));
    }
  }

  /** What is held where nothing is said (common practice). */
  private static String unsaid(GetReady.Kind kind) {
    return switch (kind) {
      case MUTE -> "mute off";
      case RETUNE -> "standard tuning";
      case EXTENSION -> "no extension";
      case INSTRUMENT, BOW -> "";
    };
  }

  private void add(Timeline line, int step, Change change, double needed, boolean several) {
    Timeline.Event event = line.events().get(step);
    double at = line.start(step);
    Optional<Gap> gap = line.gapAt(at);
    boolean opening = step == 0 || gap.filter(g -> g.from() <= 0).isPresent();
    Optional<BetweenNumbers> between =
        opening ? before.map(b -> BetweenNumbers.of(b, line, following)) : Optional.empty();
    boolean beforeTheShow = opening && between.isEmpty();
    Length time =
        between.map(BetweenNumbers::length).orElse(gap.map(Gap::length).orElse(Length.none()));
    Verdict verdict =
        beforeTheShow
            ? Verdict.TIME
            : between
                .map(b -> b.verdict(needed, ReadyTimes.ANY))
                .orElseGet(() -> verdict(gap, needed));
    Optional<String> earlier =
        verdict == Verdict.TIME ? Optional.empty() : earlier(line, at, needed);
    Optional<Double> seconds =
        beforeTheShow ? Optional.empty() : time.seconds().map(Figures::tenths);
    found.add(
        new GetReady(
            event.piece().bar().id(),
            change.kind(),
            change.from().isEmpty() ? Optional.empty() : Optional.of(change.from()),
            change.to(),
            event.number(),
            event.step().pass(),
            seconds,
            beforeTheShow ? Optional.empty() : time.beats().map(Figures::hundredths),
            needed,
            verdict,
            because(verdict, between, gap),
            earlier,
            ReadyText.of(
                change.kind(),
                change.to(),
                beforeTheShow || between.filter(b -> b.following().apart()).isPresent(),
                seconds,
                needed,
                several,
                verdict,
                earlier.isPresent()),
            List.of()));
  }

  private static Optional<String> because(
      Verdict verdict, Optional<BetweenNumbers> between, Optional<Gap> gap) {
    if (verdict != Verdict.UNKNOWN) {
      return Optional.empty();
    }
    if (between.isPresent()) {
      return Optional.of(between.get().following().says());
    }
    return Optional.of(
        gap.filter(Gap::waits).isPresent()
            ? gap.filter(Gap::held).isPresent()
                ? "a hold lasts as long as it is held"
                : "a vamp goes on till the cue"
            : "no tempo is known in the rest");
  }

  private static Verdict verdict(Optional<Gap> gap, double needed) {
    if (gap.isEmpty()) {
      return Verdict.NONE;
    }
    if (gap.get().least() + Figures.SAME >= needed) {
      return Verdict.TIME;
    }
    boolean some = gap.get().to() > gap.get().from();
    if (gap.get().waits() || (!gap.get().measured() && some)) {
      return Verdict.UNKNOWN;
    }
    return gap.get().least() > ReadyTimes.ANY ? Verdict.QUICK : Verdict.NONE;
  }

  private static Optional<String> earlier(Timeline line, double at, double needed) {
    for (int g = line.gaps().size() - 1; g >= 0; g--) {
      Gap gap = line.gaps().get(g);
      if (gap.to() < at && verdict(Optional.of(gap), needed) == Verdict.TIME) {
        return Optional.of(line.events().get(gap.firstStep()).piece().bar().id());
      }
    }
    return Optional.empty();
  }
}
