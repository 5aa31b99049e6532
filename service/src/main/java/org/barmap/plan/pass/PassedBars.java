package org.barmap.plan.pass;

import java.util.List;
import java.util.Optional;
import org.barmap.map.Severity;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.effect.PassRule;
import org.barmap.plan.change.say.Saying;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.Pieces;
import org.barmap.plan.piece.PlayedPiece;
import org.barmap.plan.piece.Span;

/**
 * Bars and what becomes of them in one pass.
 *
 * @param number the number they are in
 * @param first index of the first piece
 * @param last index of the last piece
 * @param rule what becomes of them
 * @param span the change that says so; empty where the print does
 * @param words what is printed; empty where a change says it
 */
record PassedBars(
    WrittenNumber number, int first, int last, PassRule rule, Optional<Span> span, String words) {

  /** Returns a step with what the change leaves out of it. */
  PlayedPiece without(PlayedPiece step) {
    return span.map(s -> step.shortened(Pieces.without(step.piece(), s))).orElse(step);
  }

  /** Whether something stands in the bars in one pass, which are played in every one. */
  boolean puts() {
    return rule.does() == PassRule.Does.PUT || rule.does() == PassRule.Does.STOP;
  }

  /** Returns a step with what the change puts into it. */
  PlayedPiece with(PlayedPiece step) {
    return span.map(s -> step.shortened(Pieces.put(step.piece(), s))).orElse(step);
  }

  /** Returns what to say where no pass was the one that is meant. */
  Optional<PlanFinding> neverMet(List<Piece> pieces, int most) {
    if (rule.pass().isEmpty() || most == 0) {
      return Optional.empty();
    }
    String bars = name(pieces, first) + (first == last ? "" : " to " + name(pieces, last));
    String is = first == last ? "Bar " + bars + " is" : "Bars " + bars + " are";
    String often = most == 1 ? "once" : Saying.count(most) + " times";
    String what = rule.pass().get().says();
    Optional<String> at = Optional.of(pieces.get(first).bar().id());
    if (span.isPresent()) {
      String text =
          is
              + " played "
              + often
              + ", so there is nothing for \""
              + what
              + "\"; the "
              + span.get().change().kind()
              + " finds no such pass.";
      return Optional.of(
          PlanFinding.change(Severity.ERROR, at, "no-such-pass", text, span.get().change()));
    }
    String once = first == last ? "bar " + bars + " is" : "bars " + bars + " are";
    String text = "\"" + words + "\" is printed, but " + once + " played " + often + ".";
    return Optional.of(
        new PlanFinding(
            Severity.DOUBT,
            at,
            "no-such-pass",
            text,
            Optional.empty(),
            List.of(),
            Optional.empty()));
  }

  private String name(List<Piece> pieces, int i) {
    Piece piece = pieces.get(i);
    return number.nameAt(Math.min(number.slots() - 1, piece.slot()));
  }
}
