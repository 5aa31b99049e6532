package org.barmap.plan.reference;

import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.Meter;
import org.barmap.plan.reference.Resolved.At;
import org.barmap.plan.reference.print.WrittenBar;
import org.barmap.plan.reference.print.WrittenNumber;

/**
 * Meters that a director gives to bars, or to bars that are added. Source: changes-1.schema.json,
 * meter: of bars that are added, or of bars that get another.
 */
final class SaidMeters {

  private SaidMeters() {}

  /** The meter of a bar: the last one said of it, or the one on the page. */
  static Optional<Meter> at(WrittenNumber number, List<At> settings, int at) {
    Optional<Meter> now = number.bar(at).entry().meter();
    for (At setting : settings) {
      // Source: common practice: the same said again says nothing new.
      boolean again =
          settings.subList(0, settings.indexOf(setting)).stream()
              .anyMatch(
                  s -> s.from() == setting.from() && s.to() == setting.to() && same(s, setting));
      if (holds(setting, at) && !again) {
        now = setting.change().text("meter").map(SaidMeters::read);
      }
    }
    return now;
  }

  private static boolean same(At one, At other) {
    return one.change().text("meter").equals(other.change().text("meter"));
  }

  private static boolean holds(At setting, int at) {
    return setting.change().kind().equals("meter") && setting.from() <= at && at <= setting.to();
  }

  /** Whether a meter that was said ends before a bar. */
  static boolean behind(List<At> settings, int at) {
    return settings.stream().anyMatch(s -> s.change().kind().equals("meter") && s.to() < at);
  }

  /** Whether a meter is said from a bar on. */
  static boolean begins(List<At> settings, int at) {
    return settings.stream()
        .anyMatch(s -> s.change().kind().equals("meter") && (s.from() == at || s.to() == at - 1));
  }

  static Meter read(String said) {
    String[] figures = said.split("/");
    return new Meter(Integer.parseInt(figures[0]), Integer.parseInt(figures[1]), false);
  }

  /**
   * Source: common practice (cases show-48 to show-53): of a bar with notes that gets a shorter
   * meter nobody knows what is left out, unless a cut says which beats; a rest loses no notes.
   */
  static void ask(WrittenNumber number, Resolved resolved, Questions questions) {
    for (At setting : resolved.settings) {
      for (int at = setting.from(); at <= setting.to() && holds(setting, at); at++) {
        WrittenBar bar = number.bar(at);
        boolean same = bar.entry().meter().filter(m -> alike(m, said(setting))).isPresent();
        if (same || agreed(number, resolved).contains(at)) {
          continue;
        }
        if (beatCut(resolved, at)) {
          String why = "a beat is cut of a bar that gets another meter";
          questions.ask("meter-and-beats", number.asked(at), why, "counted in the page's");
        } else if (!bar.entry().isRest()
            && bar.entry().meter().filter(m -> quarters(m) > quarters(said(setting))).isPresent()) {
          String why = "a bar gets a shorter meter";
          questions.ask("meter-shorter", number.asked(at), why, "so short");
        }
      }
    }
  }

  /**
   * Bars of which a cut takes just the beats that a shorter meter has no room for. Source: case
   * rehearsal-11-09.
   */
  static Set<Integer> agreed(WrittenNumber number, Resolved resolved) {
    Set<Integer> agreed = new HashSet<>();
    for (At setting : resolved.settings) {
      for (int at = setting.from(); at <= setting.to() && holds(setting, at); at++) {
        int bar = at;
        Optional<Meter> page = number.bar(at).entry().meter();
        double out =
            page.isEmpty()
                ? 0
                : resolved.cuts.stream().mapToDouble(c -> beatsOut(c, bar, page.get())).sum();
        if (out > 0
            && Math.abs(
                    quarters(page.get()) - quarters(said(setting)) - out * 4 / page.get().unit())
                < 0.01) {
          agreed.add(at);
        }
      }
    }
    return agreed;
  }

  private static double beatsOut(At cut, int at, Meter meter) {
    boolean first = cut.from() == at && cut.fromBeat().isPresent();
    boolean last = cut.to() == at && cut.toBeat().isPresent();
    if (!first && !last) {
      return 0;
    }
    int from = first ? cut.fromBeat().getAsInt() : 1;
    int to = last ? cut.toBeat().getAsInt() : meter.beats();
    return to - from + 1.0;
  }

  private static boolean alike(Meter one, Meter other) {
    return one.beats() == other.beats() && one.unit() == other.unit();
  }

  private static boolean beatCut(Resolved resolved, int at) {
    return resolved.cuts.stream()
        .anyMatch(
            c ->
                (c.from() == at && c.fromBeat().isPresent())
                    || (c.to() == at && c.toBeat().isPresent()));
  }

  private static Meter said(At setting) {
    return read(setting.change().text("meter").orElse("4/4"));
  }

  private static double quarters(Meter meter) {
    return 4.0 * meter.beats() / meter.unit();
  }
}
