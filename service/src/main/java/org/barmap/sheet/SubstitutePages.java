package org.barmap.sheet;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.barmap.plan.KeptNote;
import org.barmap.plan.NumberPlan;
import org.barmap.plan.Plan;
import org.barmap.plan.RunSheet;
import org.barmap.plan.change.term.Link;
import org.barmap.plan.trap.Acts;
import org.barmap.plan.trap.Trap;

/**
 * The page for a player who sits in for one night: number by number how it opens, its traps, whom
 * to watch, what was noted. An act begins on a side of its own where titles tell of acts; a number
 * is never split unless it is longer than a side.
 */
final class SubstitutePages {
  private static final String GRAVE = "\u25A0 ";
  private static final float SIZE = 12;
  private static final float INDENT = 16;

  private SubstitutePages() {}

  /** A line of the sheet. */
  private record Line(String text, boolean bold, float indent) {}

  static void write(Flow flow, Plan plan, Names names) throws IOException {
    List<RunSheet> night = plan.runSheet();
    if (night.isEmpty()) {
      flow.line("The book has no numbers yet.");
      return;
    }
    flow.text(
        GRAVE
            + "first: miss it and you play alone, or not at all. What the print says clearly is not"
            + " repeated here; the order is tonight's.",
        SIZE,
        false,
        0);
    for (Line note : notes(plan.notes(), "")) {
      put(flow, note);
    }
    List<Integer> acts = Acts.starts(night.stream().map(RunSheet::title).toList());
    for (int i = 0; i < night.size(); i++) {
      int act = acts.indexOf(i);
      if (acts.size() > 1 && act >= 0) {
        if (act > 0) {
          flow.side();
        }
        flow.space(4);
        String before = act > 0 ? SheetKind.SUBSTITUTE.title() + ": act " : "Act ";
        flow.text(before + (act + 1), 15, true, 0);
      }
      number(flow, plan, night.get(i), plan.numbers().get(i));
    }
  }

  private static void number(Flow flow, Plan plan, RunSheet line, NumberPlan number)
      throws IOException {
    String title = (line.number() + "   " + line.title()).strip();
    String shown = title.isEmpty() ? "The book" : title;
    String right = right(line);
    List<Line> lines = new ArrayList<>();
    if (line.state() == NumberPlan.State.PLAYED) {
      lines.add(new Line(opening(line, number), false, 0));
      for (Trap trap : plan.traps()) {
        if (trap.number().equals(line.number())) {
          String unsure = trap.unsure().isEmpty() ? "" : " (not checked)";
          String text = (trap.grave() ? GRAVE : "") + trap.text() + unsure;
          lines.add(new Line(text, trap.grave(), INDENT));
        }
      }
    }
    if (!line.number().isEmpty()) {
      lines.addAll(notes(plan.notes(), line.number()));
    }
    float high = flow.high(shown, 14, true, 90) + 10;
    for (Line one : lines) {
      high += flow.high(one.text(), SIZE, one.bold(), one.indent());
    }
    flow.keep(0, high);
    flow.space(6);
    flow.pair(shown, right, true);
    for (Line one : lines) {
      put(flow, one);
    }
  }

  private static void put(Flow flow, Line line) throws IOException {
    flow.text(line.text(), SIZE, line.bold(), line.indent());
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
        .map(n -> new Line(note(n), false, number.isEmpty() ? 0 : INDENT))
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
