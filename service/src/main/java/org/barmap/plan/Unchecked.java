package org.barmap.plan;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Barline;
import org.barmap.map.Severity;
import org.barmap.map.rule.BookNumbers;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.mark.PencilMark;
import org.barmap.plan.page.CheckedPages;
import org.barmap.plan.page.HangsOn;
import org.barmap.plan.ready.GetReady;
import org.barmap.plan.rest.LongRest;
import org.barmap.plan.turn.Advice;
import org.barmap.plan.turn.Turn;

/**
 * Says of everything in a plan which bars it hangs on that nobody has looked at: read, or worked
 * out, however surely, until a person confirms them.
 */
final class Unchecked {
  private final BarMap map;
  private final Map<String, Bar> bars;
  private final Set<Integer> unread;
  private final Map<String, WrittenNumber> numberOf = new HashMap<>();
  private final Map<WrittenNumber, List<Bar>> doubtfulCounts = new IdentityHashMap<>();
  private final Map<WrittenNumber, Map<String, Integer>> placeOf = new IdentityHashMap<>();
  private final Map<String, Set<Integer>> missingIn = new HashMap<>();
  private final Set<String> torn = new HashSet<>();
  private final Set<String> silent = new HashSet<>();
  private List<NumberPlan.Entry> played = List.of();
  private final Map<String, Integer> places = new HashMap<>();

  private Unchecked(BarMap map) {
    this.map = map;
    this.bars = map.barsById();
    Set<Integer> withBars = map.bars().stream().map(Bar::page).collect(Collectors.toSet());
    this.unread =
        map.findings().stream()
            .filter(f -> f.severity() == Severity.ERROR && f.bar().isEmpty())
            .flatMap(f -> f.page().stream())
            .filter(p -> !withBars.contains(p))
            .collect(Collectors.toCollection(TreeSet::new));
  }

  /**
   * Looks at a book.
   *
   * @param gone pages behind which pages of the book were not photographed
   */
  static Unchecked in(BarMap map, List<WrittenNumber> written, Set<Integer> gone) {
    Unchecked made = new Unchecked(map);
    for (WrittenNumber number : written) {
      List<Bar> counts = new ArrayList<>();
      Map<String, Integer> at = new HashMap<>();
      for (Bar bar : number.bars()) {
        made.numberOf.putIfAbsent(bar.id(), number);
        at.put(bar.id(), at.size());
        if (bar.count() > 1 && !HangsOn.lookedAt(bar)) {
          counts.add(bar);
        }
      }
      made.doubtfulCounts.put(number, counts);
      made.placeOf.put(number, at);
      made.missing(number);
      made.gone(number, gone);
    }
    return made;
  }

  /** Bars on both sides of pages that are missing: nobody knows what stands between. */
  private void gone(WrittenNumber number, Set<Integer> after) {
    if (!number.bars().isEmpty()) {
      int from = number.bars().get(0).page();
      int to = number.bars().get(number.bars().size() - 1).page();
      if (after.stream().anyMatch(p -> p >= from && p < to)) {
        torn.add(number.label());
      }
    }
  }

  /** A page that couldn't be read lies in a number that begins before it and isn't over. */
  private void missing(WrittenNumber number) {
    if (number.bars().isEmpty()) {
      return;
    }
    int from = number.bars().get(0).page();
    Bar last = number.bars().get(number.bars().size() - 1);
    boolean over = last.endBarline() == Barline.FINAL;
    Set<Integer> inside = new TreeSet<>();
    int next = last.page() + 1;
    for (int page : unread) {
      boolean after = !over && page == next;
      next += after ? 1 : 0;
      if (page > from && (page < last.page() || after)) {
        inside.add(page);
      }
    }
    if (!inside.isEmpty()) {
      missingIn.put(number.label(), inside);
    }
  }

  /** Returns how much of the book a person has looked at. */
  CheckedPages pages() {
    Map<Integer, Boolean> all = new HashMap<>();
    unread.forEach(p -> all.put(p, false));
    map.bars().forEach(b -> all.merge(b.page(), HangsOn.lookedAt(b), Boolean::logicalAnd));
    int looked = (int) all.values().stream().filter(l -> l).count();
    return new CheckedPages(looked, all.size());
  }

