package org.barmap.cli.text;

import org.barmap.map.BarMap;
import org.barmap.map.rule.BookNumbers;
import org.barmap.plan.PlanDiff;
import org.barmap.plan.change.say.Saying;
import org.barmap.plan.mark.PencilMark;
import org.barmap.plan.rest.LongRest;
import org.barmap.plan.turn.Turn;

/** What became different for the player, in words. */
public final class DiffText {

  private final BarMap map;
  private final StringBuilder text = new StringBuilder();

  private DiffText(BarMap map) {
    this.map = map;
  }

  /** Returns the differences in words, without a line break at the end. */
  public static String of(BarMap map, PlanDiff diff) {
    if (diff.isEmpty()) {
      return "Nothing is different for you.";
    }
    DiffText made = new DiffText(map);
    diff.numbers().forEach(n -> made.line(number(n.label()) + n.text()));
    diff.turns().forEach(made::turn);
    diff.rests().forEach(made::rest);
    diff.write().forEach(m -> made.mark("Write", m));
    diff.erase().forEach(m -> made.mark("Rub out", m));
    return made.text.toString().stripTrailing();
  }

  private static String number(String label) {
    return label.isEmpty() ? "The book: " : BookNumbers.spoken(label) + ": ";
  }

  private void line(String line) {
    text.append(line).append('\n');
  }

  private void turn(PlanDiff.TurnChange change) {
    Turn turn = change.now().or(change::before).orElseThrow();
    String where =
        number(turn.number())
            + "turn from page "
            + turn.fromPage()
            + " to "
            + turn.toPage()
            + (turn.pass() > 1 ? ", pass " + turn.pass() : "");
    String was =
        change
            .before()
            .map(t -> ", was " + t.verdict().word() + " after bar " + bar(t.leaves()))
            .orElse(", new");
    line(
        change
            .now()
            .map(t -> where + " " + t.verdict().word() + " after bar " + bar(t.leaves()) + was)
            .orElse(where + " is gone"));
  }

  private void rest(PlanDiff.RestChange change) {
    LongRest rest = change.now().or(change::before).orElseThrow();
    String where = number(change.number()) + "rest from bar " + bar(rest.first());
    line(
        change
            .now()
            .map(
                r ->
                    where
                        + change
                            .before()
                            .map(b -> ", was " + Saying.many(b.bars(), "bar") + ": ")
                            .orElse(", new: ")
                        + r.text())
            .orElse(where + ", " + Saying.many(rest.bars(), "bar") + ", is gone"));
  }

  private void mark(String what, PencilMark mark) {
    line(
        what
            + " on page "
            + mark.page()
            + ", line "
            + mark.system()
            + ", bar "
            + mark.where()
            + ": "
            + mark.sign());
  }

  private String bar(String id) {
    return map.bar(id).map(b -> b.label().orElseGet(() -> Integer.toString(b.number()))).orElse(id);
  }
}
