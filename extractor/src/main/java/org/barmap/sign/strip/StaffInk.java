package org.barmap.sign.strip;

import org.barmap.sign.set.InkSettings;
import org.barmap.sign.set.SignSettings;

/** Tells where on a staff something is written besides its lines. */
public final class StaffInk {

  private static final InkSettings SET = SignSettings.STANDARD.ink();

  private static final InkSettings.Lines LINES = SignSettings.STANDARD.ink().lines();

  private static final int STAFF_LINES = 5;

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
      if (column[u] && written >= SET.written().columns()) {
        return StripImage.along(u + 1.0);
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
        return (u + LINES.gutter() - LINES.lastSeen() - (double) StripImage.LEFT)
            / StripImage.SPACE;
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
        return u - LINES.gutter();
      }
    }
    return end;
  }

  /** The last columns seen, and how many lines stood in them. */
  private static final class Window {
    private final int[] seen = new int[LINES.gutter()];
    private int next;
    private int sum = STAFF_LINES * LINES.gutter();

    Window() {
      java.util.Arrays.fill(seen, STAFF_LINES);
    }

    /** Takes another column; tells whether next to nothing is left of lines. */
    boolean isBare(int lines) {
      sum += lines - seen[next];
      seen[next] = lines;
      next = (next + 1) % LINES.gutter();
      return sum < LINES.dashes() * LINES.gutter();
    }
  }

  /** Returns how many of the five lines are there in a column. */
  private static int lines(StripImage strip, int u) {
    int lines = 0;
    for (int line = -2; line <= 2; line++) {
      int middle = StripImage.MIDDLE + line * StripImage.SPACE;
      boolean dark = false;
      for (int v = middle - LINES.reach(); v <= middle + LINES.reach(); v++) {
        dark |= (strip.gray()[v * strip.width() + u] & 0xff) < LINES.faint();
      }
      lines += dark ? 1 : 0;
    }
    return lines;
  }

  private static boolean isWritten(StripImage strip, int u) {
    int dark = 0;
    for (int gap = -2; gap < 2; gap++) {
      int top = StripImage.MIDDLE + gap * StripImage.SPACE;
      for (int v = top + LINES.reach(); v <= top + StripImage.SPACE - LINES.reach(); v++) {
        dark += (strip.gray()[v * strip.width() + u] & 0xff) < SET.dark() ? 1 : 0;
      }
    }
    return dark >= SET.written().dark();
  }
}
