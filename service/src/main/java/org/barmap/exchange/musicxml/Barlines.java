package org.barmap.exchange.musicxml;

import java.math.BigInteger;
import java.util.Optional;
import org.audiveris.proxymusic.BackwardForward;
import org.audiveris.proxymusic.BarStyle;
import org.audiveris.proxymusic.BarStyleColor;
import org.audiveris.proxymusic.Repeat;
import org.barmap.map.Barline;

/** Barlines between the two worlds; MusicXML has eleven styles, a bar map seven. */
public final class Barlines {

  private Barlines() {}

  /** Tells whether a repeat begins here. */
  public static boolean isForward(org.audiveris.proxymusic.Barline b) {
    return b.getRepeat() != null && b.getRepeat().getDirection() == BackwardForward.FORWARD;
  }

  /** Returns how often the stretch before is played in all, where a backward repeat says so. */
  static Optional<Integer> times(org.audiveris.proxymusic.Barline b) {
    Repeat repeat = b.getRepeat();
    if (repeat == null
        || repeat.getDirection() != BackwardForward.BACKWARD
        || repeat.getTimes() == null) {
      return Optional.empty();
    }
    BigInteger times = repeat.getTimes();
    return times.bitLength() < 10 && times.signum() > 0
        ? Optional.of(times.intValue())
        : Optional.empty();
  }

  /** Returns what a right barline is. */
  public static Barline right(org.audiveris.proxymusic.Barline b) {
    if (b.getRepeat() != null && b.getRepeat().getDirection() == BackwardForward.BACKWARD) {
      return Barline.REPEAT_END;
    }
    if (isForward(b)) {
      return Barline.REPEAT_START;
    }
    BarStyle style = b.getBarStyle() == null ? null : b.getBarStyle().getValue();
    if (style == null) {
      return Barline.SINGLE;
    }
    return switch (style) {
      case LIGHT_LIGHT -> Barline.DOUBLE;
      case LIGHT_HEAVY, HEAVY_HEAVY, HEAVY -> Barline.FINAL;
      case DASHED, DOTTED -> Barline.DASHED;
      case NONE -> Barline.NONE;
      default -> Barline.SINGLE;
    };
  }

  /** Returns the style a right barline is drawn with; empty for a single line. */
  static Optional<BarStyle> style(Barline barline) {
    return switch (barline) {
      case NONE -> Optional.of(BarStyle.NONE);
      case SINGLE, REPEAT_START -> Optional.empty();
      case DOUBLE -> Optional.of(BarStyle.LIGHT_LIGHT);
      case FINAL, REPEAT_END, REPEAT_BOTH -> Optional.of(BarStyle.LIGHT_HEAVY);
      case DASHED -> Optional.of(BarStyle.DASHED);
    };
  }

  /** Returns a style as the binding wants it. */
  static BarStyleColor drawn(BarStyle style) {
    BarStyleColor drawn = new BarStyleColor();
    drawn.setValue(style);
    return drawn;
  }

  /** Tells whether a barline sends the player back. */
  public static boolean sendsBack(Barline barline) {
    return barline == Barline.REPEAT_END || barline == Barline.REPEAT_BOTH;
  }

  /** Tells whether a repeat begins after a barline. */
  public static boolean opens(Barline barline) {
    return barline == Barline.REPEAT_START || barline == Barline.REPEAT_BOTH;
  }
}
