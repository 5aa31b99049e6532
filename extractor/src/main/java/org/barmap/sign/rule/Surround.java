package org.barmap.sign.rule;

import java.util.function.IntToDoubleFunction;
import org.barmap.map.Enclosure;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.set.MarkSettings;
import org.barmap.sign.set.SignSettings;
import org.barmap.sign.strip.Ink;
import org.barmap.sign.strip.StripImage;

/** Tells what is drawn around a rehearsal mark from the ink along the sides of its box. */
final class Surround {

  private static final MarkSettings.Sides SET = SignSettings.STANDARD.mark().sides();

  private Surround() {}

  static Enclosure around(StripImage strip, RawSign sign) {
    double w = sign.width();
    double h = sign.height();
    double top = across(strip, sign, sign.y0(), SET.corner());
    double bottom = across(strip, sign, sign.y1(), SET.corner());
    double left = down(strip, sign, sign.x0(), SET.corner());
    double right = down(strip, sign, sign.x1(), SET.corner());
    if (Math.min(Math.min(top, bottom), Math.min(left, right)) >= SET.closed()) {
      return h >= SET.low() * StripImage.SPACE || meets(strip, sign)
          ? Enclosure.BOX
          : Enclosure.NONE;
    }
    boolean round =
        w < SET.round() * h && h < SET.round() * w && Math.min(w, h) > SET.low() * StripImage.SPACE;
    double middles =
        Math.min(
            Math.min(
                across(strip, sign, sign.y0(), SET.middle()),
                across(strip, sign, sign.y1(), SET.middle())),
            Math.min(
                down(strip, sign, sign.x0(), SET.middle()),
                down(strip, sign, sign.x1(), SET.middle())));
    return round && middles >= SET.closed() ? Enclosure.CIRCLE : Enclosure.NONE;
  }

  /** Tells whether the sides meet at the corners. */
  private static boolean meets(StripImage strip, RawSign sign) {
    double least = 1;
    for (double y : new double[] {sign.y0(), sign.y1()}) {
      int v = row(strip, sign, y, SET.corner());
      least = Math.min(least, Ink.row(strip, v, sign.x0() - 1, sign.x1() + 1));
    }
    for (double x : new double[] {sign.x0(), sign.x1()}) {
      int u = column(strip, sign, x, SET.corner());
      least = Math.min(least, Ink.column(strip, u, sign.y0() - 1, sign.y1() + 1));
    }
    return least >= SET.meets();
  }

  /** Returns the most ink any line near a horizontal side carries. */
  private static double across(StripImage strip, RawSign sign, double y, double out) {
    double w = sign.width();
    int v = row(strip, sign, y, out);
    return Ink.row(strip, v, sign.x0() + out * w, sign.x0() + (1 - out) * w);
  }

  private static double down(StripImage strip, RawSign sign, double x, double out) {
    double h = sign.height();
    int u = column(strip, sign, x, out);
    return Ink.column(strip, u, sign.y0() + out * h, sign.y0() + (1 - out) * h);
  }

  /** Returns the row near a horizontal side that carries the most ink. */
  private static int row(StripImage strip, RawSign sign, double y, double out) {
    double w = sign.width();
    return most(y, v -> Ink.row(strip, v, sign.x0() + out * w, sign.x0() + (1 - out) * w));
  }

  private static int column(StripImage strip, RawSign sign, double x, double out) {
    double h = sign.height();
    return most(x, u -> Ink.column(strip, u, sign.y0() + out * h, sign.y0() + (1 - out) * h));
  }

  /** Returns the place near a side that carries the most ink. */
  private static int most(double side, IntToDoubleFunction ink) {
    double best = -1;
    int place = 0;
    for (int d = -SET.off(); d <= SET.off(); d++) {
      int at = (int) Math.round(side - 0.5) + d;
      double own = ink.applyAsDouble(at);
      place = own > best ? at : place;
      best = Math.max(best, own);
    }
    return place;
  }
}
