package org.barmap.sign.hand;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.barmap.sign.set.HandSettings;
import org.barmap.sign.set.SignSettings;

/**
 * What of a stroke is given to the network: its size, how gray it is beside the print, how wide and
 * even, where it stands, and what its neighbours are like. Lengths are in staff spaces.
 */
final class Looks {

  /** Figures of a stroke. */
  static final int COUNT = 22;

  private static final HandSettings SET = SignSettings.STANDARD.hand();
  private static final double LEVELS = 255;

  private final StaffZones zones;
  private final double space;
  private final double shade;
  private final double usual;
  private final List<Stroke> ordered;

  /**
   * Takes a page's strokes.
   *
   * @param space staff space, pixels
   * @param shade of the print, gray level
   */
  Looks(List<Stroke> strokes, StaffZones zones, double space, double shade) {
    this.zones = zones;
    this.space = space;
    this.shade = shade;
    this.ordered = strokes.stream().sorted(Comparator.comparingInt(Stroke::left)).toList();
    List<Double> cores = new ArrayList<>(strokes.stream().map(Stroke::core).sorted().toList());
    this.usual = cores.isEmpty() ? shade : cores.get(cores.size() / 2);
  }

  /** Returns the strokes from left to right. */
  List<Stroke> strokes() {
    return ordered;
  }

  /** Tells whether a stroke stands alone and is lighter than the page's print. */
  boolean isPencil(int index) {
    Stroke s = ordered.get(index);
    return s.touching() == 0
        && s.width() < SET.flat() * s.height()
        && s.core() >= Math.max(usual, shade) + SET.lighter();
  }

  /** Returns the figures of a stroke, about -2 to 2 each. */
  double[] of(int index) {
    Stroke s = ordered.get(index);
    double area = s.area() / (space * space);
    double edge = 2.0 * s.runs() + 2.0 * (s.area() - s.overlap());
    double[] place = zones.from((s.left() + s.right()) / 2.0, (s.top() + s.bottom()) / 2.0);
    double[] beside = beside(index);
    return new double[] {
      Math.log(s.width() / space),
      Math.log(s.height() / space),
      Math.log(area),
      2 * s.area() / edge / space,
      (s.core() - shade) / LEVELS,
      (s.mean() - shade) / LEVELS,
      (s.darkest() - shade) / LEVELS,
      s.spread() / LEVELS,
      s.area() / ((double) s.width() * s.height()),
      Math.log((double) s.runs() / s.height()),
      Math.min(2, s.holes()),
      Math.min(1, s.touching() / space),
      place[0] > 0 ? Math.min(1, place[0] / space / SET.reach()) : -1,
      place[1] > 0 ? Math.min(1, place[1] / space / SET.reach()) : -1,
      Math.min(1, place[2] / space / SET.reach()),
      beside[0],
      beside[1],
      beside[2],
      beside[1 + 2],
      shade / LEVELS,
      (usual - shade) / LEVELS,
      (s.core() - usual) / LEVELS
    };
  }

  /**
   * How gray the strokes beside are, how many there are, how many of like height on the same line,
   * and how gray those are.
   */
  private double[] beside(int index) {
    Stroke s = ordered.get(index);
    double near = SET.near() * space;
    double gray = 0;
    double likeGray = 0;
    int all = 0;
    int like = 0;
    for (int step = -1; step <= 1; step += 2) {
      for (int i = index + step; i >= 0 && i < ordered.size(); i += step) {
        Stroke o = ordered.get(i);
        if (step > 0 ? o.left() - s.right() > near : s.left() - o.left() > SET.largest() * space) {
          break;
        }
        if (s.apart(o) > near) {
          continue;
        }
        all++;
        gray += o.core();
        double higher = Math.max(s.height(), o.height());
        if (higher <= SET.like() * Math.min(s.height(), o.height())
            && Math.abs(s.bottom() - o.bottom()) < higher / 2) {
          like++;
          likeGray += o.core();
        }
      }
    }
    return new double[] {
      all == 0 ? 0 : (gray / all - shade) / LEVELS,
      Math.log1p(all),
      Math.log1p(like),
      like == 0 ? 0 : (likeGray / like - shade) / LEVELS
    };
  }
}
