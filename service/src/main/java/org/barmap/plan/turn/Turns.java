package org.barmap.plan.turn;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Word;
import org.barmap.plan.order.Following;
import org.barmap.plan.order.Performance;
import org.barmap.plan.order.Timeline;
import org.barmap.plan.pace.Gap;
import org.barmap.plan.pace.Length;
import org.barmap.plan.page.FirstPage;
import org.barmap.plan.page.Sides;

/** Finds every page turn of a show, in every pass, and what to do there. */
public final class Turns {
  private static final int MOST_ADVICE = 5;
  private static final int NEXT_ENTRIES = 3;

  private final TurnSettings settings;
  private final Sides sides;
  private final Judge judge;
  private final List<Turn> turns = new ArrayList<>();

  private Turns(TurnSettings settings, Sides sides) {
    this.settings = settings;
    this.sides = sides;
    this.judge = new Judge(settings);
  }

  /**
   * Returns the turns in the order they come.
   *
   * @param show numbers in the order of the night; those without steps (tacet, cut) are passed over
   * @param sides how the pages lie
   */
  public static List<Turn> of(List<Performance> show, TurnSettings settings, Sides sides) {
    Turns turns = new Turns(settings, sides);
    List<Performance> played = show.stream().filter(p -> !p.order().steps().isEmpty()).toList();
    Timeline before = null;
    Following following = Following.UNKNOWN;
    int i = 0;
    while (i < played.size()) {
      int to = i;
      while (to + 1 < played.size() && played.get(to).following().joined()) {
        to++;
      }
      Timeline line = new Timeline(played.subList(i, to + 1), sides::turned);
      if (before != null) {
        turns.between(before, line, following);
      }
      turns.within(line);
      before = line;
      following = played.get(to).following();
      i = to + 1;
    }
    return List.copyOf(turns.turns);
  }

  private void within(Timeline line) {
    List<Integer> places = new ArrayList<>();
    for (int i = 1; i < line.events().size(); i++) {
      if (sides.turned(line.events().get(i - 1).page(), line.events().get(i).page())) {
        places.add(i);
      }
    }
    if (places.isEmpty()) {
      return;
    }
    Candidates finder = new Candidates(line, judge, settings, sides);
    List<Double> loads = places.stream().map(p -> Judge.load(sheets(line, p))).toList();
    List<OwnGaps> own = OwnGaps.of(line, places, loads);
    List<List<Candidate>> candidates = new ArrayList<>();
    for (int t = 0; t < places.size(); t++) {
      candidates.add(finder.of(places.get(t), loads.get(t), own.get(t).gap()));
    }
    List<Integer> chosen = new Chooser(line.gaps(), judge).choose(candidates);
    List<List<Advice>> ways = new ArrayList<>();
    for (int t = 0; t < places.size(); t++) {
      ways.add(ways(candidates.get(t), candidates.get(t).get(chosen.get(t)).advice()));
    }
    new Stays(line, settings).offer(places, ways);
    AgainTurns again = new AgainTurns(turns.size());
    for (int t = 0; t < places.size(); t++) {
      again.add(turn(line, places.get(t), own.get(t), ways.get(t)), line, places.get(t), turns);
    }
  }

  /** The chosen way, then the others by cost. */
  private static List<Advice> ways(List<Candidate> candidates, Advice chosen) {
    List<Advice> ways = new ArrayList<>();
    ways.add(chosen.chosen(true));
    candidates.stream()
        .map(Candidate::advice)
        .filter(a -> a != chosen)
        .sorted(Comparator.comparingDouble(Advice::cost))
        .limit(MOST_ADVICE - 1L)
        .forEach(ways::add);
    return ways;
  }

  private int sheets(Timeline line, int place) {
    return sides.leaves(line.events().get(place - 1).page(), line.events().get(place).page());
  }

