package org.barmap.staff;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.opencv.core.Rect;

/**
 * What a staff of one line or two is besides its lines, and how its strip is drawn as one of five
 * lines, which is what the network reads.
 *
 * <p>What hangs together with the lines (heads and stems, rests, meters, barlines) stays where it
 * is; all else moves outwards, since counts, words and marks stand just outside the outer line,
 * which is nearer here. Then the lines are drawn that aren't there, and barlines up to the outer
 * ones.
 *
 * @param lines which of the five lines its own are, from -2, the top line, to 2; one or two
 * @param half half the height of its barlines, staff spaces
 * @param bars its barlines
 * @param rests whole rests that hang from the middle line, and are drawn hanging from the one
 *     above, where five lines have them
 * @param held what hangs together with the lines
 */
record FewLines(TwoLines.Own lines, double half, List<Bar> bars, List<Bar> rests, Held held) {

  private static final LoneSettings.Drawn SET = LoneSettings.STANDARD.drawn();
  private static final int PAPER = 255;

  FewLines {
    bars = List.copyOf(bars);
    rests = List.copyOf(rests);
  }

  /**
   * A barline, a stroke of one, or a rest.
   *
   * @param from left side along the staff, staff spaces
   * @param to right side
   */
  record Bar(double from, double to) {}

  /** Which pixels of a strip hang together with the lines, at {@link #PX} pixels a space. */
  static final class Held {

    /** Pixels a staff space. */
    static final int PX = 8;

    private final int width;
    private final boolean[] is;
    private final int offset;

    private Held(int width, boolean[] is, int offset) {
      this.width = width;
      this.is = is;
      this.offset = offset;
    }

    /** Looks at the strip of a staff as it is on the page. */
    static Held of(byte[] gray, int width, TwoLines.Own lines) {
      int height = gray.length / width;
      boolean[] is = new boolean[gray.length];
      int[] next = new int[gray.length];
      int end = 0;
      int band = (int) Math.round(SET.band() * PX);
      int top = (Strip.MIDDLE + lines.upper()) * PX - band;
      int bottom = (Strip.MIDDLE + lines.lower()) * PX + band;
      // All between two lines stays too.
      for (int v = top; v <= bottom; v++) {
        for (int u = 0; u < width; u++) {
          is[v * width + u] = true;
          next[end++] = v * width + u;
        }
      }
      // On from the lines through all ink that touches; not along it, for all of it is in.
      for (int i = 0; i < end; i++) {
        int u = next[i] % width;
        int v = next[i] / width;
        for (int dv = -1; dv <= 1; dv++) {
          for (int du = -1; du <= 1; du++) {
            int at = (v + dv) * width + u + du;
            boolean inside = u + du >= 0 && u + du < width && v + dv >= 0 && v + dv < height;
            if (inside && !is[at] && (gray[at] & 0xff) < SET.touching()) {
              is[at] = true;
              next[end++] = at;
            }
          }
        }
      }
      return new Held(width, grown(is, width), 0);
    }

    /** With the pale rim of the ink. */
    private static boolean[] grown(boolean[] is, int width) {
      boolean[] out = is.clone();
      for (int at = width + 1; at < is.length - width - 1; at++) {
        out[at] = is[at] || is[at - 1] || is[at + 1] || is[at - width] || is[at + width];
      }
      return out;
    }

    /** The same for a strip that begins so many spaces later. */
    Held from(double spaces) {
      return new Held(width, is, offset + (int) Math.round(spaces * PX));
    }

    /**
     * Tells whether a pixel of a strip with so many pixels a space hangs together with the lines.
     */
    boolean at(int u, int v, int px) {
      int column = u * PX / px + offset;
      int row = Math.floorDiv(v * PX, px);
      return column >= 0
          && column < width
          && row >= 0
          && row < is.length / width
          && is[row * width + column];
    }
  }

  /** The same for the part of the staff from a position along on. */
  FewLines from(double spaces) {
    return new FewLines(lines, half, moved(bars, spaces), moved(rests, spaces), held.from(spaces));
  }

  private static List<Bar> moved(List<Bar> bars, double spaces) {
    return bars.stream().map(b -> new Bar(b.from - spaces, b.to - spaces)).toList();
  }

  /** Returns the part of the page's strip that a part of the drawn one is made from. */
  Rect source(Rect part, int px) {
    int up = lines.down() * px;
    return new Rect(part.x, part.y - up, part.width, part.height + up + lines.up() * px);
  }

  /**
   * Draws a part of the strip.
   *
   * @param page the strip as it is on the page, of {@link #source}
   * @param length of the staff, staff spaces
   * @param lined whether the other lines are drawn, and barlines up to them
   */
  byte[] drawn(byte[] page, Rect part, int px, double length, boolean lined) {
    byte[] gray = new byte[part.width * part.height];
    Arrays.fill(gray, (byte) PAPER);
    int before = lines.down() * px; // what the page's part begins with
    int top = (Strip.MIDDLE + lines.upper()) * px;
    int bottom = (Strip.MIDDLE + lines.lower()) * px;
    for (int j = 0; j < part.height; j++) {
      int v = part.y + j;
      boolean above = v < top;
      int from = above ? v + lines.up() * px : v - lines.down() * px;
      boolean outside = above ? from < top : from >= bottom;
      for (int i = 0; i < part.width; i++) {
        int u = part.x + i;
        int own = page[(j + before) * part.width + i] & 0xff;
        int value = held.at(u, v, px) ? own : PAPER;
        if (outside && !held.at(u, from, px)) {
          int row = from - part.y + before;
          value = Math.min(value, page[row * part.width + i] & 0xff);
        }
        gray[j * part.width + i] = (byte) value;
      }
    }
    rests(gray, page, part, px);
    if (lined) {
      bars(gray, part, px);
      lines(gray, part, px, length);
    }
    return gray;
  }

