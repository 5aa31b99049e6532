package org.barmap.sheet;

import java.io.IOException;
import java.time.DateTimeException;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.barmap.exchange.CutList;
import org.barmap.map.Severity;
import org.barmap.map.rule.BookNumbers;
import org.barmap.plan.NumberPlan;
import org.barmap.plan.Plan;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.kind.ShowChange;

/** The changes of the show and what follows from each. */
final class ChangePages {
  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("EEE d MMM, HH:mm", Locale.ENGLISH);

  private ChangePages() {}

  /**
   * Writes them number by number in the order of the night, what is about the show first.
   *
   * @param beside what stands under a change, by its id
   */
  static void write(
      Flow flow, ShowChanges changes, Plan plan, Names names, Map<String, String> beside)
      throws IOException {
    Map<String, List<ShowChange>> groups = new LinkedHashMap<>();
    groups.put("", new ArrayList<>());
    plan.numbers().forEach(n -> groups.put(label(n.label()), new ArrayList<>()));
    for (ShowChange change : changes.changes()) {
      groups.computeIfAbsent(label(change.number()), k -> new ArrayList<>()).add(change);
    }
    boolean headed = groups.keySet().stream().anyMatch(k -> !k.isEmpty());
    for (List<ShowChange> group : groups.values()) {
      if (headed && !group.isEmpty()) {
        String number = group.get(0).number().strip();
        flow.heading(number.isEmpty() ? "The whole show" : named(number, plan, names));
      } else {
        flow.space(4);
      }
      for (ShowChange change : group) {
        change(flow, change, plan, headed);
        String other = beside.getOrDefault(change.meta().id(), "");
        if (!other.isEmpty()) {
          flow.indented(other, 18);
        }
        flow.space(4);
      }
    }
    if (changes.changes().isEmpty()) {
      flow.line("Everything is played as printed.");
    }
    rest(flow, plan, names);
  }

  private static String label(String number) {
    return number.strip().toLowerCase(Locale.ROOT);
  }

  private static String named(String number, Plan plan, Names names) {
    return plan.numbers().stream()
        .map(NumberPlan::label)
        .filter(l -> label(l).equals(label(number)))
        .map(names::number)
        .findFirst()
        .orElse(BookNumbers.spoken(number));
  }

  private static void change(Flow flow, ShowChange change, Plan plan, boolean headed)
      throws IOException {
    flow.keep(2);
    String off = change.meta().on() ? "" : "OFF: ";
    String made =
        Stream.of(
                change.meta().who().map(ChangePages::clipped),
                change.meta().when().map(ChangePages::day))
            .flatMap(Optional::stream)
            .collect(Collectors.joining(", "));
    String said = headed ? unnumbered(change) : CutList.line(change);
    flow.pair(off + said, made, change.meta().on());
    for (PlanFinding finding : plan.findings()) {
      if (finding.change().filter(change.meta().id()::equals).isPresent()) {
        flow.indented((finding.severity() == Severity.INFO ? "" : "! ") + finding.text(), 18);
      }
    }
  }

  /** Returns a change as the cut list has it, without its number. */
  static String unnumbered(ShowChange change) {
    return CutList.line(change).replaceFirst("^No\\. .{1,40}?: ", "");
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
