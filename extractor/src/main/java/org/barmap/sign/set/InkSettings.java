package org.barmap.sign.set;

import org.barmap.page.pixel.Gray;

/**
 * What is ink on a strip, and where a staff begins and ends. Units as {@link SignSettings} says.
 *
 * @param dark darker is ink; gray level
 * @param lines where a staff's own lines begin and end
 * @param written where something is written between them
 * @param room what of the page around a strip belongs to it
 * @param over pieces of ink over a staff
 * @param facing what belongs to the facing page of an opening
 */
public record InkSettings(
    int dark, Lines lines, Written written, Room room, Over over, Facing facing) {

  /** The settings in use. */
  static final InkSettings STANDARD =
      new InkSettings(
          /* dark= */ Gray.INK,
          new Lines(
              /* faint= */ 225,
              /* gutter= */ 24,
              /* dashes= */ 0.5,
              /* lastSeen= */ 2,
              /* reach= */ 2),
          new Written(/* dark= */ 4, /* columns= */ 3),
          new Room(/* above= */ 4, /* most= */ 36, /* before= */ 2),
          new Over(/* staff= */ 2.4, /* least= */ 2, /* letter= */ 0.3),
          new Facing(/* begin= */ 1, /* lineBefore= */ 1, /* lineAfter= */ 2, /* after= */ 1.5));

  /**
   * Where a staff's own lines begin and end.
   *
   * @param faint lines may be this light and still be there; gray level
   * @param gutter columns without lines that end a staff, pixels: three spaces, more than any gap
   *     in the print
   * @param dashes faint lines in dashes still show this many in a column on average
   * @param lastSeen that many columns with all five lines are still in a window with next to none
   * @param reach rows this near a line may be the line itself, pixels
   */
  public record Lines(int faint, int gutter, double dashes, int lastSeen, int reach) {}

  /**
   * Where something is written between the lines.
   *
   * @param dark pixels between the lines that make a column written on
   * @param columns written on among a space's that are more than specks
   */
  public record Written(int dark, int columns) {}

  /**
   * What of the page around a strip belongs to it, spaces.
   *
   * @param above the strip marks may stand, and more where there is room
   * @param most nothing of a staff stands higher over its middle line
   * @param before numbers in front of a staff begin at most this far left of its strip
   */
  public record Room(int above, int most, int before) {}

  /**
   * Pieces of ink over a staff.
   *
   * @param staff ink nearer to the middle line than this is the staff's, spaces
   * @param least in less room than this nothing is looked for, spaces
   * @param letter what stands in a frame as its letter is higher than this share of it
   */
  public record Over(double staff, int least, double letter) {}

  /**
   * What belongs to the facing page of an opening, spaces.
   *
   * @param begin a staff whose own lines begin later than this was followed over the gutter; the
   *     networks know a line's number, clef and key by where they stand on it
   * @param lineBefore a barline this far before the lines' beginning is still the staff's
   * @param lineAfter a barline this far behind their end likewise
   * @param after any other sign likewise
   */
  public record Facing(double begin, double lineBefore, double lineAfter, double after) {}
}
