package org.barmap.sign.rule;

import java.util.Optional;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.set.MarkSettings;
import org.barmap.sign.set.SignSettings;
import org.barmap.sign.strip.Ink;
import org.barmap.sign.strip.StripImage;

/** Tells segno and coda from figures and letters by the strokes through them. */
final class SignShape {

  private static final MarkSettings.Shapes SET = SignSettings.STANDARD.mark().shapes();

  private SignShape() {}

  /** Returns what a bare sign over the staff is by its shape, if it is a segno or coda. */
  static Optional<SignKind> of(StripImage strip, RawSign sign) {
    boolean tall =
        sign.height() >= SET.tall() * StripImage.SPACE && sign.width() < SET.wide() * sign.height();
    if (!tall) {
      return Optional.empty();
    }
    if (down(strip, sign) >= SET.stroke() && across(strip, sign) >= SET.crossbar()) {
      return Optional.of(SignKind.CODA);
    }
    return slash(strip, sign) >= SET.stroke() ? Optional.of(SignKind.SEGNO) : Optional.empty();
  }

  private static double down(StripImage strip, RawSign s) {
    double best = 0;
    for (double u = s.centre() - SET.reach(); u <= s.centre() + SET.reach(); u++) {
      best = Math.max(best, Ink.column(strip, (int) Math.round(u), s.y0() + 1, s.y1() - 1));
    }
    return best;
  }

  private static double across(StripImage strip, RawSign s) {
    double best = 0;
    double middle = (s.y0() + s.y1()) / 2;
    for (double v = middle - SET.reach(); v <= middle + SET.reach(); v++) {
      best = Math.max(best, Ink.row(strip, (int) Math.round(v), s.x0() + 1, s.x1() - 1));
    }
    return best;
  }

  /** The share of ink from the lower left to the upper right; a figure leaves its corners empty. */
  private static double slash(StripImage strip, RawSign s) {
    int steps = (int) Math.ceil(s.height());
    int dark = 0;
    for (int i = 1; i < steps; i++) {
      int u = (int) Math.round(s.x0() + s.width() * i / steps);
      int v = (int) Math.round(s.y1() - s.height() * i / steps);
      boolean ink = Ink.at(strip, u, v) || Ink.at(strip, u - 1, v) || Ink.at(strip, u + 1, v);
      dark += ink ? 1 : 0;
    }
    return steps < 2 ? 0 : dark / (steps - 1.0);
  }
}
