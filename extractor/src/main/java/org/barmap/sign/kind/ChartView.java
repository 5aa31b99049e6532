package org.barmap.sign.kind;

import java.util.List;

/**
 * What is seen of half charts on one strip: boxes of slashes, chord symbols and their like, with
 * those of other kinds as the same eye sees them among them, and what fills the bars. Places are
 * pixels of the strip, all values probabilities.
 */
public interface ChartView {

  /** What is told along the staff, in the order of the network's channels (training/strips.py). */
  enum Along {
    /** A barline. */
    LINE,
    /** A bar that is silent for the player, whatever cues stand in it. */
    SILENT,
    /** A bar of slashes. */
    SLASHED,
    /** A bar that repeats the one before. */
    SAME
  }

  /** Returns the boxes of all its kinds, likeliest first. */
  List<RawSign> boxes();

  /** Returns the mean between two places. */
  double mean(Along what, double from, double to);

  /** Returns the greatest between two places. */
  double most(Along what, double from, double to);

  /** Returns how likely a sign of a kind has its middle where a box has it, or beside it. */
  double at(SignKind kind, RawSign box);
}
