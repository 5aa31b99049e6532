package org.barmap.sign.net;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.barmap.sign.kind.Origin;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.set.NetSettings;
import org.barmap.sign.set.SignSettings;
import org.barmap.sign.strip.StripImage;

/** Finds boxes of signs in the network's centre heat: peaks, then the best of overlapping ones. */
final class BoxDecoder {

  private static final NetSettings.Boxes SET = SignSettings.STANDARD.net().boxes();

  private final List<SignKind> kinds;
  private final double[] thresholds;

  BoxDecoder(List<SignKind> kinds, double[] thresholds) {
    this.kinds = List.copyOf(kinds);
    this.thresholds = thresholds.clone();
  }

  List<RawSign> decode(Heats heats, StripImage strip) {
    int columns = Math.min(heats.columns(), (strip.width() + Heats.STRIDE - 1) / Heats.STRIDE);
    float[] heat = heats.heat();
    List<RawSign> found = new ArrayList<>();
    for (int k = 0; k < kinds.size(); k++) {
      double faintest = least(k, 0);
      for (int row = 0; row < Heats.ROWS; row++) {
        int at = heats.at(k, row);
        for (int col = 0; col < columns; col++) {
          float v = heat[at + col];
          if (v >= faintest && v >= least(k, col) && isPeak(heats, k, row, col, columns)) {
            found.add(box(heats, kinds.get(k), v, row, col));
          }
        }
      }
    }
    found.sort(Comparator.comparingDouble((RawSign s) -> -s.probability()));
    List<RawSign> kept = new ArrayList<>();
    for (RawSign s : found) {
      if (kept.stream().noneMatch(k -> excludes(k, s))) {
        kept.add(s);
      }
    }
    return kept;
  }

  /** Where a line begins a fainter meter is handed on: its text has to be sure then. */
  private double least(int kind, int column) {
    boolean head = kinds.get(kind) == SignKind.METER && Heats.centre(column) < SET.head();
    return head ? Math.min(SET.headMeter(), thresholds[kind]) : thresholds[kind];
  }

  private static boolean excludes(RawSign kept, RawSign other) {
    return kept.kind() == other.kind()
        ? kept.overlap(other) >= SET.same() || kept.inside(other) >= SET.piece()
        : kept.overlap(other) >= SET.either();
  }

  private static boolean isPeak(Heats heats, int kind, int row, int col, int columns) {
    float v = heats.heat(kind, row, col);
    for (int r = Math.max(0, row - 1); r <= Math.min(Heats.ROWS - 1, row + 1); r++) {
      for (int c = Math.max(0, col - 1); c <= Math.min(columns - 1, col + 1); c++) {
        float o = heats.heat(kind, r, c);
        boolean earlier = r < row || (r == row && c < col);
        if (o > v || (o == v && earlier)) {
          return false;
        }
      }
    }
    return true;
  }

  private static RawSign box(Heats heats, SignKind kind, float v, int row, int col) {
    double cx = Heats.centre(col) + heats.size(Heats.DX, row, col);
    double cy = Heats.centre(row) + heats.size(Heats.DY, row, col);
    double w = Math.max(2, heats.size(Heats.WIDTH, row, col));
    double h = Math.max(2, heats.size(Heats.HEIGHT, row, col));
    return new RawSign(
        kind, cx - w / 2, cy - h / 2, cx + w / 2, cy + h / 2, v, List.of(), Origin.NETWORK);
  }
}
