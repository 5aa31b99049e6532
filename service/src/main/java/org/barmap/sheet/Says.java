package org.barmap.sheet;

import java.util.ArrayList;
import java.util.List;
import org.barmap.plan.change.say.Saying;
import org.barmap.plan.change.term.Figures;
import org.barmap.plan.pace.Length;

/** Lengths in words. */
final class Says {
  private Says() {}

  static String length(Length length) {
    List<String> parts = new ArrayList<>();
    if (length.bars() > 0) {
      parts.add(bars(length.bars()));
    }
    boolean counted = length.beats().filter(b -> b == 0).isEmpty() || length.plus().isEmpty();
    if (counted) {
      length.beats().ifPresent(b -> parts.add(Saying.many(b, "beat")));
      parts.add(length.seconds().map(Says::seconds).orElse("seconds not known"));
    }
    String on = String.join(", ", length.plus());
    return parts.isEmpty()
        ? on
        : String.join(", ", parts) + (length.plus().isEmpty() ? "" : ", plus " + on);
  }

  static String minutes(double seconds) {
    long whole = Math.round(seconds);
    return whole / 60 + ":" + (whole % 60 < 10 ? "0" : "") + whole % 60;
  }

  /** Returns "28.8 s". */
  static String seconds(double seconds) {
    return Figures.rough(seconds) + " s";
  }

  /** Returns a number of bars: "1 bar", "12 bars". */
  static String bars(int bars) {
    return Saying.many(bars, "bar");
  }

  /** Returns what nobody has looked at yet. */
  static String unsure(List<String> hangsOn) {
    return "Not checked: " + String.join("; ", hangsOn) + ".";
  }
}
