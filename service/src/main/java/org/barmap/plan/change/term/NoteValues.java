package org.barmap.plan.change.term;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.barmap.map.Meter;

/** Note values as shares of a whole note, the way {@code changes/1} writes them. */
public final class NoteValues {

  /** One note value: its share, its name, and how it is written with a pencil. */
  private record Value(String share, String name, String sign) {
    static final List<Value> ALL =
        List.of(
            new Value("1/1", "whole", "whole"),
            new Value("3/4", "dotted half", "half."),
            new Value("1/2", "half", "half"),
            new Value("3/8", "dotted quarter", "\u2669."),
            new Value("1/4", "quarter", "\u2669"),
            new Value("3/16", "dotted eighth", "\u266A."),
            new Value("1/8", "eighth", "\u266A"),
            new Value("1/16", "1/16", "1/16"));

    private static Optional<Value> of(String share) {
      return ALL.stream().filter(v -> v.share.equals(share)).findFirst();
    }
  }

  private NoteValues() {}

  /** Returns the share a note is, "3/8" for a dotted quarter. */
  public static Optional<String> share(String words) {
    String text = words.strip();
    if (text.toLowerCase(Locale.ROOT).startsWith("tempo")) {
      text = text.substring(5).strip();
    }
    var quarters = Metronome.quartersPerMinute(text + " = 100");
    if (quarters.isEmpty()) {
      return Optional.empty();
    }
    double value = quarters.getAsDouble() / 100;
    return Value.ALL.stream()
        .map(v -> v.share)
        .filter(s -> Math.abs(Metronome.quarters(s) - value) < Figures.SAME)
        .findFirst();
  }

  /** Returns the beat a meter is usually shown in; a quarter where none is known. */
  public static String beatOf(Optional<Meter> meter) {
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

  /** Returns a tempo as it is written in the beat of its meter, "\u2669. = 60". */
  public static String written(Optional<Meter> meter, double quartersPerMinute) {
    String beat = beatOf(meter);
    return sign(beat) + " = " + Figures.tempo(quartersPerMinute / Metronome.quarters(beat), "ca. ");
  }

  /** Returns a tempo as it is said, "dotted quarter = 60". */
  public static String spoken(Optional<Meter> meter, double quartersPerMinute) {
    String beat = beatOf(meter);
    return spoken(beat)
        + " = "
        + Figures.tempo(quartersPerMinute / Metronome.quarters(beat), "about ");
  }

  /** Returns the name of a note value. */
  public static String spoken(String share) {
    return Value.of(share).map(v -> v.name).orElse(share);
  }

  /** Returns a note value in letters a page and a screen can show. */
  public static String sign(String share) {
    return Value.of(share).map(v -> v.sign).orElse(share);
  }
}
