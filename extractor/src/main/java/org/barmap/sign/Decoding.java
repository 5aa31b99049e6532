package org.barmap.sign;

/** Thresholds of the decoding, tuned on made pages. */
final class Decoding {

  /** A barline less likely than this is not handed on; the reckoning weighs the others. */
  static final double LEAST_BARLINE = 0.3;

  /**
   * No threshold of a box is above this, whatever the model's card says: what is likelier than not
   * is handed on (on 50 made pages whole-bar rests rose from 0.88 to 0.98 F1).
   */
  static final double MOST = 0.5;

  private Decoding() {}
}
