package org.barmap.sheet;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.barmap.plan.NumberPlan;
import org.barmap.plan.Plan;
import org.barmap.plan.RunSheet;
import org.barmap.plan.change.term.Link;
import org.barmap.plan.order.Following;

/** The run sheet: the night in order. */
final class RunSheetPages {
  private RunSheetPages() {}

  static void write(Flow flow, Plan plan) throws IOException {
    for (int i = 0; i < plan.runSheet().size(); i++) {
      RunSheet line = plan.runSheet().get(i);
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
      if (line.state() != NumberPlan.State.CUT && !link(line.link()).isEmpty()) {
        String said = i < plan.numbers().size() ? said(plan.numbers().get(i).following()) : "";
        flow.text(link(line.link()) + said, 13, true, 24);
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

  /** What a change says of it: how long it takes, what one waits for. */
  private static String said(Following following) {
    return following.seconds().map(s -> ", some " + Math.round(s) + " s").orElse("")
        + following.cue().map(c -> ", on " + c).orElse("");
  }

  private static String link(Link link) {
    return switch (link) {
      case ATTACCA -> "ATTACCA: the next number follows at once";
      case SEGUE_AS_ONE -> "SEGUE AS ONE: in time on the next downbeat";
      case APPLAUSE_SEGUE -> "APPLAUSE SEGUE: the next number after the applause";
      case SEGUE -> "SEGUE: the next number on cue";
      case BREAK -> "No segue: the next number does not follow directly";
      case UNKNOWN -> "";
    };
  }
}
