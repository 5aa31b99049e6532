package org.barmap.sign;

import org.barmap.map.Enclosure;

/** Tells what is drawn around a rehearsal mark from the ink along the sides of its box. */
final class Frame {

  /** Share of a side's length that must carry ink. */
  private static final double CLOSED = 0.75;

  /** How far a side may lie from where the box says, pixels. */
  private static final int OFF = 2;

  private Frame() {}

  static Enclosure around(StripImage strip, RawSign sign) {
    double w = sign.width();
    double h = sign.height();
    double top = across(strip, sign, sign.y0(), 0.08, 0.92);
    double bottom = across(strip, sign, sign.y1(), 0.08, 0.92);
    double left = down(strip, sign, sign.x0(), 0.08, 0.92);
    double right = down(strip, sign, sign.x1(), 0.08, 0.92);
    if (Math.min(Math.min(top, bottom), Math.min(left, right)) >= CLOSED) {
      return Enclosure.BOX;
    }
    boolean round = w < 1.6 * h && h < 1.6 * w && Math.min(w, h) > 2 * StripImage.SPACE;
    double middles =
        Math.min(
            Math.min(
                across(strip, sign, sign.y0(), 0.4, 0.6), across(strip, sign, sign.y1(), 0.4, 0.6)),
            Math.min(
                down(strip, sign, sign.x0(), 0.4, 0.6), down(strip, sign, sign.x1(), 0.4, 0.6)));
    return round && middles >= CLOSED ? Enclosure.CIRCLE : Enclosure.NONE;
  }

  /** Returns the most ink any line near a horizontal side carries. */
  private static double across(StripImage strip, RawSign sign, double y, double from, double to) {
    double best = 0;
    for (int d = -OFF; d <= OFF; d++) {
      int v = (int) Math.round(y - 0.5) + d;
      double w = sign.width();
      best = Math.max(best, Ink.row(strip, v, sign.x0() + from * w, sign.x0() + to * w));
    }
    return best;
  }

  private static double down(StripImage strip, RawSign sign, double x, double from, double to) {
    double best = 0;
    for (int d = -OFF; d <= OFF; d++) {
      int u = (int) Math.round(x - 0.5) + d;
      double h = sign.height();
      best = Math.max(best, Ink.column(strip, u, sign.y0() + from * h, sign.y0() + to * h));
    }
    return best;
  }
}
