package org.barmap.exchange;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.barmap.exchange.musicxml.write.NotSaid;
import org.barmap.map.Bar;
import org.barmap.map.BarBuilder;
import org.barmap.map.BarMap;
import org.barmap.map.Barline;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Navigation;
import org.barmap.plan.NumberPlan;
import org.barmap.plan.Plan;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.order.OpenStretch;

/**
 * The printed book written so that a program which goes by signs alone plays it in the order of the
 * plan. An ending for several passes says how often its stretch is played, a vamp has no repeat
 * signs, "3X" has them. A number that has more than such a program knows, a repeat inside a repeat
 * or a form that is asked about, is written out as it is played. Words and bar numbers stay.
 */
public final class PlayableMap {
  private final BarMap map;
  private final Map<String, Integer> places = new HashMap<>();
  private final Set<String> asked;

  private PlayableMap(BarMap map, Plan plan) {
    this.map = map;
    for (int i = 0; i < map.bars().size(); i++) {
      places.put(map.bars().get(i).id(), i);
    }
    asked =
        plan.findings().stream()
            .filter(NotSaid::hangsOnTheOrder)
            .map(PlanFinding::at)
            .flatMap(Optional::stream)
            .collect(Collectors.toSet());
  }

  /**
   * Returns such a map.
   *
   * @param alone every number is played from a file of its own, so that a D.C. may stay one
   */
  public static BarMap of(BarMap map, boolean alone) {
    Plan plan = Planner.plan(map, ShowChanges.none(), PlanSettings.USUAL);
    if (map.numbers().isEmpty()) {
      return whole(map, plan);
    }
    PlayableMap playable = new PlayableMap(map, plan);
    // by their places: several may be called the same, or have no label
    List<List<Bar>> played = PlayedMap.each(map, plan);
    List<Bar> bars = new ArrayList<>();
    List<MusicalNumber> numbers = new ArrayList<>();
    for (int i = 0; i < map.numbers().size(); i++) {
      MusicalNumber number = map.numbers().get(i);
      List<Bar> written = map.barsOf(number);
      boolean jumpsBack = !alone && !bars.isEmpty() && has(written, Navigation.DA_CAPO);
      Optional<List<Bar>> adapted =
          jumpsBack ? Optional.empty() : playable.adapted(written, plan.numbers().get(i));
      List<Bar> its = adapted.orElse(played.get(i));
      numbers.add(
          its.isEmpty()
              ? number.withBars(Optional.empty(), Optional.empty())
              : number.withBars(
                  Optional.of(its.get(0).id()), Optional.of(its.get(its.size() - 1).id())));
      bars.addAll(its);
    }
    return BarMap.of(map.book(), List.of(), numbers, bars);
  }

  private static BarMap whole(BarMap map, Plan plan) {
    return new PlayableMap(map, plan)
        .adapted(map.bars(), plan.numbers().get(0))
        .map(bars -> BarMap.of(map.book(), List.of(), List.of(), bars))
        .orElseGet(() -> PlayedMap.of(map, plan));
  }

  private static boolean jumps(List<Bar> bars) {
    return has(bars, Navigation.DA_CAPO) || has(bars, Navigation.DAL_SEGNO);
  }

  private static boolean ofAThirdTime(Bar bar) {
    return bar.ending().stream().anyMatch(n -> n > 2);
  }

  /** Tells whether an ending is never played, behind which programs lose their place. */
  private static boolean passedOver(List<Bar> bars, NumberPlan plan) {
    Set<String> played =
        plan.order().stream().map(NumberPlan.Entry::bar).collect(Collectors.toSet());
    return bars.stream().anyMatch(b -> !b.ending().isEmpty() && !played.contains(b.id()));
  }

  private static boolean has(List<Bar> bars, Navigation sign) {
    return bars.stream().anyMatch(b -> b.has(sign));
  }

  /** Returns the bars with signs that lead to the same order; empty where signs can't. */
  private Optional<List<Bar>> adapted(List<Bar> written, NumberPlan plan) {
    if (written.stream().anyMatch(b -> asked.contains(b.id()) || NotSaid.ofRepeatsAfterAJump(b))) {
      return Optional.empty();
    }
    if (passedOver(written, plan)
        || (jumps(written) && written.stream().anyMatch(PlayableMap::ofAThirdTime))) {
      return Optional.empty();
    }
    List<Bar> bars = new ArrayList<>(written);
    for (OpenStretch open : plan.open()) {
      if (!withoutSigns(bars, open)) {
        return Optional.empty();
      }
    }
    if (!withTimes(bars) || nested(bars)) {
      return Optional.empty();
    }
    return severalTimes(bars) ? Optional.of(bars) : Optional.empty();
  }

