package org.barmap.sign;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Finds note heads and rests in the heat along a strip: peaks of "note" and of "rest"; what a rest
 * is worth is said by the greatest of the channels of values around its peak.
 */
final class SoundDecoder {

  /** Channels of the network, as trained (training/strips.py). */
  private static final int NOTE = 0;

  private static final int REST = 1;
  private static final int FIRST_VALUE = 2;
  private static final double[] QUARTERS = {2, 1, 0.5, 0.25};
  private static final int DOT = FIRST_VALUE + QUARTERS.length;
  private static final int CHANNELS = DOT + 1;

  /** A note less likely than this is none; low, since a note overlooked makes a false silence. */
  private static final double LEAST_NOTE = 0.3;

  /** A rest less likely than this is none. */
  private static final double LEAST_REST = 0.4;

  /** A value less likely than this isn't known. */
  private static final double LEAST_VALUE = 0.5;

  /** Nor is it known where another value is likelier than this. */
  private static final double OTHER_VALUE = 0.15;

  /** More likely than this a rest is dotted; between the two nobody knows. */
  private static final double DOTTED = 0.5;

  private static final double NOT_DOTTED = 0.2;

  /** Cells beside a rest's peak over which its value is settled; a cell is two strip pixels. */
  private static final int REACH = 2;

  private SoundDecoder() {}

  /**
   * Returns the notes and rests of a strip, notes first.
   *
   * @param heat probabilities, channel by channel
   * @param width of the strip in pixels
   */
  static List<Sound> decode(float[] heat, int width) {
    int places = heat.length / CHANNELS;
    int cells = Math.min(places, (width + 1) / 2);
    List<Sound> sounds = new ArrayList<>();
    for (int i = 0; i < cells; i++) {
      if (isPeak(heat, NOTE * places, cells, i, LEAST_NOTE)) {
        sounds.add(new Sound(along(i), true, Optional.empty(), heat[NOTE * places + i]));
      }
    }
    for (int i = 0; i < cells; i++) {
      if (isPeak(heat, REST * places, cells, i, LEAST_REST)) {
        Optional<Double> value = value(heat, places, cells, i);
        sounds.add(new Sound(along(i), false, value, heat[REST * places + i]));
      }
    }
    return List.copyOf(sounds);
  }

  private static boolean isPeak(float[] heat, int channel, int cells, int i, double least) {
    float v = heat[channel + i];
    return v >= least
        && (i == 0 || v >= heat[channel + i - 1])
        && (i + 1 == cells || v > heat[channel + i + 1]);
  }

  private static Optional<Double> value(float[] heat, int places, int cells, int i) {
    int best = 0;
    double most = 0;
    double next = 0;
    for (int k = 0; k < QUARTERS.length; k++) {
      double p = greatest(heat, (FIRST_VALUE + k) * places, cells, i);
      next = Math.max(next, Math.min(p, most));
      best = p > most ? k : best;
      most = Math.max(most, p);
    }
    double dot = greatest(heat, DOT * places, cells, i);
    if (most < LEAST_VALUE || next > OTHER_VALUE || dot > NOT_DOTTED && dot < DOTTED) {
      return Optional.empty();
    }
    // a dot adds half of the value (common practice)
    return Optional.of(QUARTERS[best] * (dot >= DOTTED ? 1.5 : 1));
  }

  private static double greatest(float[] heat, int channel, int cells, int i) {
    double most = 0;
    for (int j = Math.max(0, i - REACH); j <= Math.min(cells - 1, i + REACH); j++) {
      most = Math.max(most, heat[channel + j]);
    }
    return most;
  }

  private static double along(int cell) {
    return SignReader.along(2 * cell + 1);
  }
}
