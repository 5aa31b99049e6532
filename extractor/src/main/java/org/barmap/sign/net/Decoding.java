package org.barmap.sign.net;

/** Thresholds of the decoding, tuned on made pages. */
final class Decoding {

  /**
   * A barline less likely than this is not handed on; the reckoning weighs the others, the faint
   * ones only where a barline is missed (of 6,546 barlines inside a line in the corpus none had
   * less, and one line in fifty has a peak above it that is none).
   */
  static final double LEAST_BARLINE = 0.05;

  /**
   * No threshold of a box is above this, whatever the model's card says: what is likelier than not
   * is handed on (on 50 made pages whole-bar rests rose from 0.88 to 0.98 F1).
   */
  static final double MOST = 0.5;

  private Decoding() {}
}
