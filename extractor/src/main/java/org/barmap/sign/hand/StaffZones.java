package org.barmap.sign.hand;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.barmap.sign.set.HandSettings;
import org.barmap.sign.set.SignSettings;
import org.barmap.staff.FoundSystem;
import org.barmap.staff.Staff;

/** The rows that belong to a page's staves; strokes are looked for outside them. */
final class StaffZones {

  /** Half the height of a staff, staff spaces. */
  static final double HALF = 2;

  private static final HandSettings SET = SignSettings.STANDARD.hand();

  /** One staff: its columns, and for each of them the first row of the zone and the one behind. */
  private record Zone(int left, int right, int[] top, int[] bottom, int first, int last) {}

  private final List<Zone> zones = new ArrayList<>();
  private final List<Staff> staves;

  StaffZones(List<FoundSystem> systems, int width, int height) {
    staves = systems.stream().flatMap(s -> s.staves().stream()).toList();
    for (Staff staff : staves) {
      double space = staff.usualSpace();
      int left = (int) Math.max(0, staff.left() - SET.ends() * space);
      int right = (int) Math.min(width, staff.right() + SET.ends() * space);
      int[] top = new int[Math.max(0, right - left)];
      int[] bottom = new int[top.length];
      for (int x = left; x < right; x++) {
        double reach = (HALF + SET.zone()) * staff.spaceAt(x);
        double middle = staff.middleAt(x);
        top[x - left] = (int) Math.max(0, Math.min(height, middle - reach));
        bottom[x - left] = (int) Math.max(0, Math.min(height, middle + reach));
      }
      int first = Arrays.stream(top).min().orElse(0);
      int last = Arrays.stream(bottom).max().orElse(0);
      zones.add(new Zone(left, right, top, bottom, first, last));
    }
  }

  /** Returns the gray level darker than which a share of the print in the staves is. */
  int shade(byte[] gray, int width) {
    int[] levels = new int[SET.print()];
    int all = 0;
    for (Zone zone : zones) {
      for (int y = zone.first; y < zone.last; y += SET.everyRow()) {
        for (int i = y * width + zone.left; i < y * width + zone.right; i++) {
          int v = gray[i] & 0xff;
          if (v < levels.length) {
            levels[v]++;
            all++;
          }
        }
      }
    }
    int seen = 0;
    int level = 0;
    while (level < levels.length && seen + levels[level] < SET.shade() * all) {
      seen += levels[level++];
    }
    return level;
  }

  /** Makes the staves paper. */
  void clear(byte[] gray, int width) {
    for (Zone z : zones) {
      for (int y = z.first; y < z.last; y++) {
        int row = y * width;
        for (int x = z.left; x < z.right; x++) {
          if (y >= z.top[x - z.left] && y < z.bottom[x - z.left]) {
            gray[row + x] = -1;
          }
        }
      }
    }
  }

  /** Returns how many pixels of a run of ink lie at the edge of a zone. */
  int touching(int y, int from, int to) {
    int count = 0;
    for (Zone z : zones) {
      if (y < z.first - 1 || y > z.last) {
        continue;
      }
      for (int x = Math.max(from, z.left); x < Math.min(to, z.right); x++) {
        if (y == z.top[x - z.left] - 1 || y == z.bottom[x - z.left]) {
          count++;
        }
      }
    }
    return count;
  }

  /** Returns how far a point lies from the nearest staff: over it, under it, beside it; pixels. */
  double[] from(double x, double y) {
    double best = Double.MAX_VALUE;
    double[] found = {best, best, 0};
    for (Staff s : staves) {
      double reach = HALF * s.usualSpace();
      double middle = s.middleAt(Math.max(s.left(), Math.min(s.right(), x)));
      double over = middle - reach - y;
      double under = y - middle - reach;
      double away = Math.max(over, under);
      if (Math.abs(away) < best) {
        best = Math.abs(away);
        found = new double[] {over, under, Math.max(0, Math.max(s.left() - x, x - s.right()))};
      }
    }
    return found;
  }
}
