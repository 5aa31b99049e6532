package org.barmap.sign.set;

/**
 * What is taken for written by hand on the print. Units as {@link SignSettings} says, in the page's
 * usual staff space.
 *
 * @param ink darker than this is ink, pencil too; gray level
 * @param print darker than this is surely print; gray level
 * @param shade which share of the pixels inside the staves is darker than what is called the
 *     print's shade
 * @param everyRow of so many rows inside the staves one is looked at for the print's shade
 * @param zone how far beyond its outer lines a staff's own ink is left alone
 * @param ends how far beyond its ends likewise
 * @param smallest extent of a stroke that is looked at
 * @param largest extent of a stroke that is looked at: a page's frame and shadow are larger
 * @param edge a stroke is the staff's own that touches it with more than this share of its width
 * @param near how far apart strokes are neighbours
 * @param like of neighbours the higher is at most this many times as high as the lower
 * @param reach farther from a staff than this is all the same
 * @param seed least probability of one stroke of a mark, which doesn't touch a staff: pale stems
 *     and beams of two real prints looked like pencil
 * @param lighter so much lighter than the page's usual ink that stroke is at least, gray levels; no
 *     page of two levels has one
 * @param flat a stroke that is so many times as wide as high is no pencil by itself: of 11 claims
 *     on 43 real prints nobody wrote on, 9 were printed hairpins as pale as pencil
 * @param grown least probability of all others
 * @param whole least probability of a mark's strokes, by their ink
 * @param gap how far apart the strokes of a mark may lie
 * @param most marks a page can hold: where more are found, the print is what was found
 * @param round how far a sign's strokes may reach beyond its box
 * @param across which share of a sign's width its strokes by hand cover at least
 * @param upright which share of its height likewise
 * @param loop a stroke with a hole that takes up this share of a sign's box goes round it
 */
public record HandSettings(
    int ink,
    int print,
    double shade,
    int everyRow,
    double zone,
    double ends,
    double smallest,
    double largest,
    double edge,
    double near,
    double like,
    double reach,
    double seed,
    double lighter,
    double flat,
    double grown,
    double whole,
    double gap,
    int most,
    double round,
    double across,
    double upright,
    double loop) {

  /** The settings in use. */
  static final HandSettings STANDARD =
      new HandSettings(
          /* ink= */ 205,
          /* print= */ 128,
          /* shade= */ 0.25,
          /* everyRow= */ 3,
          /* zone= */ 0.4,
          /* ends= */ 0.5,
          /* smallest= */ 0.6,
          /* largest= */ 40,
          /* edge= */ 0.5,
          /* near= */ 3,
          /* like= */ 1.5,
          /* reach= */ 8,
          /* seed= */ 0.9,
          /* lighter= */ 25,
          /* flat= */ 4,
          /* grown= */ 0.3,
          /* whole= */ 0.7,
          /* gap= */ 0.8,
          /* most= */ 200,
          /* round= */ 0.4,
          /* across= */ 0.6,
          /* upright= */ 0.6,
          /* loop= */ 0.8);
}
