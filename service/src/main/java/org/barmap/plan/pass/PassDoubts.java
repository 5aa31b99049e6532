package org.barmap.plan.pass;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Severity;
import org.barmap.plan.change.Off;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.Question;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.effect.PassRule;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.term.Pass;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.PlayedPiece;
import org.barmap.plan.piece.Span;

/**
 * Asks which time a change means that names one: of bars that are played once, that lie in a repeat
 * inside another, that are repeated and sound again after a jump, or only partly in a repeat.
 */
final class PassDoubts {
  private final WrittenNumber number;
  private final List<Piece> pieces;
  private final List<PassReader.Around> repeats;
  private final List<PlanFinding> findings;
  private final Times times;
  private final List<List<PlayedPiece>> steps = new ArrayList<>();

  PassDoubts(
      WrittenNumber number,
      List<Piece> pieces,
      List<PlayedPiece> walked,
      List<PassReader.Around> repeats,
      List<PlanFinding> findings) {
    this.number = number;
    this.pieces = pieces;
    this.repeats = repeats;
    this.findings = findings;
    this.times = new Times(pieces, walked);
    pieces.forEach(p -> steps.add(new ArrayList<>(1)));
    walked.forEach(s -> steps.get(s.index()).add(s));
  }

  void ask(PassedBars rule) {
    Optional<Pass> pass = rule.rule().pass().filter(p -> !p.equals(Pass.AFTER_JUMP));
    if (rule.span().isEmpty() || pass.isEmpty()) {
      return;
    }
    int begins = times.begins(rule);
    Span span = rule.span().get();
    String time = "\"" + pass.get().says() + "\"";
    boolean first = pass.get().equals(Pass.LAST) || pass.get().nth().orElse(0) == 1;
    if (nested(rule)) {
      ask(
          span,
          " lie in a repeat inside another one; which repeat is " + time + " of? Of the inner one",
          "of the inner repeat",
          "of the outer repeat");
    } else if (Times.any(rule, i -> times.repeated(i) && times.again(i))) {
      ask(
          span,
          " are repeated, and sound again after a D.C. or D.S.; when is "
              + time
              + "? It is counted in the repeat",
          "counted in the repeat",
          "counted through the whole number");
    } else if (times.partly(rule, pass.get())) {
      ask(
          span,
          " lie in a repeat only in part; does " + time + " hold for all of them? It does not",
          "where they are repeated",
          "for all of them");
    } else if (first && times.once(begins)) {
      Question.Reading not =
          new Question.Reading("not at all", Optional.empty(), List.of(Off.of(span.change())));
      ask(
          span,
          " are played once; which time is " + time + "? That one",
          Question.Reading.of("that one time"),
          not);
    } else if (addedOut(rule)) {
      ask(
          span,
          " have new bars among them; are these out as well, " + time + "? They are",
          "the new bars too",
          "all but the new bars");
    } else if (endingOut(rule)) {
      ask(
          span,
          " take an ending away whenever it would be played; is the repeat still taken? It is",
          "with the repeat",
          "without the repeat");
    }
  }

  private boolean nested(PassedBars rule) {
    return Times.any(rule, i -> repeats.stream().filter(r -> r.repeats(i)).count() > 1);
  }

  private boolean addedOut(PassedBars rule) {
    return rule.rule().does() == PassRule.Does.CUT
        && Times.any(rule, i -> pieces.get(i).added().isPresent() && times.total(i) > 0);
  }

  /** Tells whether an ending that leads back is out each time it comes. */
  private boolean endingOut(PassedBars rule) {
    return rule.rule().does() == PassRule.Does.CUT
        && Times.any(
            rule,
            i ->
                !pieces.get(i).bar().ending().isEmpty()
                    && pieces.get(i).endSigns()
                    && pieces.get(i).signBar().endBarline().endsRepeat()
                    && times.total(i) > 0
                    && steps.get(i).stream()
                        .allMatch(s -> Passes.holds(rule.rule().pass(), s, times.total(i))));
  }

  private void ask(Span span, String text, String one, String other) {
    ask(span, text, Question.Reading.of(one), Question.Reading.of(other));
  }

  private void ask(Span span, String text, Question.Reading one, Question.Reading other) {
    ShowChange change = span.change();
    String first = number.nameAt(span.from());
    String bars =
        span.from() == span.to()
            ? "Bar " + first + ": these bars"
            : "Bars " + first + " to " + number.nameAt(span.to());
    findings.add(
        PlanFinding.change(
                Severity.DOUBT,
                Optional.of(number.barAt(span.from()).id()),
                "which-time",
                bars + text + " until that is said.",
                change)
            .asking(new Question(Question.Topic.PASS, Optional.of(first), List.of(one, other))));
  }
}
