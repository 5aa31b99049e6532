package org.barmap.sign.set;

/**
 * What the numbers of lines and of endings are. Units as {@link SignSettings} says.
 *
 * @param figures of a line's number that the network didn't see
 * @param grown numbers that begin before the strip
 * @param order what a page's marks and numbers say about each other
 * @param sizes how large marks and bar numbers are
 * @param lettered bars called after the one before them
 * @param bracket where an ending's numbers stand
 * @param corner where the page's own number stands
 */
public record NumberSettings(
    Figures figures,
    Grown grown,
    Order order,
    Sizes sizes,
    Lettered lettered,
    Bracket bracket,
    Corner corner) {

  /** The settings in use. */
  static final NumberSettings STANDARD =
      new NumberSettings(
          new Figures(
              /* probability= */ 0.55,
              /* read= */ 0.9,
              /* leastRead= */ 0.25,
              /* start= */ 2,
              /* highest= */ 6,
              /* overStaff= */ 2.4,
              /* low= */ 0.9,
              /* tall= */ 2.2,
              /* wide= */ 1.2,
              /* like= */ 1.35,
              /* level= */ 0.7,
              /* gap= */ 0.6,
              /* apart= */ 1,
              /* speck= */ 6,
              /* most= */ 4,
              /* faint= */ 185,
              /* room= */ 10,
              /* roomAbove= */ 9),
          new Grown(/* edge= */ 10, /* lost= */ 1.5),
          new Order(
              /* lineStart= */ 4,
              /* beforeStaff= */ 0.5,
              /* overStaff= */ -2,
              /* usual= */ 0.6,
              /* systems= */ 2,
              /* framed= */ 2,
              /* faint= */ 0.65,
              /* high= */ -8,
              /* every= */ 5,
              /* letter= */ 0.6,
              /* letterRead= */ 0.8,
              /* heading= */ 0.5),
          new Sizes(
              /* least= */ 2,
              /* sureMark= */ 0.65,
              /* apart= */ 1.3,
              /* farApart= */ 1.5,
              /* larger= */ 1.2,
              /* surelyMark= */ 0.8,
              /* asSmall= */ 0.35,
              /* framed= */ 0.6,
              /* many= */ 4,
              /* unframed= */ 0.8,
              /* asLarge= */ 0.2),
          new Lettered(/* overStaff= */ -2, /* read= */ 0.8, /* ahead= */ 40),
          new Bracket(/* inset= */ 4, /* numbers= */ 4.5),
          new Corner(/* corner= */ 8, /* high= */ 6.5, /* tall= */ 2.2));

  /**
   * Figures of a line's number that the network didn't see (of 1,014 numbers in the corpus 26).
   *
   * @param probability how sure a lonely piece of text in the right place makes; what it says must
   *     fit, too
   * @param read how surely its text must be a number
   * @param leastRead a number the network saw whose likeliest reading has less than this is a piece
   *     of a clef or a note
   * @param start the first figure begins at most this far from the line's beginning, spaces
   * @param highest figures end this far above the middle line, spaces
   * @param overStaff ink nearer to the middle line than this is the staff's, spaces
   * @param low figures are higher than this, spaces
   * @param tall and lower than this, spaces
   * @param wide and narrower than this, in their heights
   * @param like figures of a number are at most this much higher than each other
   * @param level and share more than this of their height
   * @param gap figures of a number are at most this far apart, spaces
   * @param apart whatever else stands nearer than this belongs to it, and it is no number; spaces
   * @param speck with fewer dark pixels a piece is dirt, fine pixels
   * @param most figures of a number
   * @param faint thin figures on photographs are this pale; gray level
   * @param room what is looked at: from the strip's left edge so far, spaces
   * @param roomAbove and so far up over the middle line, spaces
   */
  public record Figures(
      double probability,
      double read,
      double leastRead,
      double start,
      double highest,
      double overStaff,
      double low,
      double tall,
      double wide,
      double like,
      double level,
      double gap,
      double apart,
      int speck,
      int most,
      int faint,
      int room,
      double roomAbove) {}

  /**
   * Numbers that begin before the strip.
   *
   * @param edge a box this near the strip's left edge may lack a figure, pixels
   * @param lost what a box lacks is less wide than this, in its heights: two figures
   */
  public record Grown(double edge, double lost) {}

  /**
   * What a page's marks and numbers say about each other.
   *
   * @param lineStart a number this near the line's left end is one printed for the line, spaces
   * @param beforeStaff what ends before this stands beside the staff, spaces
   * @param overStaff if it also ends lower than this, spaces from the middle line
   * @param usual share of lines that must begin with a number before boxed ones count as bar
   *     numbers
   * @param systems on a page with no more than these nothing is usual
   * @param framed so many lines begin with a number in a frame that stands nowhere else on the page
   * @param faint marks seen less surely than this may be something else
   * @param high higher than marks stand, even over words; spaces from the middle line
   * @param every so many bars printers number one; rehearsal does not
   * @param letter seen less surely than this a letter says nothing about numbers
   * @param letterRead nor read less surely than this
   * @param heading seen less surely than this a heading begins nothing
   */
  public record Order(
      double lineStart,
      double beforeStaff,
      double overStaff,
      double usual,
      int systems,
      int framed,
      double faint,
      double high,
      int every,
      double letter,
      double letterRead,
      double heading) {}

  /**
   * Bars called after the one before them, "23A". "2A" in a word of the band's is far from where
   * the bars count, so only the numbers around it decide.
   *
   * @param overStaff such a number ends higher than this, spaces from the middle line
   * @param read and is read no less surely than this
   * @param ahead it is no more than this ahead of the number printed before it: few lines have more
   *     bars, and those with long rests are numbered behind them
   */
  public record Lettered(double overStaff, double read, int ahead) {}

  /**
   * How large marks and bar numbers are; chosen on made pages with bare marks.
   *
   * @param least so many of a kind tell its size
   * @param sureMark seen less surely than this a mark tells nothing
   * @param apart marks larger than numbers by this factor are told apart by their size
   * @param farApart and by this one surely
   * @param larger marks are so much larger than the numbers of lines that a number's size tells
   *     which it is; on made pages they are by 1.28 and 1.31
   * @param surelyMark seen more surely than this a mark is one, however small
   * @param asSmall a text in this first part of the way from the one size to the other is a number
   * @param framed share of a page's marks that have frames where frames are how it marks
   * @param unframed a bare number of less than this share of a framed mark's height has none, and
   *     is a bar's; others lack theirs for a gap in it
   * @param asLarge a number whose size is no further than this from the marks' may be one,
   *     logarithm
   */
  public record Sizes(
      int least,
      double sureMark,
      double apart,
      double farApart,
      double larger,
      double surelyMark,
      double asSmall,
      double framed,
      int many,
      double unframed,
      double asLarge) {}

  /**
   * Where an ending's numbers stand in its bracket.
   *
   * @param inset the hook and the line are this thick with what surrounds them, pixels
   * @param numbers reach at most this far from the hook, spaces
   */
  public record Bracket(int inset, double numbers) {}

  /**
   * Where the page's own number stands. On the demo book's pages it is 1.4 to 1.7 spaces high and
   * at most 6 from the end of the staff; the figures of boxed marks are 2.4 and more.
   *
   * @param corner it is nearer to the end of the staff than this, spaces
   * @param high it ends higher than this over the middle line, spaces
   * @param tall and is lower than this, spaces
   */
  public record Corner(double corner, double high, double tall) {}
}
