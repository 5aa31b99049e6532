package org.barmap.exchange.musicxml;

import java.math.BigInteger;
import java.util.Optional;
import org.audiveris.proxymusic.BackwardForward;
import org.audiveris.proxymusic.BarStyle;
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
}
