package org.barmap.sign.rule;

import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.set.NumberSettings;
import org.barmap.sign.set.SignSettings;
import org.barmap.sign.strip.StripImage;

/** Where the numbers of an ending's bracket stand. */
public final class Bracket {

  private static final NumberSettings.Bracket SET = SignSettings.STANDARD.number().bracket();

  private Bracket() {}

  /** Returns the part of an ending's box that holds its numbers, right of the hook. */
  public static RawSign numerals(RawSign s) {
    if (s.kind() != SignKind.ENDING) {
      return s;
    }
    double left = s.x0() + SET.inset();
    double right = Math.min(s.x1(), left + SET.numbers() * StripImage.SPACE);
    return s.in(left, s.y0() + SET.inset(), right, s.y1());
  }
}
