package org.barmap.sheet;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import org.barmap.plan.ready.GetReady;
import org.barmap.plan.turn.Verdict;

/** Says for the stand what has to be taken up in a number, and whether there is time. */
final class ReadyLines {
  private ReadyLines() {}

  /**
   * One line.
   *
   * @param hurried there is hardly time
   */
  record Line(String text, boolean hurried) {}

  /** Returns all changes of instrument, and of the others those there is hardly time for. */
  static List<Line> of(List<GetReady> all, String number, Names names) {
    LinkedHashSet<Line> lines = new LinkedHashSet<>();
    for (GetReady ready : all) {
      boolean hurried = ready.verdict() == Verdict.QUICK || ready.verdict() == Verdict.NONE;
      boolean tell = hurried || ready.kind() == GetReady.Kind.INSTRUMENT;
      if (tell && ready.number().equals(number)) {
        lines.add(
            new Line(
                "Bar "
                    + names.bar(ready.at())
                    + " "
                    + what(ready)
                    + ": "
                    + time(ready)
                    + (ready.unsure().isEmpty() ? "" : ". " + Says.unsure(ready.unsure())),
                hurried));
      }
    }
    return new ArrayList<>(lines);
  }

  private static String what(GetReady ready) {
    return switch (ready.kind()) {
      case INSTRUMENT -> "to " + ready.to();
      case BOW -> ready.to().equals("pizz") ? "pizz." : ready.to();
      case MUTE, EXTENSION -> ready.to();
      case RETUNE -> "retune, " + ready.to();
    };
  }

  private static String time(GetReady ready) {
    String seconds = ready.seconds().map(Says::seconds).orElse("seconds not known");
    String needed = Says.seconds(ready.needed()) + " needed";
    return switch (ready.verdict()) {
      case TIME -> ready.seconds().map(s -> Says.seconds(s) + ", time").orElse("time");
      case QUICK -> "quick, " + seconds + ", " + needed;
      case NONE -> "no time, " + needed;
      case UNKNOWN -> "time not known, " + needed;
    };
  }
}
