package org.barmap.sign.net;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.barmap.sign.kind.Origin;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.set.NetSettings;
import org.barmap.sign.set.SignSettings;
import org.barmap.sign.strip.StripImage;

/**
 * How far the brackets of endings go.
 *
 * <p>The network's box of an ending is the bracket's beginning with its numbers; the row of its
 * line heats after "any barline" says, place by place, whether a bracket is above. A bracket that
 * begins without numbers at the left end of a staff goes on from the line before.
 */
final class EndingReach {

  private static final NetSettings.Endings SET = SignSettings.STANDARD.net().endings();

  /** The row of the line heats that tells where brackets are, when the model has it. */
  private static final int ROW = 8;

  private EndingReach() {}

  /** Returns the signs with their endings as long as their brackets. */
  static List<RawSign> settle(Heats heats, StripImage strip, List<RawSign> signs) {
    List<double[]> runs = runs(heats, strip);
    List<RawSign> begins = new ArrayList<>();
    List<RawSign> settled = new ArrayList<>();
    for (RawSign s : signs) {
      (s.kind() == SignKind.ENDING ? begins : settled).add(s);
    }
    begins.sort(Comparator.comparingDouble(RawSign::x0));
    for (int i = 0; i < begins.size(); i++) {
      RawSign s = begins.get(i);
      double most = i + 1 < begins.size() ? begins.get(i + 1).x0() - SET.between() : strip.width();
      double to = Math.min(most, Math.max(s.x1(), end(runs, s)));
      settled.add(s.along(s.x0(), Math.max(to, s.x0() + 1)));
    }
    goesOn(runs, begins, strip).ifPresent(settled::add);
    return settled;
  }

  /** The end of the run that the beginning of a bracket lies in, or its own. */
  private static double end(List<double[]> runs, RawSign s) {
    return runs.stream()
        .filter(
            r ->
                r[0] < s.x1() + SET.around() * StripImage.SPACE
                    && r[1] > s.x0() + SET.around() * StripImage.SPACE)
        .mapToDouble(r -> r[1])
        .findFirst()
        .orElse(s.x1());
  }

  private static java.util.Optional<RawSign> goesOn(
      List<double[]> runs, List<RawSign> begins, StripImage strip) {
    if (runs.isEmpty() || runs.get(0)[0] > SET.atStart() * StripImage.SPACE) {
      return java.util.Optional.empty();
    }
    double from = runs.get(0)[0];
    double to = begins.isEmpty() ? runs.get(0)[1] : Math.min(runs.get(0)[1], begins.get(0).x0());
    if (to - from < SET.shortest() * StripImage.SPACE) {
      return java.util.Optional.empty();
    }
    return java.util.Optional.of(
        new RawSign(
            SignKind.ENDING,
            from,
            0,
            to,
            2 * StripImage.SPACE,
            runs.get(0)[2],
            List.of(new Reading(Sign.GOES_ON, 1)),
            Origin.NETWORK));
  }

  /** Runs of places under a bracket: left and right in pixels, mean heat. */
  private static List<double[]> runs(Heats heats, StripImage strip) {
    int cells = Math.min(heats.places(), strip.width() / 2);
    List<double[]> runs = new ArrayList<>();
    int from = -1;
    int last = -1;
    double sum = 0;
    for (int i = 0; i <= cells + SET.gap(); i++) {
      float v = i < cells ? heats.line(ROW, i) : 0;
      if (v >= SET.under()) {
        from = from < 0 ? i : from;
        sum += v;
        last = i;
      } else if (from >= 0 && i - last > SET.gap()) {
        if (last - from >= SET.leastCells()) {
          runs.add(new double[] {2.0 * from, 2.0 * last + 2, Math.min(1, sum / (last - from + 1))});
        }
        from = -1;
        sum = 0;
      }
    }
    return runs;
  }
}