  /**
   * Finds the whole rests on the strip of a staff as it is on the page: blocks under the line, with
   * nothing over it.
   */
  static List<Bar> rests(byte[] gray, int width) {
    List<Bar> rests = new ArrayList<>();
    int start = -1;
    for (int u = 0; u <= width; u++) {
      boolean hangs = u < width && hangs(gray, width, u);
      if (hangs && start < 0) {
        start = u;
      } else if (!hangs && start >= 0) {
        double wide = (u - start) / (double) Held.PX;
        if (wide >= SET.restWide() && wide <= SET.restWidest()) {
          rests.add(
              new Bar((start - 1.0) / Held.PX - Strip.MARGIN, (u + 1.0) / Held.PX - Strip.MARGIN));
        }
        start = -1;
      }
    }
    return rests;
  }

  private static boolean hangs(byte[] gray, int width, int u) {
    return dark(gray, width, u, SET.restFrom(), SET.restTo())
        && !touched(gray, width, u, SET.restUnder(), 1)
        && !touched(gray, width, u, -1, -SET.band());
  }

  private static boolean dark(byte[] gray, int width, int u, double from, double to) {
    for (int row = row(from, Held.PX, 0); row <= row(to, Held.PX, 0); row++) {
      if ((gray[row * width + u] & 0xff) >= SET.touching()) {
        return false;
      }
    }
    return true;
  }

  private static boolean touched(byte[] gray, int width, int u, double from, double to) {
    for (int row = row(from, Held.PX, 0); row < row(to, Held.PX, 0); row++) {
      if ((gray[row * width + u] & 0xff) < SET.touching()) {
        return true;
      }
    }
    return false;
  }

  /** Hangs whole rests a space higher, clear of the line itself. */
  private void rests(byte[] gray, byte[] page, Rect part, int px) {
    for (Bar rest : rests) {
      int from = Math.max(0, (int) Math.floor((rest.from + Strip.MARGIN) * px) - part.x);
      int to = Math.min(part.width, (int) Math.ceil((rest.to + Strip.MARGIN) * px) - part.x);
      for (int v = row(SET.restFrom(), px, 0); v < row(1, px, 0); v++) {
        int row = v - part.y;
        int higher = row - px;
        for (int u = from; u < to; u++) {
          // The page's strip begins higher than the part.
          int own = row + lines.down() * px;
          int value =
              own < 0 || own * part.width >= page.length
                  ? PAPER
                  : page[own * part.width + u] & 0xff;
          if (higher >= 0 && higher < part.height) {
            darken(gray, higher * part.width + u, value);
          }
          if (row >= 0 && row < part.height) {
            gray[row * part.width + u] = (byte) PAPER;
          }
        }
      }
    }
  }

  private void bars(byte[] gray, Rect part, int px) {
    for (Bar bar : bars) {
      int from = Math.max(0, (int) Math.floor((bar.from + Strip.MARGIN) * px) - part.x);
      int to = Math.min(part.width, (int) Math.ceil((bar.to + Strip.MARGIN) * px) - part.x);
      for (int side = -1; side <= 1; side += 2) {
        double end = side * lines.centre() + SET.from() * half;
        // Where it is looked at it must be clear of its lines.
        double clear = side * lines.centre() + Math.min(SET.from() * half, lines.clear());
        int like = row(side * clear, px, part.y);
        for (double y = end; y <= 2; y += 1.0 / (2 * px)) {
          int row = row(side * y, px, part.y);
          if (row >= 0 && row < part.height && like >= 0 && like < part.height) {
            for (int u = from; u < to; u++) {
              darken(gray, row * part.width + u, gray[like * part.width + u] & 0xff);
            }
          }
        }
      }
    }
  }

  private static int row(double across, int px, int top) {
    return (int) Math.floor((Strip.MIDDLE + across) * px) - top;
  }

  private void lines(byte[] gray, Rect part, int px, double length) {
    int first = Math.max(0, Strip.MARGIN * px - part.x);
    int last = (int) Math.min(part.width, Math.ceil((Strip.MARGIN + length) * px) - part.x);
    double thick = SET.thick() * px;
    for (int k = -2; k <= 2; k++) {
      // Its middle lies between pixels: as gray as it covers each row.
      double middle = (Strip.MIDDLE + k) * px - part.y;
      for (int row = (int) Math.floor(middle - thick); row <= middle + thick; row++) {
        double covered = Math.min(row + 1, middle + thick / 2) - Math.max(row, middle - thick / 2);
        if (lines.has(k) || row < 0 || row >= part.height || covered <= 0) {
          continue;
        }
        int value = (int) Math.round(PAPER - Math.min(1, covered) * (PAPER - SET.ink()));
        for (int u = first; u < last; u++) {
          darken(gray, row * part.width + u, value);
        }
      }
    }
  }

  private static void darken(byte[] gray, int at, int value) {
    gray[at] = (byte) Math.min(gray[at] & 0xff, value);
  }
}
