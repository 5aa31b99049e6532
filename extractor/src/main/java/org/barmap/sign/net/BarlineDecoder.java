package org.barmap.sign.net;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.barmap.map.Barline;
import org.barmap.sign.kind.Origin;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.set.NetSettings;
import org.barmap.sign.set.SignSettings;
import org.barmap.sign.strip.StripImage;

/** Finds barlines in the heat along a strip: peaks, one for all strokes of a barline. */
final class BarlineDecoder {

  private static final NetSettings.Barlines SET = SignSettings.STANDARD.net().barlines();

  private static final Barline[] TYPES = {
    Barline.SINGLE,
    Barline.DOUBLE,
    Barline.FINAL,
    Barline.REPEAT_START,
    Barline.REPEAT_END,
    Barline.REPEAT_BOTH,
    Barline.DASHED
  };
  private static final int ANY = TYPES.length;

  /** Added to a sum so that it can be divided by. */
  private static final double NOT_NOTHING = 1e-9;

  private final double threshold;

  BarlineDecoder(double threshold) {
    this.threshold = threshold;
  }

  List<RawSign> decode(Heats heats, StripImage strip) {
    int cells = Math.min(heats.places(), (strip.width() + 1) / 2);
    List<RawSign> peaks = new ArrayList<>();
    for (int i = 0; i < cells; i++) {
      float v = heats.line(ANY, i);
      boolean peak =
          v >= threshold
              && (i == 0 || v >= heats.line(ANY, i - 1))
              && (i + 1 == cells || v > heats.line(ANY, i + 1));
      if (peak) {
        peaks.add(at(heats, cells, i));
      }
    }
    peaks.sort(Comparator.comparingDouble((RawSign s) -> -s.probability()));
    List<RawSign> kept = new ArrayList<>();
    for (RawSign p : peaks) {
      if (kept.stream()
          .allMatch(k -> Math.abs(k.centre() - p.centre()) >= SET.apart() * StripImage.SPACE)) {
        kept.add(p);
      }
    }
    kept.sort(Comparator.comparingDouble(RawSign::centre));
    return kept;
  }

  private static RawSign at(Heats heats, int cells, int i) {
    double weight = 0;
    double moment = 0;
    for (int j = Math.max(0, i - SET.centre()); j <= Math.min(cells - 1, i + SET.centre()); j++) {
      double v = heats.line(ANY, j);
      double w = v * v;
      weight += w;
      moment += w * (2 * j + 1);
    }
    double x = moment / weight;
    double[] type = new double[TYPES.length];
    double sum = NOT_NOTHING;
    for (int t = 0; t < TYPES.length; t++) {
      for (int j = Math.max(0, i - SET.reach()); j <= Math.min(cells - 1, i + SET.reach()); j++) {
        type[t] = Math.max(type[t], heats.line(t, j));
      }
      sum += type[t];
    }
    List<Reading> readings = new ArrayList<>();
    for (int t = 0; t < TYPES.length; t++) {
      double p = type[t] / Math.max(1, sum);
      if (p > SET.leastType()) {
        readings.add(new Reading(TYPES[t].word(), p));
      }
    }
    if (readings.isEmpty()) {
      readings.add(new Reading(Barline.SINGLE.word(), 0.5));
    }
    readings.sort(Comparator.comparingDouble((Reading r) -> -r.probability()));
    return new RawSign(
        SignKind.BARLINE,
        x - 1,
        StripImage.MIDDLE - 2 * StripImage.SPACE,
        x + 1,
        StripImage.MIDDLE + 2 * StripImage.SPACE,
        heats.line(ANY, i),
        readings,
        Origin.NETWORK);
  }
}
