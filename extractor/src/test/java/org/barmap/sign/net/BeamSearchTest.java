package org.barmap.sign.net;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Random;
import org.barmap.sign.kind.Reading;
import org.junit.jupiter.api.Test;

class BeamSearchTest {

  @Test
  void keepsBothReadingsOfAnUnclearNumeral() {
    // Two steps; classes blank, '1', '7'.
    float[] logs = logs(new double[][] {{.02, .58, .40}, {.98, .01, .01}});
    List<Reading> readings = new BeamSearch("17").read(logs, 2, 3, Grammar.COUNT);
    assertThat(readings).extracting(Reading::text).startsWith("1", "7");
    assertThat(readings.get(0).probability()).isCloseTo(.58, within(.03));
    assertThat(readings.get(1).probability()).isCloseTo(.40, within(.03));
    assertThat(readings.stream().mapToDouble(Reading::probability).sum()).isLessThanOrEqualTo(1);
  }

  @Test
  void aMeterIsWhole() {
    // The letter O is likelier than 0 nowhere in a meter; "4/" alone is no meter.
    float[] logs = logs(new double[][] {{.1, .8, .1}, {.1, .1, .8}, {.3, .4, .3}});
    List<Reading> readings = new BeamSearch("4/").read(logs, 3, 3, Grammar.METER);
    assertThat(readings).extracting(Reading::text).containsExactly("4/4");
  }

  /** The sum over all alignments, computed by brute force, is what the search finds. */
  @Test
  void agreesWithTheSumOverAllAlignments() {
    Random random = new Random(7);
    for (int round = 0; round < 30; round++) {
      int steps = 5;
      double[][] p = new double[steps][3];
      for (double[] row : p) {
        double sum = 0;
        for (int c = 0; c < 3; c++) {
          row[c] = random.nextDouble() + .05;
          sum += row[c];
        }
        for (int c = 0; c < 3; c++) {
          row[c] /= sum;
        }
      }
      var exact = new java.util.HashMap<String, Double>();
      for (int code = 0; code < 243; code++) {
        StringBuilder text = new StringBuilder();
        double q = 1;
        int last = 0;
        for (int t = 0, rest = code; t < steps; t++, rest /= 3) {
          int c = rest % 3;
          q *= p[t][c];
          if (c != 0 && c != last) {
            text.append("12".charAt(c - 1));
          }
          last = c;
        }
        if (Grammar.COUNT.accepts(text)) {
          exact.merge(text.toString(), q, Double::sum);
        }
      }
      double valid = exact.values().stream().mapToDouble(Double::doubleValue).sum();
      String best =
          java.util.Collections.max(exact.entrySet(), java.util.Map.Entry.comparingByValue())
              .getKey();
      List<Reading> readings = new BeamSearch("12").read(logs(p), steps, 3, Grammar.COUNT);
      assertThat(readings.get(0).text()).isEqualTo(best);
      assertThat(readings.get(0).probability())
          .isCloseTo(exact.getOrDefault(best, 0.0) * (valid + 1) / 2 / valid, within(.03));
    }
  }

  private static float[] logs(double[][] p) {
    float[] flat = new float[p.length * p[0].length];
    for (int t = 0; t < p.length; t++) {
      for (int c = 0; c < p[0].length; c++) {
        flat[t * p[0].length + c] = (float) Math.log(p[t][c]);
      }
    }
    return flat;
  }
}
