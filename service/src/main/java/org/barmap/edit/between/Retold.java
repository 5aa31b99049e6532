package org.barmap.edit.between;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.draft.Recount;
import org.barmap.edit.draft.Settled;
import org.barmap.edit.draft.Steps;
import org.barmap.edit.kind.BarCorrection;
import org.barmap.edit.kind.Correction;
import org.barmap.edit.kind.NumberCorrection;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.MusicalNumber;

/** Makes one map like another of the same bars by corrections, and tells which. */
final class Retold {

  /** More bars than these are not given numbers one by one. */
  private static final int MOST_NUMBERS = 200;

  private final BarMap wanted;
  private final Draft start;
  private final List<MapChange> told = new ArrayList<>();
  private Draft draft;
  private Map<String, Bar> bars;

  /**
   * Begins.
   *
   * @param now with the bars and pages of the other map
   */
  Retold(BarMap now, BarMap wanted) {
    this.wanted = wanted;
    start = new Draft(now, Settled.NOTHING, List.of());
    draft = start;
    bars = now.barsById();
  }

  /** Makes all corrections there are, and returns what it has come to. */
  BarMap tell() {
    tacet();
    starts();
    wanted.bars().forEach(this::alike);
    draft = Recount.numbered(start, draft);
    bars = draft.map().barsById();
    numbers();
    return draft.map();
  }

  /** Returns what was told, in the order in which it is to be made. */
  List<MapChange> told() {
    return told;
  }

  private boolean make(Correction correction, Optional<Bar> at) {
    if (!correction.validate(draft).isEmpty()) {
      return false;
    }
    told.add(MapChange.said(correction.says(draft), at, correction));
    draft = correction.applyTo(draft);
    bars = draft.map().barsById();
    return true;
  }

  private void alike(Bar bar) {
    for (BarWishes.Wish wish : BarWishes.ALL) {
      Bar now = bars.getOrDefault(bar.id(), bar);
      if (now != bar) {
        wish.apply(now, bar).forEach(c -> make(c, Optional.of(bar)));
      }
    }
  }

  /** Numbers without music of this part come and go before those with it. */
  private void tacet() {
    Set<String> old = tacetOf(draft.map());
    Set<String> now = tacetOf(wanted);
    old.stream()
        .filter(label -> !now.contains(label))
        .forEach(
            label -> make(new NumberCorrection.RemoveNumber("", label), Optional.<Bar>empty()));
  }

  private static Set<String> tacetOf(BarMap map) {
    Set<String> labels = new HashSet<>();
    map.numbers().stream().filter(n -> n.firstBar().isEmpty()).forEach(n -> labels.add(n.label()));
    return labels;
  }

  private void starts() {
    Map<String, MusicalNumber> now = byStart(wanted);
    byStart(draft.map())
        .keySet()
        .forEach(
            bar -> {
              if (!now.containsKey(bar)) {
                make(
                    new NumberCorrection.RemoveNumber(bar, ""), Optional.ofNullable(bars.get(bar)));
              }
            });
    Map<String, MusicalNumber> old = byStart(draft.map());
    now.forEach(
        (bar, n) -> {
          MusicalNumber was = old.get(bar);
          if (was == null || !was.label().equals(n.label()) || !was.title().equals(n.title())) {
            make(
                new NumberCorrection.StartNumber(bar, n.label(), n.title()),
                Optional.ofNullable(bars.get(bar)));
          }
        });
    Set<String> there = tacetOf(draft.map());
    String before = "end";
    for (int i = wanted.numbers().size() - 1; i >= 0; i--) {
      MusicalNumber n = wanted.numbers().get(i);
      if (n.firstBar().isPresent()) {
        before = n.firstBar().get();
      } else if (!there.contains(n.label())) {
        make(new NumberCorrection.AddTacetNumber(before, n.label(), n.title()), Optional.empty());
      }
    }
  }

  private static Map<String, MusicalNumber> byStart(BarMap map) {
    Map<String, MusicalNumber> starts = new LinkedHashMap<>();
    map.numbers().forEach(n -> n.firstBar().ifPresent(b -> starts.put(b, n)));
    return starts;
  }

  /** Says the number of the first bar that is numbered otherwise, until none is. */
  private void numbers() {
    int said = 0;
    for (Bar bar : wanted.bars()) {
      Bar now = bars.getOrDefault(bar.id(), bar);
      if (now.number() == bar.number() || said == MOST_NUMBERS) {
        continue;
      }
      Steps steps = Steps.of(draft);
      if (make(new BarCorrection.SetNumber(bar.id(), bar.number()), Optional.of(bar))) {
        draft = Recount.numbered(steps, draft, Set.of());
        bars = draft.map().barsById();
        said++;
      }
    }
  }
}
