package org.barmap.exchange;

import java.util.List;
import java.util.Map;
import org.barmap.map.Key;
import org.barmap.plan.change.Leave;
import org.barmap.plan.change.Reminder;
import org.barmap.plan.change.ShowChange;
import org.barmap.plan.change.ShowChanges;

/**
 * A show's changes in words, one line each, as a director's cut list says them: "No. 7: cut 34 to
 * 49". "Play" counts all times: "three times" is played three times (common practice).
 */
public final class CutList {
  private static final Map<String, String> BEATS =
      Map.of(
          "1/1", "whole note",
          "1/2", "half",
          "3/4", "dotted half",
          "1/4", "quarter",
          "3/8", "dotted quarter",
          "1/8", "eighth",
          "3/16", "dotted eighth");
  private static final List<String> NUMBERS =
      List.of(
          "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
          "eleven", "twelve");

  private CutList() {}

  /** Returns the changes that are switched on, in their order, one line each. */
  public static List<String> lines(ShowChanges changes) {
    return changes.active().stream().map(CutList::line).toList();
  }

  /** Returns one change with its number in front and its note behind. */
  public static String line(ShowChange change) {
    String number = change.number().isBlank() ? "" : "No. " + change.number().strip() + ": ";
    String note =
        change instanceof ShowChange.Remind r && r.what() == Reminder.TEXT
            ? ""
            : change
                .meta()
                .note()
                .filter(n -> !n.isBlank())
                .map(n -> " (" + one(n) + ")")
                .orElse("");
    return number + words(change) + note;
  }

  private static String words(ShowChange change) {
    if (change instanceof ShowChange.Cut c) {
      return "cut " + range(c.first(), c.last());
    } else if (change instanceof ShowChange.Vamp v) {
      return "vamp "
          + range(v.first(), v.last())
          + (v.leave() == Leave.ANY_TIME ? ", out any time" : ", out at the end of a pass");
    } else if (change instanceof ShowChange.Safety s) {
      return "safety " + range(s.first(), s.last());
    } else if (change instanceof ShowChange.Play p) {
      return "play " + range(p.first(), p.last()) + " " + times(p.times());
    } else if (change instanceof ShowChange.Beats b) {
      return "in " + spoken(b.beats()) + " from " + range(b.first(), b.last());
    } else if (change instanceof ShowChange.Insert i) {
      String label = i.label().map(l -> " (" + one(l) + ")").orElse("");
      return "insert "
          + i.bars()
          + (i.bars() == 1 ? " bar" : " bars")
          + " after "
          + one(i.after())
          + label;
    } else if (change instanceof ShowChange.Tacet) {
      return "tacet";
    } else if (change instanceof ShowChange.CutNumber) {
      return "cut the number";
    } else if (change instanceof ShowChange.Reorder r) {
      return "order of numbers: " + String.join(", ", r.numbers());
    } else if (change instanceof ShowChange.Tempo t) {
      return "tempo from "
          + one(t.first())
          + t.last().map(l -> " to " + one(l)).orElse("")
          + " "
          + BEATS.getOrDefault(t.beat(), t.beat())
          + " = "
          + plain(t.perMinute())
          + t.toPerMinute().map(to -> " to " + plain(to)).orElse("");
    } else if (change instanceof ShowChange.KeyChange k) {
      return new Key(k.fifths(), true).says() + " from " + one(k.first());
    } else if (change instanceof ShowChange.Instrument i) {
      return one(i.to()) + " from " + one(i.first());
    } else if (change instanceof ShowChange.Remind r) {
      String what =
          r.what() == Reminder.TEXT
              ? r.meta().note().map(CutList::one).orElse("remember")
              : r.what().word();
      return what + " at " + one(r.first());
    }
    return change.kind();
  }

  private static String range(String first, String last) {
    return first.strip().equals(last.strip()) ? one(first) : one(first) + " to " + one(last);
  }

  private static String times(int times) {
    return times == 1 ? "once" : spoken(times) + " times";
  }

  private static String spoken(int n) {
    return n >= 0 && n < NUMBERS.size() ? NUMBERS.get(n) : Integer.toString(n);
  }

  private static String plain(double value) {
    return value == Math.rint(value) ? Long.toString((long) value) : Double.toString(value);
  }

  /** One line, whatever was typed. */
  private static String one(String text) {
    return text.strip().replaceAll("[\\p{Cntrl}\\s]+", " ");
  }
}
