package org.barmap.sign;

import java.util.ArrayList;
import java.util.List;
import org.barmap.map.Barline;

/** Finds barlines without a model: strokes from the top line to the bottom line that stop there. */
final class StrokeFinder {

  private StrokeFinder() {}

  static List<List<RawSign>> find(List<? extends StripImage> strips) {
    return strips.stream().map(StrokeFinder::find).toList();
  }

  private static List<RawSign> find(StripImage strip) {
    List<RawSign> found = new ArrayList<>();
    int end = strip.width() - StripImage.LEFT + 6;
    int from = -1;
    for (int u = StripImage.LEFT + 12; u <= end; u++) {
      boolean whole = u < end && Stroke.at(strip, u).isWhole();
      if (whole && from < 0) {
        from = u;
      } else if (!whole && from >= 0) {
        if (u - from < 2 * StripImage.SPACE) {
          add(found, from, u);
        }
        from = -1;
      }
    }
    return found;
  }

  private static void add(List<RawSign> found, int from, int to) {
    double x = (from + to) / 2.0;
    RawSign line =
        new RawSign(
            SignKind.BARLINE,
            x - 1,
            StripImage.MIDDLE - 2 * StripImage.SPACE,
            x + 1,
            StripImage.MIDDLE + 2 * StripImage.SPACE,
            0.8,
            List.of(new Reading(Barline.SINGLE.word(), 0.8)));
    int last = found.size() - 1;
    if (last >= 0 && line.centre() - found.get(last).centre() < 1.2 * StripImage.SPACE) {
      return;
    }
    found.add(line);
  }
}
