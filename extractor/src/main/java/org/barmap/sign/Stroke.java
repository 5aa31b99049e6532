package org.barmap.sign;

/**
 * A second, unlearned look at a place where a barline may stand: does a stroke run from the top
 * line to the bottom line and stop there?
 *
 * @param covered share of the staff's height the stroke covers, 0 to 1
 * @param above share of ink just over the top line, 0 to 1
 * @param below share of ink just under the bottom line, 0 to 1
 */
record Stroke(double covered, double above, double below) {
  private static final int TOP = StripImage.MIDDLE - 2 * StripImage.SPACE;
  private static final int BOTTOM = StripImage.MIDDLE + 2 * StripImage.SPACE;
  private static final int INK = 128;

  /** How far a stroke may lean over the height of the staff, pixels. */
  private static final int LEAN = 3;

  /** Looks at the best stroke through a column, allowing for a lean and a pixel to either side. */
  static Stroke at(StripImage strip, int u) {
    byte[] gray = strip.gray();
    Stroke best = new Stroke(0, 0, 0);
    for (int shift = -1; shift <= 1; shift++) {
      for (int lean = -LEAN; lean <= LEAN; lean++) {
        double covered = share(gray, strip.width(), u + shift, lean, TOP, BOTTOM);
        if (covered > best.covered) {
          best =
              new Stroke(
                  covered,
                  share(gray, strip.width(), u + shift, lean, TOP - 7, TOP - 3),
                  share(gray, strip.width(), u + shift, lean, BOTTOM + 4, BOTTOM + 8));
        }
      }
    }
    return best;
  }

  private static double share(byte[] gray, int width, int u, int lean, int from, int to) {
    int n = 0;
    for (int v = from; v < to; v++) {
      int x = u + Math.round((float) lean * (v - StripImage.MIDDLE) / (BOTTOM - TOP));
      if (x >= 1 && x < width - 1) {
        int row = v * width;
        int dark =
            Math.min(
                gray[row + x] & 0xff, Math.min(gray[row + x - 1] & 0xff, gray[row + x + 1] & 0xff));
        n += dark < INK ? 1 : 0;
      }
    }
    return (double) n / (to - from);
  }

  /** Tells whether it begins at the top line and ends at the bottom line. */
  boolean isWhole() {
    return covered > 0.93 && above < 0.6 && below < 0.6;
  }
}
