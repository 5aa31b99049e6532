package org.barmap.sheet;

import java.util.ArrayList;
import java.util.List;
import org.barmap.plan.pace.Length;

/** Lengths in words. */
final class Says {
  private Says() {}

  static String length(Length length) {
    List<String> parts = new ArrayList<>();
    if (length.bars() > 0) {
      parts.add(length.bars() + (length.bars() == 1 ? " bar" : " bars"));
    }
    boolean counted = length.beats().filter(b -> b == 0).isEmpty() || length.plus().isEmpty();
    if (counted) {
      length.beats().ifPresent(b -> parts.add(plain(b) + (b == 1 ? " beat" : " beats")));
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
    return plain(Math.round(seconds * 10) / 10.0) + " s";
  }

  private static String plain(double value) {
    return value == Math.rint(value) ? Long.toString((long) value) : Double.toString(value);
  }

  /** Returns a number of bars: "1 bar", "12 bars". */
  static String bars(int bars) {
    return bars == 1 ? "1 bar" : bars + " bars";
  }

  /** Returns what nobody has looked at yet. */
  static String unsure(List<String> hangsOn) {
    return "Not checked: " + String.join("; ", hangsOn) + ".";
  }
}
