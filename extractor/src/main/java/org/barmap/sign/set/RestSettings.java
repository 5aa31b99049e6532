package org.barmap.sign.set;

import java.util.List;

/**
 * What rests are, and what signs of several staves and a numeral say about them. Units as {@link
 * SignSettings} says.
 *
 * @param cues rests the network missed, and those that what is beside them contradicts
 * @param block the ink of a whole-bar rest
 * @param thick the ink of a multi-bar rest
 * @param common common time and its cut
 * @param support how a rest and its numeral support each other
 * @param sums what the blocks of an old rest add up to
 * @param staves which signs of several staves are one
 */
public record RestSettings(
    Cues cues, Block block, Thick thick, Common common, Support support, Sums sums, Staves staves) {

  /** The settings in use. */
  static final RestSettings STANDARD =
      new RestSettings(
          new Cues(
              /* probability= */ 0.6,
              /* doubted= */ 0.3,
              /* clear= */ 0.8,
              /* ownNotes= */ 2,
              /* from= */ 0.7,
              /* to= */ 1.2,
              /* least= */ 2,
              /* beside= */ 0.3,
              /* high= */ -1.5,
              /* offLine= */ 0.3,
              /* nameBefore= */ 1.5,
              /* nameUntil= */ 1,
              /* over= */ 7,
              /* under= */ 5,
              /* around= */ 3,
              /* lines= */ List.of(-1, -3, -2, -4, -5, 0, 1, 2, 3)),
          new Block(
              /* wide= */ 1.0,
              /* off= */ 2,
              /* height= */ 4,
              /* top= */ 2,
              /* rows= */ 5,
              /* inked= */ 0.95,
              /* above= */ 7,
              /* below= */ 11,
              /* paperRows= */ 3,
              /* paper= */ 0.35,
              /* middle= */ 4,
              /* besideRows= */ 2,
              /* beside= */ 0.8,
              /* higher= */ 8,
              /* level= */ 0.85),
          new Thick(/* kept= */ 0.3, /* inset= */ 0.1, /* dark= */ 0.8, /* rows= */ 3),
          new Common(
              /* from= */ 0.3,
              /* to= */ 0.7,
              /* stroke= */ 0.85,
              /* none= */ 0.6,
              /* cut= */ 0.9,
              /* plain= */ 0.1,
              /* unsure= */ 0.5,
              /* least= */ 1e-3),
          new Support(
              /* together= */ 2.5,
              /* over= */ 0.8,
              /* weight= */ 0.9,
              /* several= */ 0.5,
              /* rules= */ 0.85),
          new Sums(
              /* beside= */ 0.5,
              /* farther= */ 1.5,
              /* around= */ 2.5,
              /* off= */ 3,
              /* least= */ 6,
              /* narrow= */ 4,
              /* wide= */ 40,
              /* uneven= */ 4,
              /* one= */ 12,
              /* two= */ 24,
              /* four= */ 40,
              /* right= */ 0.9,
              /* others= */ 20,
              /* match= */ 0.9),
          new Staves(/* near= */ 1.2, /* nearRest= */ 4, /* least= */ 0.1));

  /**
   * Rests the network missed, and those that what is beside them contradicts.
   *
   * @param probability how sure name and block together make
   * @param doubted what contradicts the notes beside it keeps this share of its probability
   * @param clear a rest seen this surely is one, whatever its bar holds
   * @param ownNotes so many of the player's own notes contradict a whole-bar rest; one contradicts
   *     a block rest and a bar-repeat sign
   * @param from behind a barline nothing is looked for up to here, spaces
   * @param to nor from here on before the next, spaces
   * @param least a rest beside a key has at least this room, spaces
   * @param beside a rest nothing of it is taken for a stem up to here, spaces
   * @param high over this, spaces from the middle line, rests are moved for cues only
   * @param offLine a side nearer to a line than this lies on it, spaces
   * @param nameBefore a cue's name begins at most this much before its bar, spaces
   * @param nameUntil and at least this much before its end, spaces
   * @param over rows looked at over the middle line, spaces
   * @param under and under it, spaces
   * @param around a bar the ink is looked at this much farther, spaces
   * @param lines a rest may hang from among cues, the likeliest first; spaces from the middle one
   */
  public record Cues(
      double probability,
      double doubted,
      double clear,
      int ownNotes,
      double from,
      double to,
      int least,
      double beside,
      double high,
      double offLine,
      double nameBefore,
      int nameUntil,
      int over,
      int under,
      int around,
      List<Integer> lines) {

    /** Takes a defensive copy. */
    public Cues {
      lines = List.copyOf(lines);
    }
  }

  /**
   * The ink of a whole-bar rest: half a space high, with paper over and under most of it, and no
   * longer than a rest. Rows are counted from the line it hangs from, fine pixels.
   *
   * @param wide a rest is about this wide, spaces; engravers draw 1 to 1.4
   * @param off it may hang this far off its line, and its upper side be this uneven
   * @param height of its box, pixels
   * @param top row from which it is ink
   * @param rows and so many of them
   * @param inked dark share of them at least
   * @param above rows above it from which there is paper
   * @param below and below it
   * @param paperRows so many of them
   * @param paper dark share of them at most: stems and slurs cross it
   * @param middle row looked at beside it
   * @param besideRows so many of them
   * @param beside dark share beside it, two of its widths off, at most
   * @param higher how far up its upper side is looked for
   * @param level share of its width over which its upper side is level; a head's is round
   */
  public record Block(
      double wide,
      int off,
      int height,
      int top,
      int rows,
      double inked,
      int above,
      int below,
      int paperRows,
      double paper,
      int middle,
      int besideRows,
      double beside,
      int higher,
      double level) {}

  /**
   * The ink of a multi-bar rest.
   *
   * @param kept without a thick bar in its box it keeps this share of its probability
   * @param inset share of its width left out at its ends, where the strokes stand
   * @param dark a row of the bar is dark over more than this share
   * @param rows together that are a bar, pixels
   */
  public record Thick(double kept, double inset, double dark, int rows) {}

  /**
   * Common time and its cut, told by the stroke down the middle.
   *
   * @param from the stroke stands behind this share of the sign's width
   * @param to and before this one
   * @param stroke with more ink down its height than this share there is one
   * @param none with less than this there is none
   * @param cut probability of cut time with a stroke
   * @param plain without one
   * @param unsure and between
   * @param least probability each is given before the ink was seen
   */
  public record Common(
      double from,
      double to,
      double stroke,
      double none,
      double cut,
      double plain,
      double unsure,
      double least) {}

  /**
   * How a rest and its numeral support each other.
   *
   * @param together they stand at most this far apart along the staff, spaces
   * @param over or share more than this of the first one's width
   * @param weight how much the other one's probability counts
   * @param several a numeral over 1 this likely over what was taken for a whole-bar rest
   * @param rules says with this share of its probability that it is a block rest
   */
  public record Support(
      double together, double over, double weight, double several, double rules) {}

  /**
   * What the blocks of an old rest of several bars add up to. Depths are counted down from the
   * fourth line; what is chosen here was chosen on the 77 block rests with a numeral of 43 real
   * prints, 8 to 40 pixels a space.
   *
   * @param beside a box is looked at this much farther on both sides, spaces
   * @param farther or this much, where that agrees with the numeral
   * @param around a numeral without a rest is looked at this far on both sides, spaces
   * @param off a block may hang this far off its line, pixels
   * @param least a staff line is no deeper than this, fine pixels
   * @param narrow what is narrower than this is a block's side, fine pixels
   * @param wide what is wider than this is no block, fine pixels
   * @param uneven but for its sides a block is no less even than this below, as beams and heads
   *     are, fine pixels
   * @param one a block of one bar is no deeper than this, fine pixels
   * @param two a block of two bars likewise
   * @param four a block of four bars likewise
   * @param right share of the sums that are the count: 71 of 77 on 43 real prints
   * @param others counts that a wrong sum or a misread numeral may say, all alike
   * @param match how likely a numeral and a sum of two or more that agree are a rest of so many
   *     bars, whatever else was seen
   */
  public record Sums(
      double beside,
      double farther,
      double around,
      int off,
      int least,
      int narrow,
      int wide,
      int uneven,
      int one,
      int two,
      int four,
      double right,
      double others,
      double match) {}

  /**
   * Which signs of several staves are one.
   *
   * @param near signs of two staves at most this far apart may be one; spaces
   * @param nearRest the same of rests, which stand in the middle of their bar on each staff
   * @param least what is less likely than this on all staves together is left out
   */
  public record Staves(double near, double nearRest, double least) {}
}
