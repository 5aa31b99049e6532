package org.barmap.fit;

import java.util.ArrayList;
import java.util.List;
import org.barmap.fit.Observed.Numeral;
import org.barmap.fit.Observed.Said;
import org.barmap.fit.Observed.SeenLine;
import org.barmap.reckon.cost.Calibration;
import org.barmap.reckon.cost.Costs;

/** How often single signs are right of those that are given some probability. */
final class Reliability {

  private static final double[] BINS = {0, 0.5, 0.7, 0.8, 0.9, 0.95, 0.98, 1.0001};

  /** A sign with its probability and whether it was right. */
  private record Given(double probability, boolean right) {}

  private Reliability() {}

  /**
   * Tables of all kinds of signs.
   *
   * @param seen pages that neither costs nor signs were fitted on
   */
  static String tables(String name, Observed seen, Costs costs, Calibration.Signs signs) {
    StringBuilder out = new StringBuilder("### " + name + "\n\n");
    out.append("| sign | signs | calibration error | of those given … | on average | right |\n");
    out.append("| --- | --- | --- | --- | --- | --- |\n");
    out.append(table("barlines", lines(seen, costs)));
    out.append(table("counts", numerals(seen.counts)));
    out.append(table("printed bar numbers", numerals(seen.anchors)));
    out.append(table("rehearsal marks", said(seen.marks, signs.mark())));
    out.append(table("meters", said(seen.meters, signs.meter())));
    return out.append("\n").toString();
  }

  /** Lines as the book's evidence but its numbers weighs them. */
  private static List<Given> lines(Observed seen, Costs costs) {
    List<Given> out = new ArrayList<>();
    for (SeenLine l : seen.lines) {
      out.add(new Given(costs.line(l.read(), l.ink(), l.around()), l.right()));
    }
    return out;
  }

  /** The reader's own probability of its best reading. */
  private static List<Given> numerals(List<Numeral> numerals) {
    return numerals.stream()
        .filter(n -> !n.readings().isEmpty())
        .map(n -> new Given(n.readings().get(0).probability(), n.best()))
        .toList();
  }

  /** The calibrated probability that the sign is there and says what it reads. */
  private static List<Given> said(List<Said> signs, Calibration.Sure sure) {
    return signs.stream().map(s -> new Given(sure.of(s.sure()), s.right())).toList();
  }

  private static String table(String sign, List<Given> all) {
    StringBuilder out = new StringBuilder();
    double off = 0;
    for (int b = 0; b + 1 < BINS.length; b++) {
      double low = BINS[b];
      double high = BINS[b + 1];
      List<Given> in =
          all.stream().filter(g -> g.probability() >= low && g.probability() < high).toList();
      if (!in.isEmpty()) {
        double mean = in.stream().mapToDouble(Given::probability).average().orElse(0);
        double right = in.stream().filter(Given::right).count() / (double) in.size();
        off += in.size() * Math.abs(mean - right);
        out.append(
            "| | %d | | %.2f to %.2f | %.3f | %.3f |%n"
                .formatted(in.size(), low, Math.min(1, high), mean, right));
      }
    }
    return "| %s | %d | %.4f | | | |%n".formatted(sign, all.size(), off / Math.max(1, all.size()))
        + out;
  }
}