  /** Returns what to say of pages that could not be read. */
  List<PlanFinding> findings() {
    List<PlanFinding> found = new ArrayList<>();
    for (int page : unread) {
      String numbers =
          missingIn.entrySet().stream()
              .filter(e -> e.getValue().contains(page))
              .map(e -> e.getKey().isEmpty() ? "the book" : BookNumbers.spoken(e.getKey()))
              .sorted()
              .collect(Collectors.joining(" and "));
      found.add(
          new PlanFinding(
              Severity.ERROR,
              Optional.empty(),
              "page-unread",
              "Page "
                  + page
                  + " could not be read: its bars are missing here."
                  + (numbers.isEmpty()
                      ? ""
                      : " How long "
                          + numbers
                          + " is, and what is counted and turned there, is not known."),
              Optional.empty(),
              List.of(),
              Optional.empty()));
    }
    return found;
  }

  /** Returns the numbers with what they hang on; call it first, the others go by their order. */
  List<NumberPlan> numbers(List<NumberPlan> numbers) {
    List<NumberPlan.Entry> entries = new ArrayList<>();
    List<NumberPlan> told = new ArrayList<>();
    for (NumberPlan number : numbers) {
      if (number.state() != NumberPlan.State.PLAYED) {
        silent.add(number.label());
      }
      Optional<HangsOn> hangs = Optional.empty();
      for (NumberPlan.Entry entry : number.order()) {
        places.putIfAbsent(key(number.label(), entry), entries.size());
        entries.add(entry);
        Bar bar = bars.get(entry.bar());
        if (bar != null && entry.inserted().isEmpty()) {
          hangs = with(hangs, bar);
        }
      }
      Set<Integer> missing = missingIn.getOrDefault(number.label(), Set.of());
      hangs.ifPresent(h -> missing.forEach(h::addMissing));
      told.add(
          number.withUnsure(
              missing.isEmpty() && !torn.contains(number.label())
                  ? number.played()
                  : number.played().unmeasured(),
              hangs.map(HangsOn::told).orElse(List.of())));
    }
    played = entries;
    return told;
  }

  private static Optional<HangsOn> with(Optional<HangsOn> hangs, Bar bar) {
    if (hangs.isEmpty()) {
      return Optional.of(new HangsOn(bar));
    }
    hangs.get().add(bar);
    return hangs;
  }

  private static String key(String number, NumberPlan.Entry entry) {
    return number + "\n" + entry.bar() + "\n" + entry.pass();
  }

  /** Returns the lines of the run sheet with what they hang on. */
  List<RunSheet> runSheet(List<RunSheet> lines, List<NumberPlan> told) {
    List<RunSheet> all = new ArrayList<>();
    for (int i = 0; i < lines.size(); i++) {
      RunSheet line = lines.get(i);
      boolean missing = missingIn.containsKey(line.number()) || torn.contains(line.number());
      all.add(line.withUnsure(missing ? Optional.empty() : line.seconds(), told.get(i).unsure()));
    }
    return all;
  }

  /** Returns rests with what they hang on: the bars they consist of. */
  List<LongRest> rests(List<LongRest> rests) {
    return rests.stream().map(this::rest).toList();
  }

  private LongRest rest(LongRest rest) {
    int pass = rest.passes().isEmpty() ? 1 : rest.passes().get(0);
    Integer from = places.get(rest.number() + "\n" + rest.first() + "\n" + pass);
    Bar first = bars.get(rest.first());
    if (from == null || first == null) {
      return rest;
    }
    HangsOn hangs = new HangsOn(first);
    addRests(hangs, from, 1);
    return rest.withUnsure(hangs.told());
  }

  /** Returns changes of instrument with what they hang on: the bar they are at, the rest before. */
  List<GetReady> ready(List<GetReady> changes) {
    return changes.stream().map(this::ready).toList();
  }

