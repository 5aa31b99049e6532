package org.barmap.sign.set;

/**
 * What marks and frames are. Units as {@link SignSettings} says.
 *
 * @param frames closed frames over a staff that the network didn't see
 * @param lines of text over a staff
 * @param sides what is drawn around a mark
 * @param shapes segno and coda by the strokes through them
 * @param leastInk some row of a mark is dark over more than this share of its width; what shows
 *     through from the back is pale all over
 */
public record MarkSettings(
    Frames frames, Lines lines, Sides sides, Shapes shapes, double leastInk) {

  /** The settings in use. */
  static final MarkSettings STANDARD =
      new MarkSettings(
          new Frames(
              /* probability= */ 0.8,
              /* read= */ 0.7,
              /* same= */ 0.5,
              /* filled= */ 0.8,
              /* least= */ 1.7,
              /* widest= */ 8,
              /* highest= */ 5,
              /* under= */ 3.5,
              /* every= */ 0.125),
          new Lines(
              /* highest= */ 4.5,
              /* widest= */ 20,
              /* speck= */ 6,
              /* begins= */ 0.7,
              /* least= */ 1.1,
              /* shortest= */ 2,
              /* gap= */ 1.2,
              /* level= */ 0.6,
              /* taller= */ 1.8,
              /* lower= */ 5,
              /* slack= */ 8,
              /* stop= */ 0.5,
              /* stopWide= */ 2),
          new Sides(
              /* closed= */ 0.75,
              /* off= */ 2,
              /* corner= */ 0.08,
              /* meets= */ 0.68,
              /* low= */ 2,
              /* round= */ 1.6,
              /* middle= */ 0.4),
          new Shapes(
              /* stroke= */ 0.85,
              /* crossbar= */ 0.75,
              /* tall= */ 1.4,
              /* wide= */ 1.5,
              /* reach= */ 2),
          /* leastInk= */ 0.08);

  /**
   * Closed frames over a staff that the network didn't see.
   *
   * @param probability how sure a closed frame of the right size makes; what it says must fit, too
   * @param read how surely a frame's text must be a mark's
   * @param same share of a box within another that makes them the same
   * @param filled share of a frame's area its ink and letters may fill
   * @param least a frame is wider and higher than this, spaces
   * @param widest and narrower than this, spaces
   * @param highest and lower than this, spaces
   * @param under room an upper staff's own signs take under its middle line, spaces
   * @param every share of a staff's length after which the room over it is measured
   */
  public record Frames(
      double probability,
      double read,
      double same,
      double filled,
      double least,
      int widest,
      int highest,
      double under,
      double every) {}

  /**
   * Lines of text over a staff.
   *
   * @param highest what is higher is no letter, spaces
   * @param widest what is wider is no letter, spaces
   * @param speck with fewer dark pixels a piece is dirt, fine pixels
   * @param begins a line begins with a piece higher than this, spaces
   * @param least lines are higher than this, spaces
   * @param shortest and longer than this, spaces
   * @param gap letters of a line are at most this far apart, in heights of the line
   * @param level a letter shares more than this of its height with its line
   * @param taller than the line by less than this times
   * @param lower than the line by less than this times
   * @param slack fine pixels a line may be higher besides
   * @param stop stops and the like are lower than this share of the line
   * @param stopWide and narrower than this, in heights of the line
   */
  public record Lines(
      double highest,
      int widest,
      int speck,
      double begins,
      double least,
      int shortest,
      double gap,
      double level,
      double taller,
      int lower,
      int slack,
      double stop,
      int stopWide) {}

  /**
   * What is drawn around a mark.
   *
   * @param closed share of a side's length that must carry ink
   * @param off how far a side may lie from where the box says, pixels
   * @param corner share of a side left out at its ends
   * @param meets share of a side from corner to corner that must carry ink: bold figures have no
   *     corners
   * @param low frames are mostly taller; what is lower may be bold figures that fill their box,
   *     spaces; circles are larger
   * @param round a circle's box is at most this much longer than wide, and wider than long
   * @param middle a circle touches its box from this share of a side up to as far from its other
   *     end
   */
  public record Sides(
      double closed, int off, double corner, double meets, int low, double round, double middle) {}

  /**
   * Segno and coda by the strokes through them.
   *
   * @param stroke share of a stroke's length that must carry ink
   * @param crossbar the same of a coda's level stroke
   * @param tall both are at least this high, spaces
   * @param wide and less wide than this, in their heights
   * @param reach how far from the middle the stroke may stand, pixels
   */
  public record Shapes(double stroke, double crossbar, double tall, double wide, int reach) {}
}
