package org.barmap.reckon.write;

import java.util.Arrays;
import org.barmap.map.Key;
import org.barmap.reckon.set.ReckonSettings;
import org.barmap.reckon.set.WriteSettings;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.Sign;

/** Reads key signatures: "3b" three flats, "2#" two sharps, "0" naturals only. */
final class Keys {

  private static final WriteSettings.Signatures SET = ReckonSettings.STANDARD.write().signatures();

  /** Keys there are, from {@link Key#MOST} flats to as many sharps. */
  static final int STATES = 2 * Key.MOST + 1;

  private Keys() {}

  /**
   * How likely a drawn signature would be read so, for each key it may mean.
   *
   * @return one weight for each state; state {@code i} is {@code i - Key.MOST} fifths; they sum to
   *     1
   */
  static double[] weights(Sign sign) {
    double[] weights = new double[STATES];
    double sum = 0;
    for (Reading r : sign.readings()) {
      int state = state(r.text());
      if (state >= 0) {
        weights[state] += r.probability();
        sum += r.probability();
      }
    }
    double read = sum;
    Arrays.setAll(
        weights,
        i ->
            (read > 0
                ? (1 - SET.misread()) * weights[i] / read + SET.misread() / STATES
                : 1.0 / STATES));
    return weights;
  }

  /** The state a text stands for, or -1. */
  static int state(String text) {
    if (text.equals("0")) {
      return Key.MOST;
    }
    if (!text.matches("[1-7][b#]")) {
      return -1;
    }
    int many = text.charAt(0) - '0';
    return Key.MOST + (text.charAt(1) == '#' ? many : -many);
  }
}
