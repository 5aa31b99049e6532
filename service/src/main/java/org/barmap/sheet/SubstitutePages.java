package org.barmap.sheet;

import java.io.IOException;
import java.util.List;
import org.barmap.plan.Plan;
import org.barmap.plan.RunSheet;
import org.barmap.plan.trap.Acts;
import org.barmap.sheet.SubstituteText.Line;

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
    for (Line note : SubstituteText.general(plan)) {
      put(flow, note);
    }
    List<SubstituteText.Number> numbers = SubstituteText.numbers(plan);
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
      number(flow, numbers.get(i));
    }
  }

  private static void number(Flow flow, SubstituteText.Number number) throws IOException {
    float high = flow.high(number.title(), 14, true, 90) + 10;
    for (Line one : number.lines()) {
      high += flow.high(text(one), SIZE, one.grave(), indent(one));
    }
    flow.keep(0, high);
    flow.space(6);
    flow.pair(number.title(), number.right(), true);
    for (Line one : number.lines()) {
      put(flow, one);
    }
  }

  private static String text(Line line) {
    return (line.grave() ? GRAVE : "") + line.text();
  }

  private static float indent(Line line) {
    return line.inside() ? INDENT : 0;
  }

  private static void put(Flow flow, Line line) throws IOException {
    flow.text(text(line), SIZE, line.grave(), indent(line));
  }
}
