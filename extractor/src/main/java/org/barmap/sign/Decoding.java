package org.barmap.sign;

/** Thresholds of the decoding, tuned on made pages. */
final class Decoding {

  /** A barline less likely than this is not handed on; the reckoning weighs the others. */
  static final double LEAST_BARLINE = 0.15;

  private Decoding() {}
}
