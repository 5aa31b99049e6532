package org.barmap.sign.set;

/**
 * Which pages were written by hand. Units as {@link SignSettings} says.
 *
 * @param sure barlines surer than this are looked at
 * @param rows of a stroke between the staff lines that tell how it leans
 * @param bare rows without ink that a stroke may have, pixels
 * @param aside so far beside the row before it is looked for, pixels
 * @param widest ink wider than this is no stroke, pixels
 * @param lines so many barlines tell; fewer don't
 * @param near so many barlines around one, by where they stand on their staves, tell how print
 *     leans there
 * @param unsteady from here on a pen drew them: how much a barline in the middle of all leans apart
 *     from those around it (pixels a row) and how much one bends (spaces), added up. On 43 real
 *     prints at most 0.026, on 20 photographs of the corpus at most 0.013, on 12 prints bent as by
 *     a gutter at most 0.007, on eight real pages by hand at least 0.044
 */
public record PenSettings(
    double sure, int rows, int bare, int aside, int widest, int lines, int near, double unsteady) {

  /** The settings in use. */
  static final PenSettings STANDARD =
      new PenSettings(
          /* sure= */ 0.6,
          /* rows= */ 10,
          /* bare= */ 1,
          /* aside= */ 2,
          /* widest= */ 6,
          /* lines= */ 6,
          /* near= */ 4,
          /* unsteady= */ 0.035);
}