  /** Takes the repeat signs of a vamp away, which is played once; false where they do more. */
  private boolean withoutSigns(List<Bar> bars, OpenStretch open) {
    int start = places.getOrDefault(bars.get(0).id(), 0);
    int first = places.getOrDefault(open.first(), -1) - start;
    int last = places.getOrDefault(open.last(), -1) - start;
    if (first < 0 || last < first || last >= bars.size()) {
      return false;
    }
    for (int i = first; i <= last; i++) {
      Bar bar = bars.get(i);
      boolean inside = i > first && bar.startBarline().startsRepeat();
      boolean closes = i < last && bar.endBarline() != Barline.SINGLE && repeats(bar.endBarline());
      if (inside || closes || !bar.ending().isEmpty()) {
        return false;
      }
    }
    boolean begins = begins(bars, first);
    boolean ends = bars.get(last).endBarline().endsRepeat();
    if (begins != ends) {
      return !begins && !ends;
    }
    if (ends) {
      bars.set(first, bars.get(first).toBuilder().startBarline(Barline.NONE).build());
      if (first > 0) {
        bars.set(
            first - 1,
            bars.get(first - 1).toBuilder()
                .endBarline(closing(bars.get(first - 1).endBarline()))
                .build());
      }
      Bar end = bars.get(last);
      boolean opens = end.endBarline() == Barline.REPEAT_BOTH;
      bars.set(
          last,
          end.toBuilder()
              .endBarline(opens ? Barline.REPEAT_START : Barline.SINGLE)
              .times(Optional.empty())
              .build());
      drawnAgain(bars, last + 1);
    }
    return true;
  }

  /** The barline at the end of a bar is the one at the beginning of the next, drawn twice. */
  private static void drawnAgain(List<Bar> bars, int at) {
    if (at < bars.size()) {
      Barline line = bars.get(at - 1).endBarline();
      bars.set(
          at,
          bars.get(at).toBuilder()
              .startBarline(line.startsRepeat() ? Barline.REPEAT_START : Barline.NONE)
              .build());
    }
  }

  private static boolean repeats(Barline line) {
    return line.endsRepeat() || line.startsRepeat();
  }

  /** Returns a barline without the sign that begins a repeat. */
  private static Barline closing(Barline line) {
    return line == Barline.REPEAT_BOTH
        ? Barline.REPEAT_END
        : line == Barline.REPEAT_START ? Barline.SINGLE : line;
  }

  /** Puts repeat signs round bars that are played several times by words; false inside a repeat. */
  private static boolean withTimes(List<Bar> bars) {
    boolean inside = false;
    boolean jumps = jumps(bars);
    for (int i = 0; i < bars.size(); i++) {
      Bar bar = bars.get(i);
      inside |= begins(bars, i);
      boolean ends = bar.endBarline().endsRepeat();
      if (bar.times().isPresent() && !ends) {
        // a repeat that nothing begins would go back to this one
        if (inside || jumps || !bar.ending().isEmpty() || openRepeatAfter(bars, i)) {
          return false;
        }
        BarBuilder built = bar.toBuilder().startBarline(Barline.REPEAT_START);
        built.endBarline(
            bar.endBarline() == Barline.REPEAT_START ? Barline.REPEAT_BOTH : Barline.REPEAT_END);
        bars.set(i, built.build());
        drawnAgain(bars, i + 1);
      }
      inside &= !ends;
    }
    return true;
  }

  private static boolean openRepeatAfter(List<Bar> bars, int from) {
    for (int i = from + 1; i < bars.size() && !begins(bars, i); i++) {
      if (bars.get(i).endBarline().endsRepeat()) {
        return true;
      }
    }
    return false;
  }

  /** A repeat may be drawn at the end of one bar and again at the beginning of the next. */
  private static boolean nested(List<Bar> bars) {
    boolean inside = false;
    for (int i = 0; i < bars.size(); i++) {
      if (begins(bars, i) && inside) {
        return true;
      }
      inside = (inside || begins(bars, i)) && !bars.get(i).endBarline().endsRepeat();
    }
    return false;
  }

  private static boolean begins(List<Bar> bars, int i) {
    return bars.get(i).startBarline().startsRepeat()
        || (i > 0 && bars.get(i - 1).endBarline().startsRepeat());
  }

  /**
   * Says at the repeats of more than two endings how often their stretch is gone through in all.
   * The standard wants {@code times} at repeats without endings only; programs that play count two
   * passes where it is missing. False where the last ending goes back too: some go on to the body
   * once more after it.
   */
  private static boolean severalTimes(List<Bar> bars) {
    for (int i = 0; i < bars.size(); i++) {
      int end = i;
      int most = 0;
      while (end < bars.size()
          && !bars.get(end).ending().isEmpty()
          && Collections.max(bars.get(end).ending()) >= most) {
        most = Collections.max(bars.get(end).ending());
        end++;
      }
      if (most >= 2 && bars.get(end - 1).endBarline().endsRepeat()) {
        return false;
      }
      for (int k = i; k < end && most > 2; k++) {
        if (bars.get(k).endBarline().endsRepeat()) {
          bars.set(k, bars.get(k).toBuilder().times(Optional.of(most)).build());
        }
      }
      i = Math.max(i, end - 1);
    }
    return true;
  }
}
