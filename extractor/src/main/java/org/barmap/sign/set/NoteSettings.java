package org.barmap.sign.set;

/**
 * What notes are, and which of them are the player's own. Units as {@link SignSettings} says.
 *
 * @param circles which ink is a head
 * @param own which heads are the player's own
 * @param bars which bars are looked at
 * @param strokes what tells notes from the accidentals of a key
 * @param places how much room clef, key, meter and barline take
 */
public record NoteSettings(Circles circles, Own own, Bars bars, Strokes strokes, Places places) {

  /** The settings in use. */
  static final NoteSettings STANDARD =
      new NoteSettings(
          new Circles(
              /* reach= */ 5.5,
              /* longest= */ 1.9,
              /* tallest= */ 1.4,
              /* line= */ 6,
              /* least= */ 0.26,
              /* run= */ 3),
          new Own(
              /* usual= */ 0.47,
              /* own= */ 0.88,
              /* cue= */ 0.82,
              /* enough= */ 80,
              /* least= */ 12,
              /* bars= */ 40,
              /* rank= */ 0.7,
              /* cueHeads= */ 2,
              /* cueOwn= */ 3),
          new Bars(/* sure= */ 0.5, /* least= */ 2.5, /* from= */ 0.5, /* to= */ 0.3),
          new Strokes(
              /* stem= */ 3.6,
              /* solidWide= */ 1,
              /* solidHigh= */ 5,
              /* reach= */ 8,
              /* stroke= */ 2,
              /* sure= */ 0.5),
          new Places(
              /* barline= */ 1.2,
              /* clef= */ 3.8,
              /* mostKey= */ 12,
              /* meter= */ 0.3,
              /* head= */ 1.5));

  /**
   * Which ink is a head: a head is told by the largest circle that fits into it.
   *
   * @param reach rows looked at over and under the middle line, spaces
   * @param longest ink as long as this along the staff is no head, spaces
   * @param tallest ink as high as this is no head, spaces
   * @param line staff lines and stems are thinner than this: three times half of it, fine pixels
   * @param least less than this is no head at all, radius in spaces
   * @param run ink is followed no farther than this, spaces
   */
  public record Circles(
      double reach, double longest, double tallest, int line, double least, int run) {}

  /**
   * Which heads are the player's own: cues are drawn small (common practice).
   *
   * @param usual radius on pages that don't show it, spaces: a space is as high as a head; circles
   *     in it are a little smaller
   * @param own a head at least this share of the usual one is the player's own
   * @param cue a head at most this share of the usual one is a cue's
   * @param enough so many heads tell what is usual on a page
   * @param least fewer don't
   * @param bars of a line looked at for them at most
   * @param rank the usual head is larger than this share of a page's heads
   * @param cueHeads a cue has more heads than this
   * @param cueOwn and fewer than one of so many is as large as the player's own
   */
  public record Own(
      double usual,
      double own,
      double cue,
      int enough,
      int least,
      int bars,
      double rank,
      int cueHeads,
      int cueOwn) {}

  /**
   * Which bars are looked at.
   *
   * @param sure signs surer than this divide and fill bars
   * @param least nothing is looked for in shorter bars, spaces
   * @param from behind a barline no head is looked for up to here, spaces
   * @param to nor from here on before the next, spaces
   */
  public record Bars(double sure, double least, double from, double to) {}

  /**
   * What tells notes from the accidentals of a key.
   *
   * @param stem no accidental is this tall, spaces; a stem is about 3.5 (common practice)
   * @param solidWide solid ink this wide is a head, spaces
   * @param solidHigh if it is also this high, pixels
   * @param reach rows looked at above and below the middle line, spaces
   * @param stroke a stroke this long is a stem where no key stands, spaces
   * @param sure barlines surer than this divide a staff
   */
  public record Strokes(
      double stem, int solidWide, int solidHigh, int reach, int stroke, double sure) {}

  /**
   * How much room is taken, spaces.
   *
   * @param barline by a barline's own ink and dots
   * @param clef by a clef
   * @param mostKey by clef and the widest key before a meter
   * @param meter behind a meter, by its own ink
   * @param head before the column in which a note is seen, by its head and accidentals
   */
  public record Places(double barline, double clef, double mostKey, double meter, double head) {}
}
