package org.barmap.plan.words;

import java.util.Locale;
import java.util.Optional;
import org.barmap.map.Meter;
import org.barmap.plan.order.Metronome;

/** Note values as shares of a whole note, the way {@code changes/1} writes them. */
final class NoteValues {
  private NoteValues() {}

  /** Returns the share a note is, "3/8" for a dotted quarter. */
  static Optional<String> share(String words) {
    String text = words.strip();
    if (text.toLowerCase(Locale.ROOT).startsWith("tempo")) {
      text = text.substring(5).strip();
    }
    var quarters = Metronome.quartersPerMinute(text + " = 100");
    if (quarters.isEmpty()) {
      return Optional.empty();
    }
    double value = quarters.getAsDouble() / 100;
    for (String share : new String[] {"1/1", "3/4", "1/2", "3/8", "1/4", "3/16", "1/8", "1/16"}) {
      if (Math.abs(Metronome.quarters(share) - value) < 1e-9) {
        return Optional.of(share);
      }
    }
    return Optional.empty();
  }

  /** Returns the beat a meter is usually shown in; a quarter where none is known. */
  static String beatOf(Optional<Meter> meter) {
    if (meter.isEmpty()) {
      return "1/4";
    }
    Meter m = meter.get();
    boolean compound = m.beats() > 3 && m.beats() % 3 == 0 && m.unit() >= 8;
    if (compound) {
      return m.unit() == 8 ? "3/8" : "3/16";
    }
    return m.unit() > 16 ? "1/16" : "1/" + m.unit();
  }

  /** Returns the name of a note value. */
  static String spoken(String share) {
    return switch (share) {
      case "1/1" -> "whole";
      case "3/4" -> "dotted half";
      case "1/2" -> "half";
      case "3/8" -> "dotted quarter";
      case "1/4" -> "quarter";
      case "3/16" -> "dotted eighth";
      case "1/8" -> "eighth";
      default -> share;
    };
  }
}
