package org.barmap.sign.rule;

import java.util.List;
import java.util.Optional;
import org.barmap.map.Outline;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.strip.StripImage;

/** Turns what was found in a strip, in its pixels, into a sign in staff spaces. */
public final class StripSign {

  private StripSign() {}

  /** Returns the sign with its place on the page, and the frame around a mark or a number. */
  public static Sign of(StripImage strip, RawSign s, List<Reading> readings) {
    return new Sign(
        s.kind(),
        StripImage.along(s.x0()),
        StripImage.along(s.x1()),
        across(s.y0()),
        across(s.y1()),
        new Outline(
            strip.toFile(s.x0(), s.y0()),
            strip.toFile(s.x1(), s.y0()),
            strip.toFile(s.x1(), s.y1()),
            strip.toFile(s.x0(), s.y1())),
        Math.min(1, Math.max(0, s.probability())),
        readings,
        s.kind() == SignKind.REHEARSAL || s.kind() == SignKind.BAR_NUMBER
            ? Optional.of(Surround.around(strip, s))
            : Optional.empty());
  }

  private static double across(double v) {
    return (v - StripImage.MIDDLE) / StripImage.SPACE;
  }
}
