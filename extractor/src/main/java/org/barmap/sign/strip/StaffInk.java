package org.barmap.sign.strip;

/** Tells where on a staff something is written besides its lines. */
public final class StaffInk {

  private static final int DARK = 140;

  /** Staff lines may be this light and still be there. */
  private static final int FAINT = 225;

  /** Columns without staff lines that end a staff, pixels. */
  private static final int GUTTER = 24;

  /** Faint lines in dashes still show this many in a column on average. */
  private static final double DASHES = 0.5;

  /** That many columns with all five lines are still in a window with next to none. */
  private static final int LAST_SEEN = 2;

  /** Rows this near a staff line may be the line itself, pixels. */
  private static final int LINE = 2;

  /** Dark pixels between the lines that make a column written on. */
  private static final int WRITTEN = 4;

  /** Columns written on among {@link StripImage#SPACE} that are more than specks. */
  private static final int ENOUGH = 3;

  private StaffInk() {}

  /** Returns how far along the staff, in staff spaces, there is ink between its lines. */
  public static double end(StripImage strip) {
    int last = Math.max(0, gutter(strip) - 2);
    boolean[] column = new boolean[last + 1];
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

  /**
   * Returns where the staff's own lines begin, in staff spaces: a staff followed over a gutter from
   * the facing page has none there.
   */
  public static double begin(StripImage strip) {
    Window window = new Window();
    for (int u = strip.width() / 2; u >= StripImage.LEFT; u--) {
      if (window.isBare(lines(strip, u))) {
        return (u + GUTTER - LAST_SEEN - (double) StripImage.LEFT) / StripImage.SPACE;
      }
    }
    return 0;
  }

  /** Returns where the staff's own lines end, in staff spaces. */
  public static double linesEnd(StripImage strip) {
    return (gutter(strip) - (double) StripImage.LEFT) / StripImage.SPACE;
  }

  /**
   * Returns where the staff's lines end for good in its right half: a staff followed over a gutter
   * into the facing page has none there.
   */
  private static int gutter(StripImage strip) {
    int end = strip.width() - StripImage.LEFT;
    Window window = new Window();
    for (int u = strip.width() / 2; u < end; u++) {
      if (window.isBare(lines(strip, u))) {
        return u - GUTTER;
      }
    }
    return end;
  }

  /** The last columns seen, and how many lines stood in them. */
  private static final class Window {
    private final int[] seen = new int[GUTTER];
    private int next;
    private int sum = 5 * GUTTER;

    Window() {
      java.util.Arrays.fill(seen, 5);
    }

    /** Takes another column; tells whether next to nothing is left of lines. */
    boolean isBare(int lines) {
      sum += lines - seen[next];
      seen[next] = lines;
      next = (next + 1) % GUTTER;
      return sum < DASHES * GUTTER;
    }
  }

  /** Returns how many of the five lines are there in a column. */
  private static int lines(StripImage strip, int u) {
    int lines = 0;
    for (int line = -2; line <= 2; line++) {
      int middle = StripImage.MIDDLE + line * StripImage.SPACE;
      boolean dark = false;
      for (int v = middle - LINE; v <= middle + LINE; v++) {
        dark |= (strip.gray()[v * strip.width() + u] & 0xff) < FAINT;
      }
      lines += dark ? 1 : 0;
    }
    return lines;
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
