package org.barmap.fit;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.barmap.reckon.cost.Costs;
import org.barmap.sign.kind.Reading;

/** A reader who errs and knows how sure it is, as the fitted costs understand it. */
final class UnsureReader {

  private final Random random;

  UnsureReader(Random random) {
    this.random = random;
  }

  /**
   * Readings by a reader who knows how sure it is: of all numerals it gives 0.6, six in ten are
   * right. Wrong ones are off by one figure; half of them list the true number second.
   */
  List<Reading> readings(int value, boolean wrong, double wrongShare) {
    double doubtfulAndRight = wrongShare * 0.65 / 0.35 / (1 - wrongShare);
    if (!wrong && random.nextDouble() >= doubtfulAndRight) {
      return List.of(new Reading(Integer.toString(value), 0.99));
    }
    double p = calibrated(wrong, 0.4, 0.9);
    int other = misread(value);
    List<Reading> out = new ArrayList<>();
    out.add(new Reading(Integer.toString(wrong ? other : value), p));
    if (random.nextBoolean()) {
      out.add(new Reading(Integer.toString(wrong ? value : other), (1 - p) * 0.6));
    }
    double power = 1 / Costs.DEFAULT.numerals().numeralSlope();
    double sum = out.stream().mapToDouble(Reading::probability).sum();
    double powers = out.stream().mapToDouble(r -> Math.pow(r.probability(), power)).sum();
    return out.stream()
        .map(r -> new Reading(r.text(), sum * Math.pow(r.probability(), power) / powers))
        .toList();
  }

  /** Draws p with density proportional to p for right and 1 - p for wrong ones. */
  double calibrated(boolean wrong, double low, double high) {
    while (true) {
      double p = low + (high - low) * random.nextDouble();
      if (random.nextDouble() < (wrong ? 1 - p : p)) {
        return p;
      }
    }
  }

  /** What the reader says of a line that is a barline with probability p. */
  static double said(double p) {
    double odds =
        (Math.log(p / (1 - p)) - Costs.DEFAULT.lines().lineBias())
            / Costs.DEFAULT.lines().lineSlope();
    return 1 / (1 + Math.exp(-odds));
  }

  private int misread(int value) {
    char[] digits = Integer.toString(value).toCharArray();
    int i = random.nextInt(digits.length);
    char old = digits[i];
    while (digits[i] == old || digits[0] == '0') {
      digits[i] = (char) ('0' + random.nextInt(10));
    }
    return Integer.parseInt(new String(digits));
  }
}
