package org.barmap.sign.rule;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.set.NoteSettings;
import org.barmap.sign.set.SignSettings;
import org.barmap.sign.strip.StripImage;

/**
 * How large the solid note heads in a bar are.
 *
 * <p>A head is told by the largest circle that fits into its ink; beams, bars and strokes are
 * longer than heads, rests and letters hold smaller circles only.
 */
final class HeadSize {

  private static final NoteSettings.Circles SET = SignSettings.STANDARD.note().circles();

  private static final int FINE = StripImage.FINE;
  private static final int DARK = SignSettings.STANDARD.ink().dark();

  /** A step along a row or a column; distances are in thirds of a pixel. */
  private static final int STRAIGHT = 3;

  /** A step to a corner. */
  private static final int CORNER = 4;

  /** Farther from paper than any ink. */
  private static final int FAR = 9999;

  private HeadSize() {}

  /**
   * Returns the radii of the heads between two places along a staff, largest first, spaces.
   *
   * @param others signs that are no notes and may hold as large a circle
   */
  static List<Double> of(StripImage strip, double from, double to, List<Sign> others) {
    int left = Math.max(0, (int) (2 * StripImage.column(from)));
    int right = Math.min(2 * strip.width(), (int) (2 * StripImage.column(to)));
    int top = Math.max(0, (int) (2 * StripImage.MIDDLE - SET.reach() * FINE));
    int bottom =
        Math.min(2 * StripImage.HEIGHT, (int) (2 * StripImage.MIDDLE + SET.reach() * FINE));
    int width = right - left;
    if (width < FINE) {
      return List.of();
    }
    byte[] gray = strip.fine(left, top, right, bottom);
    for (Sign s : others) {
      clear(gray, width, left, top, s);
    }
    return heads(distances(gray, width), width);
  }

  private static void clear(byte[] gray, int width, int left, int top, Sign s) {
    int x0 = Math.max(0, (int) (2 * StripImage.column(s.from())) - left);
    int x1 = Math.min(width, (int) (2 * StripImage.column(s.to())) - left + 1);
    int y0 = Math.max(0, (int) (2 * StripImage.MIDDLE + s.top() * FINE) - top);
    int y1 = Math.min(gray.length / width, (int) (2 * StripImage.MIDDLE + s.bottom() * FINE) - top);
    for (int y = y0; y < y1; y++) {
      for (int x = x0; x < x1; x++) {
        gray[y * width + x] = (byte) 255;
      }
    }
  }

  /** Three times the distance to paper, by chamfer distances (Borgefors 1986). */
  private static int[] distances(byte[] gray, int width) {
    int rows = gray.length / width;
    int[] d = new int[gray.length];
    // what lies at an edge stays 0, so that all neighbours of the others are there
    for (int y = 1; y < rows - 1; y++) {
      for (int i = y * width + 1; i < (y + 1) * width - 1; i++) {
        if ((gray[i] & 0xff) < DARK) {
          int straight = Math.min(d[i - 1], d[i - width]) + STRAIGHT;
          int corner = Math.min(d[i - width - 1], d[i - width + 1]) + CORNER;
          d[i] = Math.min(FAR, Math.min(straight, corner));
        }
      }
    }
    for (int y = rows - 2; y > 0; y--) {
      for (int i = (y + 1) * width - 2; i > y * width; i--) {
        if (d[i] > 0) {
          int straight = Math.min(d[i + 1], d[i + width]) + STRAIGHT;
          int corner = Math.min(d[i + width + 1], d[i + width - 1]) + CORNER;
          d[i] = Math.min(d[i], Math.min(straight, corner));
        }
      }
    }
    return d;
  }

  /** Circles a space apart at least, the largest first. */
  private static List<Double> heads(int[] d, int width) {
    List<Integer> places = new ArrayList<>();
    for (int i = 0; i < d.length; i++) {
      if (d[i] > STRAIGHT * SET.least() * FINE && isHead(d, i, width)) {
        places.add(i);
      }
    }
    places.sort(Comparator.comparingInt((Integer i) -> -d[i]));
    List<Integer> kept = new ArrayList<>();
    List<Double> radii = new ArrayList<>();
    for (int i : places) {
      boolean apart =
          kept.stream()
              .allMatch(k -> Math.hypot(k % width - i % width, k / width - i / width) > FINE);
      if (apart) {
        kept.add(i);
        radii.add(d[i] / (double) (STRAIGHT * FINE));
      }
    }
    return radii;
  }

  private static boolean isHead(int[] d, int i, int width) {
    int along = 1 + run(d, i, 1) + run(d, i, -1);
    int across = 1 + run(d, i, width) + run(d, i, -width);
    return along < SET.longest() * FINE && across < SET.tallest() * FINE;
  }

  private static int run(int[] d, int i, int step) {
    int n = 0;
    for (int j = i + step;
        j >= 0 && j < d.length && d[j] > SET.line() && n < SET.run() * FINE;
        j += step) {
      n++;
    }
    return n;
  }
}
