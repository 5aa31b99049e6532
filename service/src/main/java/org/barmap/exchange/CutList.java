package org.barmap.exchange;

import java.util.List;
import org.barmap.map.rule.BookNumbers;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.kind.ShowChange;

/**
 * A show's changes in words, one line each, as a director's cut list says them: "No. 7: cut 34 to
 * 49". "Play" counts all times: "three times" is played three times (common practice).
 */
public final class CutList {
  private CutList() {}

  /**
   * Returns the changes that are switched on, in their order, one line each. What was taken back
   * isn't among them, nor that it was.
   */
  public static List<String> lines(ShowChanges changes) {
    return changes.active().stream().filter(c -> !c.takesBack()).map(CutList::line).toList();
  }

  /** Returns one change with its number in front and its note behind. */
  public static String line(ShowChange change) {
    String number =
        change.number().isBlank() ? "" : BookNumbers.spoken(change.number().strip()) + ": ";
    String note =
        change
            .meta()
            .note()
            .filter(n -> !n.isBlank() && !change.saysItsNote())
            .map(n -> " (" + one(n) + ")")
            .orElse("");
    return number + change.says() + change.meta().holds() + note;
  }

  /** One line, whatever was typed. */
  private static String one(String text) {
    return text.strip().replaceAll("[\\p{Cntrl}\\s]+", " ");
  }
}
