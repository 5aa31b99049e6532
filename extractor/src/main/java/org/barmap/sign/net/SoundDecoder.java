package org.barmap.sign.net;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.sign.kind.Sound;
import org.barmap.sign.set.NetSettings;
import org.barmap.sign.set.SignSettings;
import org.barmap.sign.strip.StripImage;

/**
 * Finds note heads and rests in the heat along a strip: peaks of "note" and of "rest"; what they
 * are worth is said by the greatest of the channels of values around the peak, and by the channels
 * of dots, tuplets and small notes there.
 */
final class SoundDecoder {

  private static final NetSettings.Sounds SET = SignSettings.STANDARD.net().sounds();

  /** Channels of the network, as trained (training/strips.py). */
  private static final int NOTE = 0;

  private static final int REST = 1;
  private static final int DOT = 6;
  private static final int TUPLET = 14;
  private static final int SMALL = 15;
  private static final int CHANNELS = 16;

  /** A channel that stands for a value in quarters. */
  private record Value(int channel, double quarters) {}

  private static final List<Value> RESTS =
      List.of(
          new Value(2, 2),
          new Value(3, 1),
          new Value(4, 0.5),
          new Value(5, 0.25),
          new Value(13, 0.125));
  private static final List<Value> NOTES =
      List.of(
          new Value(7, 4),
          new Value(8, 2),
          new Value(9, 1),
          new Value(10, 0.5),
          new Value(11, 0.25),
          new Value(12, 0.125));

  /** A dot adds half of the value (common practice). */
  private static final double DOTTED = 1.5;

  /** Three of a triplet take the time of two (common practice). */
  private static final double TRIPLET = 2.0 / 3;

  private final float[] heat;
  private final int places;
  private final int cells;

  private SoundDecoder(float[] heat, int width) {
    this.heat = heat;
    this.places = heat.length / CHANNELS;
    this.cells = Math.min(places, (width + 1) / 2);
  }

  /**
   * Returns the notes and rests of a strip, notes first.
   *
   * @param heat probabilities, channel by channel
   * @param width of the strip in pixels
   */
  static List<Sound> decode(float[] heat, int width) {
    SoundDecoder decoder = new SoundDecoder(heat, width);
    List<Sound> sounds = new ArrayList<>();
    decoder.find(NOTE, SET.leastNote(), NOTES, sounds);
    decoder.find(REST, SET.leastRest(), RESTS, sounds);
    return List.copyOf(sounds);
  }

  private void find(int channel, double least, List<Value> values, List<Sound> sounds) {
    for (int i = 0; i < cells; i++) {
      if (isPeak(channel * places, i, least)) {
        boolean note = channel == NOTE;
        double p = heat[channel * places + i];
        // a grace note takes its time from its neighbours, a cue is played by others: both are
        // worth nothing (common practice)
        if (note && greatest(SMALL, i) >= SET.likelier()) {
          sounds.add(new Sound(along(i), note, Optional.of(0.0), Optional.of(0.0), p));
        } else {
          sounds.add(worth(note, values, i, p));
        }
      }
    }
  }

  private boolean isPeak(int channel, int i, double least) {
    float v = heat[channel + i];
    return v >= least
        && (i == 0 || v >= heat[channel + i - 1])
        && (i + 1 == cells || v > heat[channel + i + 1]);
  }

  private Sound worth(boolean note, List<Value> values, int i, double probability) {
    Value best = values.get(0);
    double most = 0;
    double next = 0;
    for (Value value : values) {
      double p = greatest(value.channel, i);
      next = Math.max(next, Math.min(p, most));
      best = p > most ? value : best;
      most = Math.max(most, p);
    }
    double dot = greatest(DOT, i);
    double tuplet = greatest(TUPLET, i);
    double quarters =
        best.quarters
            * (dot >= SET.likelier() ? DOTTED : 1)
            * (tuplet >= SET.likelier() ? TRIPLET : 1);
    boolean sure =
        most >= SET.leastValue()
            && next <= SET.otherValue()
            && !isDoubtful(dot)
            && !isDoubtful(tuplet);
    return new Sound(
        along(i),
        note,
        sure ? Optional.of(quarters) : Optional.empty(),
        most >= SET.leastGuess() ? Optional.of(quarters) : Optional.empty(),
        probability);
  }

  private static boolean isDoubtful(double p) {
    return p > SET.sureNot() && p < SET.likelier();
  }

  private double greatest(int channel, int i) {
    double most = 0;
    for (int j = Math.max(0, i - SET.reach()); j <= Math.min(cells - 1, i + SET.reach()); j++) {
      most = Math.max(most, heat[channel * places + j]);
    }
    return most;
  }

  private static double along(int cell) {
    return StripImage.along(2 * cell + 1);
  }
}
