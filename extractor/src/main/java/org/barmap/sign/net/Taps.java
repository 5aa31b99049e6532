package org.barmap.sign.net;

/**
 * Which source pixels make up each target pixel along one axis, and with what weight.
 *
 * @param first source pixel of each target pixel's first weight
 * @param weights of each target pixel, summing to 1; weights outside the source stay, as paper
 * @param length of the source axis
 */
@SuppressWarnings("ArrayRecordComponent") // many numbers, compared by nobody
record Taps(int[] first, float[][] weights, int length) {

  /** How far a Gaussian is computed, in sigmas: beyond it 3 in 1,000 of its weight are left. */
  private static final int REACH = 3;

  /** Linear interpolation after a Gaussian of the given sigma (0 for none). */
  static Taps of(int targets, double start, double step, double sigma, int length) {
    int[] first = new int[targets];
    float[][] weights = new float[targets][];
    for (int i = 0; i < targets; i++) {
      double s = start + (i + 0.5) * step - 0.5;
      double reach = sigma > 0 ? REACH * sigma + 1 : 1;
      int lo = (int) Math.ceil(s - reach);
      int hi = (int) Math.floor(s + reach);
      float[] w = new float[Math.max(1, hi - lo + 1)];
      float sum = 0;
      for (int j = 0; j < w.length; j++) {
        double d = lo + j - s;
        w[j] =
            (float)
                (sigma > 0 ? Math.exp(-d * d / (2 * sigma * sigma)) : Math.max(0, 1 - Math.abs(d)));
        sum += w[j];
      }
      for (int j = 0; j < w.length; j++) {
        w[j] /= sum;
      }
      first[i] = lo;
      weights[i] = w;
    }
    return new Taps(first, weights, length);
  }

  /** Returns the first source pixel that counts. */
  int from() {
    return Math.max(0, first[0]);
  }

  /** Returns the source pixel after the last one that counts. */
  int to() {
    int last = first.length - 1;
    return Math.min(length, first[last] + weights[last].length);
  }

  /**
   * Returns the ink (0 paper to 1) of a gray image resampled along both axes.
   *
   * @param gray the pixels that count, from {@link #from} to {@link #to} on both axes, row by row
   */
  static float[] resample(byte[] gray, Taps across, Taps down) {
    int top = down.from();
    int bottom = down.to();
    int left = across.from();
    int stride = across.to() - left;
    int width = across.first.length;
    float[] rows = new float[(bottom - top) * width];
    for (int y = top; y < bottom; y++) {
      for (int x = 0; x < width; x++) {
        float sum = 0;
        float[] w = across.weights[x];
        for (int j = 0; j < w.length; j++) {
          int u = across.first[x] + j;
          if (u >= 0 && u < across.length) {
            sum += w[j] * (255 - (gray[(y - top) * stride + u - left] & 0xff));
          }
        }
        rows[(y - top) * width + x] = sum / 255;
      }
    }
    float[] out = new float[down.first.length * width];
    for (int y = 0; y < down.first.length; y++) {
      float[] w = down.weights[y];
      for (int j = 0; j < w.length; j++) {
        int v = down.first[y] + j - top;
        if (v >= 0 && v < bottom - top) {
          for (int x = 0; x < width; x++) {
            out[y * width + x] += w[j] * rows[v * width + x];
          }
        }
      }
    }
    return out;
  }
}
