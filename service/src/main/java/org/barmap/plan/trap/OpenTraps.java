package org.barmap.plan.trap;

import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.Word;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.Question;
import org.barmap.plan.change.Question.Topic;
import org.barmap.plan.change.term.TempoWords;
import org.barmap.plan.order.Performance;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.PlayedPiece;

/** What the print and the changes leave open: a tempo without a figure, a question not answered. */
final class OpenTraps {
  /** By and by slower or faster is watched as printed; nobody asks for its figure. */
  private static final Set<TempoWords.Kind> LED =
      EnumSet.of(TempoWords.Kind.SLOWING, TempoWords.Kind.QUICKENING);

  /** Sides are the pages' affair, what was said twice is harmless. */
  private static final Set<Topic> NOT_TOLD = EnumSet.of(Topic.SIDE, Topic.DUPLICATE);

  private static final Set<Topic> OF_FORM =
      EnumSet.of(Topic.REPEAT, Topic.VAMP, Topic.LANDING, Topic.ORDER, Topic.PASS);

  private OpenTraps() {}

  /** The beginning of a number is not told here: how it opens stands at its head. */
  static void tempo(TrapList traps, Performance performance) {
    List<PlayedPiece> steps = performance.order().steps();
    for (int i = 1; i < steps.size(); i++) {
      boolean known = performance.measure(steps.get(i)).pace().isPresent();
      boolean before = performance.measure(steps.get(i - 1)).pace().isPresent();
      Piece piece = steps.get(i).piece();
      Optional<String> word = word(piece);
      boolean led =
          word.filter(w -> LED.contains(TempoWords.read(w).kind())).isPresent()
              || (word.isEmpty() && before);
      if (!known && !led && (before || word.isPresent())) {
        String said = word.map(w -> ", only \"" + w + "\"").orElse("");
        String bar = performance.number().nameAt(piece.slot());
        traps.add(
            piece.bar().id(),
            Trap.Kind.STATE,
            false,
            "Bar " + bar + ": no tempo is known" + said,
            List.of());
      }
    }
  }

  private static Optional<String> word(Piece piece) {
    return piece.first() && piece.inserted().isEmpty()
        ? piece.bar().words().stream()
            .map(Word::text)
            .filter(t -> TempoWords.read(t).kind() != TempoWords.Kind.NONE)
            .reduce((a, b) -> b)
        : Optional.empty();
  }

  static void asked(TrapList traps, List<PlanFinding> findings) {
    for (PlanFinding finding : findings) {
      Optional<Topic> topic = finding.question().map(Question::topic);
      if (topic.isPresent() && finding.at().isPresent() && !NOT_TOLD.contains(topic.get())) {
        traps.add(
            finding.at().get(),
            Trap.Kind.ASK,
            OF_FORM.contains(topic.get()),
            "Not settled: " + finding.text().replaceFirst("\\.$", ""),
            List.of());
      }
    }
  }
}
