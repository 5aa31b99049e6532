package org.barmap.sign;

/** Tells where on a staff something is written besides its lines. */
final class StaffInk {

  private static final int DARK = 140;

  /** Rows this near a staff line may be the line itself, pixels. */
  private static final int LINE = 2;

  /** Dark pixels between the lines that make a column written on. */
  private static final int WRITTEN = 4;

  /** Columns written on among {@link StripImage#SPACE} that are more than specks. */
  private static final int ENOUGH = 3;

  private StaffInk() {}

  /**
   * Returns how far along the staff, in staff spaces from its left end, there is ink between its
   * lines.
   */
  static double end(StripImage strip) {
    int last = Math.min(strip.width(), strip.width() - StripImage.LEFT) - 2;
    boolean[] column = new boolean[Math.max(0, last) + 1];
    for (int u = 0; u <= last; u++) {
      column[u] = isWritten(strip, u);
    }
    for (int u = last; u >= StripImage.LEFT; u--) {
      int written = 0;
      for (int k = 0; k < StripImage.SPACE && u - k >= 0; k++) {
        written += column[u - k] ? 1 : 0;
      }
      if (column[u] && written >= ENOUGH) {
        return (u + 1.0 - StripImage.LEFT) / StripImage.SPACE;
      }
    }
    return 0;
  }

  private static boolean isWritten(StripImage strip, int u) {
    int dark = 0;
    for (int gap = -2; gap < 2; gap++) {
      int top = StripImage.MIDDLE + gap * StripImage.SPACE;
      for (int v = top + LINE; v <= top + StripImage.SPACE - LINE; v++) {
        dark += (strip.gray()[v * strip.width() + u] & 0xff) < DARK ? 1 : 0;
      }
    }
    return dark >= WRITTEN;
  }
}
