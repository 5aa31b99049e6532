package org.barmap.sign;

import java.util.ArrayList;
import java.util.List;
import org.barmap.map.Outline;

/**
 * Finds and reads the signs of straightened staves.
 *
 * <p>Safe for use by several threads at once; holds native memory until closed.
 */
public final class SignReader implements AutoCloseable {
  private final SignNet signs;
  private final TextNet text;

  private SignReader(SignNet signs, TextNet text) {
    this.signs = signs;
    this.text = text;
  }

  /** Opens the models shipped with the extractor. */
  public static SignReader open() {
    SignNet signs = new SignNet();
    try {
      return new SignReader(signs, new TextNet());
    } catch (RuntimeException e) {
      signs.close();
      throw e;
    }
  }

  /** Returns the signs of each strip, in the order given, each list ordered along the staff. */
  public List<List<Sign>> read(List<? extends StripImage> strips) {
    List<List<RawSign>> raw = signs.find(strips);
    List<TextNet.Task> tasks = new ArrayList<>();
    for (int n = 0; n < strips.size(); n++) {
      for (RawSign s : raw.get(n)) {
        if (hasText(s)) {
          tasks.add(new TextNet.Task(Crop.of(strips.get(n), s), Grammar.of(s.kind())));
        }
      }
    }
    List<List<Reading>> readings = text.read(tasks);
    List<List<Sign>> all = new ArrayList<>();
    int next = 0;
    for (int n = 0; n < strips.size(); n++) {
      List<Sign> found = new ArrayList<>();
      for (RawSign s : raw.get(n)) {
        found.add(sign(strips.get(n), s, hasText(s) ? readings.get(next++) : s.readings()));
      }
      found.sort(java.util.Comparator.comparingDouble(Sign::at));
      all.add(List.copyOf(found));
    }
    return all;
  }

  private static boolean hasText(RawSign sign) {
    return switch (sign.kind()) {
      case COUNT, METER, REHEARSAL, BAR_NUMBER, ENDING, WORD, HEADING -> true;
      default -> false;
    };
  }

  private static Sign sign(StripImage strip, RawSign s, List<Reading> readings) {
    return new Sign(
        s.kind(),
        along(s.x0()),
        along(s.x1()),
        across(s.y0()),
        across(s.y1()),
        new Outline(
            strip.toFile(s.x0(), s.y0()),
            strip.toFile(s.x1(), s.y0()),
            strip.toFile(s.x1(), s.y1()),
            strip.toFile(s.x0(), s.y1())),
        Math.min(1, Math.max(0, s.probability())),
        readings);
  }

  private static double along(double u) {
    return (u - StripImage.LEFT) / StripImage.SPACE;
  }

  private static double across(double v) {
    return (v - StripImage.MIDDLE) / StripImage.SPACE;
  }

  @Override
  public void close() {
    signs.close();
    text.close();
  }
}
