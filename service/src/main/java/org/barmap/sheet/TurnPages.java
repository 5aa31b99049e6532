package org.barmap.sheet;

import java.io.IOException;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.barmap.plan.Plan;
import org.barmap.plan.turn.Advice;
import org.barmap.plan.turn.Turn;
import org.barmap.plan.turn.Verdict;

/** Turn slips: one for each page turn, in the order they come. */
final class TurnPages {
  /** A piece of a page is no higher than this, in points. */
  private static final float MOST_HEIGHT = 90;

  private static final String CAUTION =
      "A line printed from a hired book is a copy, also for your own turn: the hire agreement"
          + " decides.";

  private TurnPages() {}

  static void write(Flow flow, Plan plan, Names names, Pieces pieces) throws IOException {
    flow.line(
        "Reckoned with "
            + plan.settings().turns().turnSeconds()
            + " s for a turn and "
            + Says.bars(plan.settings().turns().memoryBars())
            + " trusted to memory. Which hand is free is yours to decide.");
    for (Turn turn : plan.turns()) {
      turn(flow, turn, names, pieces);
    }
    if (plan.turns().isEmpty()) {
      flow.line("There is no page to turn.");
    }
  }

  private static void turn(Flow flow, Turn turn, Names names, Pieces pieces) throws IOException {
    Optional<byte[]> piece = names.entry(turn.arrives()).flatMap(pieces::of);
    flow.keep(
        5 + 2 * turn.advice().size() + (piece.isPresent() ? 2 : 0),
        piece.isPresent() ? MOST_HEIGHT : 0);
    where(flow, turn, names);
    boolean easy =
        turn.verdict() == Verdict.TIME && turn.advice().get(0).kind() == Advice.Kind.TURN_HERE;
    // The caution of what copies notes stands at the foot of the page already.
    for (Advice advice : easy ? turn.advice().subList(0, 1) : turn.advice()) {
      flow.text(
          (advice.chosen() ? "" : "Or: ") + advice.says(),
          13,
          advice.chosen(),
          advice.chosen() ? 0 : 18);
    }
    if (piece.isPresent()) {
      flow.picture(
          piece.get(),
          MOST_HEIGHT,
          "First after the turn: bar " + names.bar(turn.arrives()) + ". " + CAUTION);
    }
  }

  /** Which page, after which bar, and how long it is silent there. */
  private static void where(Flow flow, Turn turn, Names names) throws IOException {
    flow.space(6);
    flow.rule(1);
    flow.pair(
        "Page "
            + turn.fromPage()
            + (turn.direction() == Turn.Direction.BACK ? " BACK to " : " to ")
            + turn.toPage()
            + (turn.sheets() > 1 ? ", " + turn.sheets() + " leaves at once" : ""),
        verdict(turn),
        true);
    String pass = turn.pass() > 1 ? ", time " + turn.pass() : "";
    String next = turn.nextNumber().map(n -> ", then " + names.number(n)).orElse("");
    flow.line(
        names.number(turn.number())
            + ": after bar "
            + names.lastBar(turn.leaves())
            + pass
            + next
            + ", on to bar "
            + names.bar(turn.arrives()));
    String theirs =
        Stream.of(
                names.theirLast(turn.leaves()).map(b -> "after " + b),
                names.theirFirst(turn.arrives()).map(b -> "on to " + b))
            .flatMap(Optional::stream)
            .collect(Collectors.joining(", "));
    if (!theirs.isEmpty()) {
      flow.line("[" + theirs + "]");
    }
    boolean none =
        turn.gap().beats().filter(b -> b == 0).isPresent()
            && turn.gap().bars() == 0
            && turn.gap().plus().isEmpty();
    flow.line(
        none
            ? "Notes right up to the turn and right after it."
            : "Without notes: "
                + Says.length(turn.gap())
                + turn.free().map(f -> " (" + f + ")").orElse(""));
    if (turn.again().isPresent()) {
      String turns = turn.direction() == Turn.Direction.BACK ? "Turn back " : "Turn ";
      flow.line(turns + turn.again().get() + ".");
    }
    if (turn.because().isPresent()) {
      flow.line("Not known: " + turn.because().get() + ".");
    }
    if (!turn.unsure().isEmpty()) {
      flow.line(Says.unsure(turn.unsure()));
    }
    if (!turn.alsoHere().isEmpty()) {
      flow.line("In the same gap: " + String.join(", ", turn.alsoHere()) + ".");
    }
  }

  /** Returns "V.S. (quick)", or "enough time". */
  static String verdict(Turn turn) {
    String time =
        switch (turn.verdict()) {
          case TIME -> "enough time";
          case QUICK -> "quick";
          case NONE -> "no time";
          case UNKNOWN -> "time not known";
        };
    return turn.mark().map(m -> m.word() + " (" + time + ")").orElse(time);
  }
}
