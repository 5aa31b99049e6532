package org.barmap.plan.mark;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.say.Saying;
import org.barmap.plan.turn.Advice;
import org.barmap.plan.turn.Turn;
import org.barmap.plan.turn.TurnMark;

/**
 * Marks for page turns: what {@link TurnMark} decides at the end of a page, and where to turn when
 * that is not there.
 */
public final class TurnMarks {
  private static final Optional<TurnMark> HURRY = Optional.of(TurnMark.VS);

  private final Map<String, WrittenNumber> numberOf = new HashMap<>();
  private final Map<String, Integer> slotOf = new HashMap<>();
  private final Map<String, Bar> barOf = new HashMap<>();

  /** Indexes the bars of a show. */
  public TurnMarks(List<WrittenNumber> numbers) {
    for (WrittenNumber number : numbers) {
      for (int i = 0; i < number.bars().size(); i++) {
        Bar bar = number.bars().get(i);
        numberOf.put(bar.id(), number);
        slotOf.put(bar.id(), number.starts()[i]);
        barOf.put(bar.id(), bar);
      }
    }
  }

  /**
   * Adds a mark for each turn that needs one. All passes of a turn share it where they are alike;
   * else it says which time it is for.
   */
  public void mark(List<Turn> turns, Pencil pencil) {
    Map<String, List<Turn>> passes = new LinkedHashMap<>();
    for (Turn turn : turns) {
      passes
          .computeIfAbsent(turn.leaves() + ">" + turn.arrives(), k -> new ArrayList<>(1))
          .add(turn);
    }
    passes.values().forEach(same -> passes(same, pencil));
  }

  private void passes(List<Turn> turns, Pencil pencil) {
    List<Turn> hurried = turns.stream().filter(t -> t.mark().equals(HURRY)).toList();
    boolean plain =
        turns.stream()
            .allMatch(
                t -> t.advice().get(0).kind() == Advice.Kind.TURN_HERE || hurried.contains(t));
    if (plain && !hurried.isEmpty() && hurried.size() < turns.size()) {
      around(turns.get(0), pencil);
      String when = String.join(", ", hurried.stream().map(t -> nth(t.pass())).toList());
      add(
          pencil,
          turns.get(0).leaves(),
          true,
          TurnMark.VS.word(),
          TurnMark.VS.word() + " " + when + " time");
      return;
    }
    Map<String, List<Turn>> ways = new LinkedHashMap<>();
    turns.forEach(t -> ways.computeIfAbsent(way(t), k -> new ArrayList<>(1)).add(t));
    if (ways.size() == 1) {
      one(turns.stream().max(Comparator.comparing(Turn::verdict)).orElseThrow(), "", pencil);
      return;
    }
    for (List<Turn> same : ways.values()) {
      String when = String.join(", ", same.stream().map(t -> nth(t.pass())).toList());
      one(same.get(0), " " + when + " time", pencil);
    }
  }

  /** What is done at a turn; passes that do the same share a mark. */
  private static String way(Turn turn) {
    Advice chosen = turn.advice().get(0);
    return chosen.kind()
        + "/"
        + chosen.after().orElse("")
        + "/"
        + chosen.memorise().or(chosen::bars).orElse(0);
  }

  private static String nth(int pass) {
    return switch (pass) {
      case 1 -> "1st";
      case 2 -> "2nd";
      case 3 -> "3rd";
      default -> pass + "th";
    };
  }

  private void around(Turn turn, Pencil pencil) {
    if (turn.sheets() > 1) {
      add(
          pencil,
          turn.leaves(),
          true,
          "turn-leaves",
          turn.sheets() + " leaves, to page " + turn.toPage());
    }
    if (turn.direction() == Turn.Direction.BACK) {
      add(pencil, turn.leaves(), true, "turn-back", "back to page " + turn.toPage());
    }
  }

  /** Adds the mark of one way to turn; {@code when} says for which passes it is, if not for all. */
  private void one(Turn turn, String when, Pencil pencil) {
    Advice chosen = turn.advice().get(0);
    if (chosen.kind() != Advice.Kind.STAY) {
      around(turn, pencil);
    }
    String id = chosen.after().orElse(turn.leaves());
    switch (chosen.kind()) {
      case TURN_EARLY, WRITE_OUT_BEFORE -> {
        String what =
            chosen
                .memorise()
                .map(n -> "TURN, " + Saying.many(n, "bar") + " by heart")
                .orElse("TURN, play from slip");
        add(pencil, id, true, "turn-early", what + when);
      }
      case TURN_LATE ->
          add(
              pencil,
              turn.leaves(),
              true,
              "turn-late",
              "LATE, " + Saying.many(chosen.memorise().orElse(1), "bar") + " by heart" + when);
      case WRITE_OUT ->
          add(
              pencil,
              turn.leaves(),
              true,
              "turn-late",
              "see slip, turn after " + Saying.many(chosen.bars().orElse(1), "bar") + when);
      case FOLD_OUT -> add(pencil, turn.leaves(), true, "fold-out", "fold-out" + when);
      case LOOSE_COPY ->
          add(
              pencil,
              turn.leaves(),
              true,
              "loose-copy",
              "see copy of page " + turn.toPage() + when);
      case STAY -> {
        // The turn back of the same stay needs no mark: the page is not left.
        if (id.equals(turn.leaves())) {
          String how =
              chosen
                  .memorise()
                  .map(n -> Saying.many(n, "bar") + " by heart")
                  .orElse("rests overleaf");
          add(pencil, id, true, "stay", "STAY, " + how + when);
        }
      }
      case TURN_HERE, LEAVE_OUT ->
          turn.mark()
              .filter(m -> when.isEmpty() || m == TurnMark.VS)
              .ifPresent(m -> add(pencil, turn.leaves(), true, m.word(), m.word() + when));
    }
  }

  private void add(Pencil pencil, String id, boolean atEnd, String mark, String sign) {
    WrittenNumber number = numberOf.get(id);
    Bar bar = barOf.get(id);
    Integer slot = slotOf.get(id);
    if (number != null && bar != null && slot != null) {
      pencil.add(number, atEnd ? slot + bar.count() - 1 : slot, bar, mark, sign, Optional.empty());
    }
  }
}