  private GetReady ready(GetReady change) {
    Integer at = places.get(change.number() + "\n" + change.at() + "\n" + change.pass());
    Bar bar = bars.get(change.at());
    if (at == null || bar == null) {
      return change;
    }
    HangsOn hangs = new HangsOn(bar);
    addRests(hangs, at - 1, -1);
    return change.withUnsure(hangs.told());
  }

  /** Adds the rests that follow one another from a place in the order of play on, or back. */
  private void addRests(HangsOn hangs, int from, int step) {
    for (int i = from; i >= 0 && i < played.size(); i += step) {
      Bar bar = bars.get(played.get(i).bar());
      if (bar == null || !bar.isRest()) {
        return;
      }
      hangs.add(bar);
    }
  }

  /** Returns turns with what they hang on: the bars at them, and the rest around them. */
  List<Turn> turns(List<Turn> turns) {
    return turns.stream().map(this::turn).toList();
  }

  private Turn turn(Turn turn) {
    Integer at = places.get(turn.number() + "\n" + turn.leaves() + "\n" + turn.pass());
    Bar leaves = bars.get(turn.leaves());
    Bar arrives = bars.get(turn.arrives());
    if (at == null || leaves == null || arrives == null) {
      return turn;
    }
    HangsOn hangs = new HangsOn(leaves);
    hangs.add(arrives);
    Advice chosen = turn.advice().get(0);
    around(hangs, at, -1, chosen);
    around(hangs, at + 1, 1, chosen);
    for (int page : unread) {
      if (page > Math.min(turn.fromPage(), turn.toPage())
          && page < Math.max(turn.fromPage(), turn.toPage())) {
        hangs.addMissing(page);
      }
    }
    return turn.withUnsure(hangs.told());
  }

  /** Adds what is played from memory on one side of a turn, and the rest behind it. */
  private void around(HangsOn hangs, int from, int step, Advice chosen) {
    String until = (step < 0 ? chosen.first() : chosen.last()).orElse("");
    boolean way =
        switch (chosen.kind()) {
          case TURN_EARLY, WRITE_OUT_BEFORE -> step < 0;
          case TURN_LATE, WRITE_OUT, FOLD_OUT -> step > 0;
          default -> false;
        };
    for (int i = from; i >= 0 && i < played.size(); i += step) {
      Bar bar = bars.get(played.get(i).bar());
      if (bar == null || !(way || bar.isRest() || i == from)) {
        return;
      }
      hangs.add(bar);
      if (bar.id().equals(until)) {
        way = false;
      } else if (!way && !bar.isRest()) {
        return;
      }
    }
  }

  /**
   * Returns marks with what they hang on. Where a change is written follows from the counts before
   * it; a mark of a turn hangs on what the turn hangs on.
   */
  List<PencilMark> marks(List<PencilMark> marks, List<Turn> turns) {
    Map<String, List<String>> atTurns = new LinkedHashMap<>();
    for (Turn turn : turns) {
      Turn told = turn(turn);
      told.advice().get(0).after().ifPresent(a -> atTurns.putIfAbsent(a, told.unsure()));
      atTurns.putIfAbsent(told.leaves(), told.unsure());
    }
    return marks.stream().map(m -> mark(m, atTurns)).toList();
  }

  private PencilMark mark(PencilMark mark, Map<String, List<String>> atTurns) {
    Bar bar = bars.get(mark.bar());
    if (bar == null) {
      return mark;
    }
    if (silent.contains(mark.number())) {
      return mark; // it stands at the number's heading, whatever its bars are
    }
    if (mark.change().isEmpty()) {
      return mark.withUnsure(atTurns.getOrDefault(mark.bar(), new HangsOn(bar).told()));
    }
    HangsOn hangs = new HangsOn(bar);
    WrittenNumber number = numberOf.get(bar.id());
    if (number != null) {
      Map<String, Integer> at = placeOf.getOrDefault(number, Map.of());
      for (Bar count : doubtfulCounts.getOrDefault(number, List.of())) {
        if (at.getOrDefault(count.id(), 0) >= at.getOrDefault(bar.id(), 0)) {
          break;
        }
        hangs.add(count);
      }
    }
    return mark.withUnsure(hangs.told());
  }
}
