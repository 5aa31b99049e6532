package org.barmap.sheet;

import java.util.ArrayList;
import java.util.List;
import org.barmap.plan.KeptNote;
import org.barmap.plan.NumberPlan;
import org.barmap.plan.Plan;
import org.barmap.plan.RunSheet;
import org.barmap.plan.change.term.Link;
import org.barmap.plan.trap.Trap;

/** What a player is told who sits in for one night, number by number, on paper or not. */
public final class SubstituteText {

  private SubstituteText() {}

  /**
   * A number.
   *
   * @param title "7 The Chase"
   * @param right where it is, or that it isn't played
   * @param lines how it opens, its traps, its notes
   */
  public record Number(String title, String right, List<Line> lines) {}

  /**
   * A line.
   *
   * @param grave who misses it plays alone, or not at all
   * @param inside a number, behind how it opens
   */
  public record Line(String text, boolean grave, boolean inside) {}

  /** Returns what is said of the whole show. */
  public static List<Line> general(Plan plan) {
    return notes(plan.notes(), "");
  }

  /** Returns the numbers as they come tonight. */
  public static List<Number> numbers(Plan plan) {
    List<Number> numbers = new ArrayList<>();
    for (int i = 0; i < plan.runSheet().size(); i++) {
      numbers.add(number(plan, plan.runSheet().get(i), plan.numbers().get(i)));
    }
    return numbers;
  }

  private static Number number(Plan plan, RunSheet line, NumberPlan number) {
    String title = (line.number() + "   " + line.title()).strip();
    List<Line> lines = new ArrayList<>();
    if (line.state() == NumberPlan.State.PLAYED) {
      lines.add(new Line(opening(line, number), false, false));
      for (Trap trap : plan.traps()) {
        if (trap.number().equals(line.number())) {
          String unsure = trap.unsure().isEmpty() ? "" : " (not checked)";
          lines.add(new Line(trap.text() + unsure, trap.grave(), true));
        }
      }
    }
    if (!line.number().isEmpty()) {
      lines.addAll(notes(plan.notes(), line.number()));
    }
    return new Number(title.isEmpty() ? "The book" : title, right(line), lines);
  }

  private static String right(RunSheet line) {
    return switch (line.state()) {
      case CUT -> "CUT";
      case TACET -> "TACET";
      case PLAYED -> line.page().map(p -> "p. " + p).orElse("");
    };
  }

  /** How it opens, what is in hand, what follows. */
  private static String opening(RunSheet line, NumberPlan number) {
    List<String> parts = new ArrayList<>();
    parts.add(RunLine.opening(line));
    String entrance = RunLine.entrance(line);
    if (!entrance.isEmpty()) {
      parts.add(entrance);
    }
    String follows = link(line.link());
    if (!follows.isEmpty()) {
      parts.add(
          follows
              + number.following().seconds().map(s -> ", some " + Math.round(s) + " s").orElse("")
              + number.following().cue().map(c -> ", on " + c).orElse(""));
    }
    return String.join("  \u00B7  ", parts);
  }

  private static String link(Link link) {
    return switch (link) {
      case ATTACCA -> "then ATTACCA";
      case SEGUE_AS_ONE -> "then SEGUE AS ONE";
      case APPLAUSE_SEGUE -> "then APPLAUSE SEGUE";
      case SEGUE -> "then SEGUE on cue";
      case BREAK -> "no segue";
      case UNKNOWN -> "";
    };
  }

  private static List<Line> notes(List<KeptNote> notes, String number) {
    return notes.stream()
        .filter(n -> n.number().equals(number))
        .map(n -> new Line(note(n), false, !number.isEmpty()))
        .toList();
  }

  private static String note(KeptNote note) {
    String bar =
        note.bar()
            .filter(b -> !note.text().startsWith("bar " + b + " "))
            .map(b -> ", bar " + b)
            .orElse("");
    return NoteLines.kind(note) + bar + ": " + note.text();
  }
}
