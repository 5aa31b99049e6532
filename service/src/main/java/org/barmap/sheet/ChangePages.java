package org.barmap.sheet;

import java.io.IOException;
import java.time.DateTimeException;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.barmap.exchange.CutList;
import org.barmap.map.Severity;
import org.barmap.plan.Plan;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.kind.ShowChange;

/** The changes of the show and what follows from each. */
final class ChangePages {
  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("EEE d MMM, HH:mm", Locale.ENGLISH);

  private ChangePages() {}

  static void write(Flow flow, ShowChanges changes, Plan plan, Names names) throws IOException {
    flow.space(4);
    for (ShowChange change : changes.changes()) {
      flow.keep(2);
      String off = change.meta().on() ? "" : "OFF: ";
      String made =
          Stream.of(
                  change.meta().who().map(ChangePages::clipped),
                  change.meta().when().map(ChangePages::day))
              .flatMap(Optional::stream)
              .collect(Collectors.joining(", "));
      flow.pair(off + CutList.line(change), made, change.meta().on());
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

  private static String clipped(String who) {
    return who.codePointCount(0, who.length()) > 24
        ? who.substring(0, who.offsetByCodePoints(0, 20)) + "…"
        : who;
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
        String at = finding.at().map(id -> names.barInNumber(id) + ": ").orElse("");
        flow.indented(at + finding.text(), 0);
      }
    }
  }
}
