package org.barmap.sign.rule;

import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.strip.StripImage;

/** Where the numbers of an ending's bracket stand. */
public final class Bracket {

  /** The hook and the line are this thick with what surrounds them, pixels. */
  private static final int INSET = 4;

  /** Numbers reach at most this far from the hook, pixels. */
  private static final double NUMBERS = 4.5 * StripImage.SPACE;

  private Bracket() {}

  /** Returns the part of an ending's box that holds its numbers, right of the hook. */
  public static RawSign numerals(RawSign s) {
    if (s.kind() != SignKind.ENDING) {
      return s;
    }
    double left = s.x0() + INSET;
    double right = Math.min(s.x1(), left + NUMBERS);
    return new RawSign(
        s.kind(), left, s.y0() + INSET, right, s.y1(), s.probability(), s.readings());
  }
}
