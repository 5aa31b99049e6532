package org.barmap.plan.mark;

import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.turn.Advice;
import org.barmap.plan.turn.Turn;
import org.barmap.plan.turn.Verdict;

/**
 * Marks for page turns: V.S. where there is hardly time, Time where the rest stands on the next
 * page and can't be seen, and where to turn when that is not the end of the page.
 */
public final class TurnMarks {
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

  /** Adds a mark for each turn that needs one; all passes of a turn share it. */
  public void mark(List<Turn> turns, Pencil pencil) {
    Map<String, Turn> worst = new LinkedHashMap<>();
    for (Turn turn : turns) {
      worst.merge(
          turn.leaves() + ">" + turn.arrives(),
          turn,
          (a, b) -> a.verdict().compareTo(b.verdict()) >= 0 ? a : b);
    }
    for (Turn turn : worst.values()) {
      one(turn, pencil);
    }
  }

  private void one(Turn turn, Pencil pencil) {
    Advice chosen = turn.advice().get(0);
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
    String id = chosen.after().orElse(turn.leaves());
    switch (chosen.kind()) {
      case TURN_EARLY, WRITE_OUT_BEFORE -> {
        String what =
            chosen
                .memorise()
                .map(n -> "TURN, " + bars(n) + " by heart")
                .orElse("TURN, play from slip");
        add(pencil, id, true, "turn-early", what);
      }
      case TURN_LATE ->
          add(
              pencil,
              turn.leaves(),
              true,
              "turn-late",
              "LATE, " + bars(chosen.memorise().orElse(1)) + " by heart");
      case WRITE_OUT ->
          add(
              pencil,
              turn.leaves(),
              true,
              "turn-late",
              "see slip, turn after " + bars(chosen.bars().orElse(1)));
      case FOLD_OUT -> add(pencil, turn.leaves(), true, "fold-out", "fold-out");
      case TURN_HERE, LEAVE_OUT -> here(turn, pencil);
    }
  }

  private void here(Turn turn, Pencil pencil) {
    if (turn.mark().filter("V.S."::equals).isPresent()) {
      add(pencil, turn.leaves(), true, "vs", "V.S.");
    } else if (turn.verdict() == Verdict.TIME && turn.nextNumber().isEmpty() && hidden(turn)) {
      add(pencil, turn.leaves(), true, "time", "Time");
    }
  }

  /** The rest can't be seen from this page when most of it stands on the next one. */
  private static boolean hidden(Turn turn) {
    Optional<Double> before = turn.before().beats();
    Optional<Double> after = turn.after().beats();
    return before.isPresent() && after.isPresent()
        ? after.get() > before.get()
        : turn.after().bars() > turn.before().bars();
  }

  private static String bars(int n) {
    return n == 1 ? "1 bar" : n + " bars";
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