  private Turn turn(Timeline line, int place, OwnGaps own, List<Advice> advice) {
    double at = line.start(place);
    Optional<Gap> gap = own.gap();
    double load = own.load(Judge.load(sheets(line, place)));
    Verdict verdict = gap.map(g -> judge.verdict(g, load)).orElse(Verdict.NONE);
    Timeline.Event last = line.events().get(place - 1);
    Timeline.Event first = line.events().get(place);
    Silence silence =
        new Silence(
            gap.map(Gap::length).orElse(Length.none()),
            gap.map(g -> before(line, g, own.shared(), place)).orElse(Length.none()),
            gap.map(g -> after(line, g, own.shared(), place)).orElse(Length.none()));
    return turn(
        new Over(last, first, sheets(line, place)),
        silence,
        verdict,
        gap.flatMap(g -> Judge.because(g, verdict)),
        TurnMark.within(verdict, advice.get(0).kind(), gap, printed(last)),
        advice,
        next(line, place),
        AgainTurns.says(line, place));
  }

  /** What is played last before a turn and first after it, and how many leaves are turned. */
  private record Over(Timeline.Event last, Timeline.Event first, int sheets) {}

  /** How long nothing is played around a turn: in all, on the page left, on the page come to. */
  private record Silence(Length all, Length out, Length in) {}

  private Turn turn(
      Over over,
      Silence silence,
      Verdict verdict,
      Optional<String> because,
      Optional<TurnMark> mark,
      List<Advice> advice,
      List<String> next,
      Optional<String> again) {
    Timeline.Event last = over.last();
    Timeline.Event first = over.first();
    boolean back = first.page() < last.page();
    boolean bound = settings.firstPage().filter(FirstPage.SINGLE_SHEETS::equals).isEmpty();
    return new Turn(
        last.page(),
        first.page(),
        last.piece().bar().id(),
        first.piece().bar().id(),
        last.step().pass(),
        back ? Turn.Direction.BACK : Turn.Direction.FORWARD,
        over.sheets(),
        last.number(),
        last.number().equals(first.number()) ? Optional.empty() : Optional.of(first.number()),
        silence.all().rounded(),
        silence.out().rounded(),
        silence.in().rounded(),
        verdict,
        because,
        mark,
        back && bound ? advice.stream().map(Advice::back).toList() : advice,
        List.of(),
        next,
        List.of(),
        again);
  }

  private static Length before(Timeline line, Gap gap, boolean shared, int place) {
    double at = Math.max(gap.from(), Math.min(gap.to(), line.start(place)));
    return shared ? line.portion(gap, gap.from(), at).length() : line.partOf(gap, place, true);
  }

  private static Length after(Timeline line, Gap gap, boolean shared, int place) {
    double at = Math.max(gap.from(), Math.min(gap.to(), line.start(place)));
    return shared ? line.portion(gap, at, gap.to()).length() : line.partOf(gap, place, false);
  }

  private static List<Word> printed(Timeline.Event last) {
    return last.piece().bar().words();
  }

  private static List<String> next(Timeline line, int place) {
    List<String> ids = new ArrayList<>();
    int page = line.events().get(place).page();
    for (int i = place; i < line.events().size() && ids.size() < NEXT_ENTRIES; i++) {
      Timeline.Event event = line.events().get(i);
      if (event.page() != page) {
        break;
      }
      String id = event.piece().bar().id();
      if (!ids.contains(id)) {
        ids.add(id);
      }
    }
    return ids;
  }

  /** A turn from the end of one number to the start of the next, which does not follow at once. */
  private void between(Timeline before, Timeline after, Following following) {
    Timeline.Event last = before.events().get(before.events().size() - 1);
    Timeline.Event first = after.events().get(0);
    int sheets = sides.leaves(last.page(), first.page());
    if (sheets == 0) {
      return;
    }
    BetweenNumbers time = BetweenNumbers.of(before, after, following);
    double load = Judge.load(sheets);
    Verdict verdict = time.verdict(settings.turnSeconds() * load, settings.quickSeconds() * load);
    Advice advice = AdviceText.between(before, time, verdict);
    turns.add(
        turn(
            new Over(last, first, sheets),
            new Silence(time.length(), time.out(), time.in()),
            verdict,
            time.unknown(verdict),
            TurnMark.between(verdict, time.following(), printed(last)),
            List.of(advice),
            next(after, 0),
            Optional.empty()));
  }
}
