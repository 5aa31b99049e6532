package org.barmap.sheet;

import java.io.IOException;
import java.util.List;
import org.barmap.plan.Night;
import org.barmap.plan.NumberPlan;
import org.barmap.plan.Plan;
import org.barmap.plan.RunSheet;
import org.barmap.plan.change.term.Link;
import org.barmap.plan.order.Following;

/** The run sheet: the night in order. */
final class RunSheetPages {
  private RunSheetPages() {}

  static void write(Flow flow, Plan plan, Names names) throws IOException {
    if (plan.runSheet().isEmpty()) {
      flow.line("The book has no numbers yet.");
      return;
    }
    flow.line(night(plan.night(), names));
    flow.rule(1);
    for (int i = 0; i < plan.runSheet().size(); i++) {
      boolean last = i == plan.runSheet().size() - 1;
      RunSheet line = plan.runSheet().get(i);
      List<ReadyLines.Line> ready = ReadyLines.of(plan.instruments(), line.number(), names);
      line(flow, line, ready, plan.numbers().get(i).following(), last, names);
      NoteLines.write(flow, plan.notes(), plan.runSheet().get(i).number());
      flow.rule(0.5f);
    }
    if (plan.runSheet().stream().noneMatch(l -> l.number().isEmpty())) {
      NoteLines.write(flow, plan.notes(), "");
    }
  }

  private static void line(
      Flow flow,
      RunSheet line,
      List<ReadyLines.Line> ready,
      Following following,
      boolean last,
      Names names)
      throws IOException {
    List<String> more = RunLine.more(line, names);
    flow.keep(4 + more.size() + ready.size());
    String title = (line.number() + "   " + line.title()).strip();
    flow.pair(
        title.isEmpty() ? "The book" : title, line.page().map(p -> "p. " + p).orElse(""), true);
    if (line.state() != NumberPlan.State.PLAYED) {
      boolean cut = line.state() == NumberPlan.State.CUT;
      flow.pair(cut ? "CUT" : "TACET", cut ? "" : RunLine.length(line), true);
    } else {
      flow.pair(RunLine.opening(line), RunLine.length(line), false);
      flow.indented(RunLine.entrance(line, names), 0);
      for (String fact : more) {
        flow.text(fact, 13, true, 0);
      }
      for (ReadyLines.Line told : ready) {
        flow.text(told.text(), 13, told.hurried(), 0);
      }
    }
    if (!line.unsure().isEmpty()) {
      flow.indented(Says.unsure(line.unsure()), 0);
    }
    if (line.state() == NumberPlan.State.CUT) {
      return;
    }
    if (line.link() != Link.UNKNOWN) {
      flow.text(link(line.link()) + said(following), 13, true, 0);
    } else if (!last) {
      flow.indented("To the next number: not said" + said(following), 0);
    }
  }

  /** How long the night is: what is known, what comes on top, what is missing in it. */
  static String night(Night night, Names names) {
    StringBuilder text = new StringBuilder();
    text.append("The music lasts ")
        .append(Says.minutes(night.seconds()))
        .append(" as far as known");
    if (!night.plus().isEmpty()) {
      text.append(", plus ")
          .append(RunLine.kinds(night.plus().stream().map(Night.Plus::what).toList()));
    }
    text.append('.');
    if (!night.without().isEmpty()) {
      text.append(" Not in it, or only in part: ")
          .append(
              String.join(
                  ", ",
                  night.without().stream()
                      .map(n -> names.number(n).replaceAll("\\s{2,}.*", ""))
                      .map(n -> n.isEmpty() ? "the book" : n)
                      .toList()))
          .append('.');
    }
    return text.toString();
  }

  /** Returns how the next number follows; empty where nothing is known. */
  static String follows(Link how, Following following) {
    return how == Link.UNKNOWN ? "" : link(how) + said(following);
  }

  /** What a change says of it: how long it takes, what one waits for. */
  private static String said(Following following) {
    return following.seconds().map(s -> ", some " + Math.round(s) + " s").orElse("")
        + following.cue().map(c -> ", cue: " + c).orElse("");
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
