package org.barmap.exchange.musicxml.book;

import java.math.BigDecimal;
import java.util.Optional;
import org.audiveris.proxymusic.Attributes;
import org.audiveris.proxymusic.Backup;
import org.audiveris.proxymusic.Forward;
import org.audiveris.proxymusic.Note;
import org.audiveris.proxymusic.YesNo;

/** How long a measure is by what is in it, and where in it somebody plays; quarters. */
final class Lengths {
  /** Longer than any bar: absurd durations do no harm. */
  private static final double MOST = 1000;

  private static final double NEVER = -1;

  private double divisions = 1;
  private double at;
  private double all;
  private double first = NEVER;
  private double last;
  private boolean plays;
  private boolean hidden;
  private boolean lyrics;

  /** Begins the next measure. */
  void begin() {
    at = 0;
    all = 0;
    first = NEVER;
    last = 0;
    plays = false;
    hidden = false;
    lyrics = false;
  }

  /** Takes what comes next in the measure. */
  void take(Object o) {
    if (o instanceof Attributes a && a.getDivisions() != null && a.getDivisions().signum() > 0) {
      divisions = a.getDivisions().doubleValue();
    } else if (o instanceof Note n) {
      note(n);
    } else if (o instanceof Backup b) {
      at = Math.max(0, at - quarters(b.getDuration()));
    } else if (o instanceof Forward f) {
      go(quarters(f.getDuration()));
    }
  }

  private void note(Note n) {
    lyrics |= !n.getLyric().isEmpty();
    if (n.getGrace() != null) {
      return;
    }
    double length = quarters(n.getDuration());
    double start = n.getChord() != null ? Math.max(0, at - length) : at;
    if (n.getRest() == null && n.getCue() == null) {
      plays = true;
      first = first == NEVER ? start : Math.min(first, start);
      last = Math.max(last, start + length);
    }
    hidden |= n.getRest() != null && n.getPrintObject() == YesNo.NO;
    if (n.getChord() == null) {
      go(length);
    }
  }

  private void go(double quarters) {
    at = Math.min(MOST, at + quarters);
    all = Math.max(all, at);
  }

  private double quarters(BigDecimal duration) {
    return duration == null || duration.signum() < 0
        ? 0
        : Math.min(MOST, duration.doubleValue() / divisions);
  }

  double all() {
    return all;
  }

  /** Tells whether nobody plays, and no undrawn rest stands for music. */
  boolean idle() {
    return !plays && !hidden;
  }

  boolean lyrics() {
    return lyrics;
  }

  Optional<Double> silentStart() {
    return plays ? Optional.of(first) : Optional.empty();
  }

  Optional<Double> silentEnd() {
    return plays ? Optional.of(Math.max(0, all - last)) : Optional.empty();
  }
}
