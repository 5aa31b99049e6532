package org.barmap.sheet;

import java.io.IOException;
import java.time.DateTimeException;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.barmap.exchange.CutList;
import org.barmap.map.Severity;
import org.barmap.plan.Plan;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.ShowChange;
import org.barmap.plan.change.ShowChanges;

/** The changes of the show and what follows from each. */
final class ChangePages {
  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("EEEE d MMMM uuuu, HH:mm", Locale.ENGLISH);

  private ChangePages() {}

  static void write(Flow flow, ShowChanges changes, Plan plan, Names names) throws IOException {
    for (ShowChange change : changes.changes()) {
      flow.keep(2);
      String off = change.meta().on() ? "" : "OFF: ";
      flow.text(off + CutList.line(change), 14, change.meta().on(), 0);
      List<String> made = new ArrayList<>();
      change.meta().when().map(ChangePages::day).ifPresent(made::add);
      change.meta().who().ifPresent(made::add);
      if (!made.isEmpty()) {
        flow.indented(String.join(", ", made), 18);
      }
      for (PlanFinding finding : plan.findings()) {
        if (finding.change().filter(change.meta().id()::equals).isPresent()) {
          flow.indented((finding.severity() == Severity.INFO ? "" : "! ") + finding.text(), 18);
        }
      }
      flow.space(4);
    }
    if (changes.changes().isEmpty()) {
      flow.line("Everything is played as printed.");
    }
    rest(flow, plan, names);
  }

  /** Returns a moment as a player reads it, in the time of this machine. */
  private static String day(String when) {
    try {
      return DAY.format(OffsetDateTime.parse(when).atZoneSameInstant(ZoneId.systemDefault()));
    } catch (DateTimeException e) {
      return when;
    }
  }

  private static void rest(Flow flow, Plan plan, Names names) throws IOException {
    boolean first = true;
    for (PlanFinding finding : plan.findings()) {
      if (finding.change().isEmpty()) {
        if (first) {
          flow.heading("Doubts about the book itself");
          first = false;
        }
        String at = finding.at().map(id -> "Bar " + names.bar(id) + ": ").orElse("");
        flow.indented(at + finding.text(), 0);
      }
    }
  }
}
