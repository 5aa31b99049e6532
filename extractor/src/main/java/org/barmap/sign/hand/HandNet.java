package org.barmap.sign.hand;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import org.barmap.map.json.BarMapJson;

/**
 * A network of one hidden layer that says how likely a stroke is by hand.
 *
 * @param mean of each figure over the strokes it was fitted on
 * @param scale its standard deviation likewise
 * @param hidden weights of each hidden unit, its bias last
 * @param out weights of the hidden units, the bias last
 */
public record HandNet(double[] mean, double[] scale, double[][] hidden, double[] out) {

  private static final String FILE = "hand.json";

  /** Loads the fitted one. */
  static HandNet load() {
    try (InputStream in = HandNet.class.getResourceAsStream(FILE)) {
      if (in == null) {
        throw new IllegalStateException(FILE + " is missing");
      }
      return BarMapJson.mapper().readValue(in, HandNet.class);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Returns the probability, 0 to 1. */
  public double probability(double[] looks) {
    double sum = out[out.length - 1];
    for (int h = 0; h < hidden.length; h++) {
      double[] w = hidden[h];
      double a = w[w.length - 1];
      for (int i = 0; i < looks.length; i++) {
        a += w[i] * (looks[i] - mean[i]) / scale[i];
      }
      sum += out[h] * Math.tanh(a);
    }
    return 1 / (1 + Math.exp(-sum));
  }
}
