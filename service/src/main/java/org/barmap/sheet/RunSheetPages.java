package org.barmap.sheet;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.barmap.plan.NumberPlan;
import org.barmap.plan.Plan;
import org.barmap.plan.RunSheet;
import org.barmap.plan.order.Link;

/** The run sheet: the night in order. */
final class RunSheetPages {
  private RunSheetPages() {}

  static void write(Flow flow, Plan plan) throws IOException {
    for (RunSheet line : plan.runSheet()) {
      flow.keep(3);
      String title = (line.number() + "   " + line.title()).strip();
      String right =
          line.state() == NumberPlan.State.PLAYED
              ? line.page().map(p -> "p. " + p).orElse("")
              : line.state() == NumberPlan.State.TACET ? "TACET" : "CUT";
      flow.pair(title.isEmpty() ? "The book" : title, right, true);
      String details = details(line);
      if (!details.isEmpty()) {
        flow.indented(details, 24);
      }
      if (line.link() != Link.BREAK && line.state() != NumberPlan.State.CUT) {
        flow.text(link(line.link()), 13, true, 24);
      }
      flow.rule(0.5f);
    }
    if (plan.runSheet().isEmpty()) {
      flow.line("The book has no numbers yet.");
    }
  }

  private static String details(RunSheet line) {
    if (line.state() != NumberPlan.State.PLAYED) {
      return "";
    }
    List<String> parts = new ArrayList<>();
    line.entrance()
        .ifPresent(
            e ->
                parts.add(
                    line.entranceAfter().filter(n -> n > 0).isPresent()
                        ? "in at " + e + " after " + line.entranceAfter().orElse(0) + " bars"
                        : "in at once, " + e));
    if (!line.instruments().isEmpty()) {
      parts.add(String.join(", then ", line.instruments()));
    }
    line.key().ifPresent(k -> parts.add("starts in " + k));
    line.seconds().filter(s -> s > 0).ifPresent(s -> parts.add("about " + Says.minutes(s)));
    line.known()
        .ifPresent(
            k ->
                parts.add(
                    Says.minutes(k.seconds())
                        + " and "
                        + Says.bars(k.barsWithout())
                        + " without a tempo"));
    return String.join("  \u00B7  ", parts);
  }

  private static String link(Link link) {
    return switch (link) {
      case ATTACCA -> "ATTACCA: the next number follows at once";
      case SEGUE_AS_ONE -> "SEGUE AS ONE: in time on the next downbeat";
      case APPLAUSE_SEGUE -> "APPLAUSE SEGUE: the next number after the applause";
      case SEGUE -> "SEGUE: the next number on cue";
      case BREAK -> "";
    };
  }
}
