package org.barmap.sign.rule;

import org.barmap.map.Enclosure;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.strip.Ink;
import org.barmap.sign.strip.StripImage;

/** Tells what is drawn around a rehearsal mark from the ink along the sides of its box. */
final class Frame {

  /** Share of a side's length that must carry ink. */
  private static final double CLOSED = 0.75;

  /** How far a side may lie from where the box says, pixels. */
  private static final int OFF = 2;

  /** Share of a side from corner to corner that must carry ink: bold figures have no corners. */
  private static final double MEETS = 0.68;

  /** Frames are mostly taller; what is lower may be bold figures that fill their box, pixels. */
  private static final double LOW = 2 * StripImage.SPACE;

  private Frame() {}

  static Enclosure around(StripImage strip, RawSign sign) {
    double w = sign.width();
    double h = sign.height();
    double top = across(strip, sign, sign.y0(), 0.08, 0.92);
    double bottom = across(strip, sign, sign.y1(), 0.08, 0.92);
    double left = down(strip, sign, sign.x0(), 0.08, 0.92);
    double right = down(strip, sign, sign.x1(), 0.08, 0.92);
    if (Math.min(Math.min(top, bottom), Math.min(left, right)) >= CLOSED) {
      return h >= LOW || meets(strip, sign) ? Enclosure.BOX : Enclosure.NONE;
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

  /** Tells whether the sides meet at the corners. */
  private static boolean meets(StripImage strip, RawSign sign) {
    double least = 1;
    for (double y : new double[] {sign.y0(), sign.y1()}) {
      int v = row(strip, sign, y, 0.08, 0.92);
      least = Math.min(least, Ink.row(strip, v, sign.x0() - 1, sign.x1() + 1));
    }
    for (double x : new double[] {sign.x0(), sign.x1()}) {
      int u = column(strip, sign, x, 0.08, 0.92);
      least = Math.min(least, Ink.column(strip, u, sign.y0() - 1, sign.y1() + 1));
    }
    return least >= MEETS;
  }

  /** Returns the most ink any line near a horizontal side carries. */
  private static double across(StripImage strip, RawSign sign, double y, double from, double to) {
    double w = sign.width();
    int v = row(strip, sign, y, from, to);
    return Ink.row(strip, v, sign.x0() + from * w, sign.x0() + to * w);
  }

  private static double down(StripImage strip, RawSign sign, double x, double from, double to) {
    double h = sign.height();
    int u = column(strip, sign, x, from, to);
    return Ink.column(strip, u, sign.y0() + from * h, sign.y0() + to * h);
  }

  /** Returns the row near a horizontal side that carries the most ink. */
  private static int row(StripImage strip, RawSign sign, double y, double from, double to) {
    double w = sign.width();
    double best = -1;
    int row = 0;
    for (int d = -OFF; d <= OFF; d++) {
      int v = (int) Math.round(y - 0.5) + d;
      double ink = Ink.row(strip, v, sign.x0() + from * w, sign.x0() + to * w);
      row = ink > best ? v : row;
      best = Math.max(best, ink);
    }
    return row;
  }

  private static int column(StripImage strip, RawSign sign, double x, double from, double to) {
    double h = sign.height();
    double best = -1;
    int column = 0;
    for (int d = -OFF; d <= OFF; d++) {
      int u = (int) Math.round(x - 0.5) + d;
      double ink = Ink.column(strip, u, sign.y0() + from * h, sign.y0() + to * h);
      column = ink > best ? u : column;
      best = Math.max(best, ink);
    }
    return column;
  }
}
