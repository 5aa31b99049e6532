package org.barmap.sign.set;

/**
 * How texts are read, cut into words and believed. Units as {@link SignSettings} says.
 *
 * @param readers how much the two readers are believed
 * @param words how a line falls into words
 * @param kinds when a text says that its sign is of another kind
 * @param headings where the headings of musical numbers stand
 * @param titles where the title of a heading stands
 * @param meaning how badly a phrase may be misread
 */
public record TextSettings(
    Readers readers, Words words, Kinds kinds, Headings headings, Titles titles, Meaning meaning) {

  /** The settings in use. */
  static final TextSettings STANDARD =
      new TextSettings(
          new Readers(/* sure= */ 0.75, /* trust= */ 0.5, /* smallAlike= */ 0.1),
          new Words(/* gap= */ 0.22, /* spaced= */ 1.9, /* flat= */ 0.3, /* dash= */ 1.8),
          new Kinds(
              /* fits= */ 0.2,
              /* sure= */ 0.5,
              /* clear= */ 0.95,
              /* unclear= */ 0.85,
              /* meter= */ 0.1,
              /* faint= */ 0.352,
              /* sureMeter= */ 0.97,
              /* read= */ 0.4,
              /* letters= */ 2),
          new Headings(
              /* lowest= */ 5.0,
              /* high= */ 6.5,
              /* large= */ 1.8,
              /* tall= */ 1.3,
              /* left= */ 3,
              /* middle= */ 0.06,
              /* worded= */ 0.9,
              /* same= */ 0.4,
              /* covered= */ 0.6),
          new Titles(/* below= */ 1.2, /* least= */ 0.7, /* most= */ 1.6, /* level= */ 0.6),
          new Meaning(/* lettersAMisread= */ 6, /* leastBegun= */ 4));

  /**
   * How much the two readers are believed.
   *
   * @param sure words our own reader is this sure of need no second model: believed half, it could
   *     not say otherwise
   * @param trust share of the general model's own probability it is believed with
   * @param smallAlike share of a small letter's probability that stays with it where its shape is
   *     like a capital's
   */
  public record Readers(double sure, double trust, double smallAlike) {}

  /**
   * How a line falls into words.
   *
   * @param gap words are further apart than this, in heights of the line
   * @param spaced the same in usual gaps between letters
   * @param flat a dash is lower than this share of its line
   * @param dash and longer than this, in its own heights
   */
  public record Words(double gap, double spaced, double flat, double dash) {}

  /**
   * When a text says that its sign is of another kind: the network tells marks from words by size.
   *
   * @param fits less of a reading than this fits its kind: the kind is wrong
   * @param sure a reading this sure names another kind
   * @param clear figures and letters that are one are read more surely than this
   * @param unclear a segno read as a figure or letter is read less surely than this
   * @param meter less of a reading than this fits a meter: it is none
   * @param faint a meter seen less likely than this, the threshold of the model's card,
   * @param sureMeter has to be read as surely as this
   * @param read the likeliest meter is read at least this surely: of the corpus, real print and
   *     real handwriting five readings were less sure, none of a meter, and the least sure one of a
   *     meter was at 0.43
   * @param letters a word has, and what reads as a segno or coda has at most
   */
  public record Kinds(
      double fits,
      double sure,
      double clear,
      double unclear,
      double meter,
      double faint,
      double sureMeter,
      double read,
      int letters) {}

  /**
   * Where the headings of musical numbers stand.
   *
   * @param lowest a heading stands at least this high over the middle line, spaces
   * @param high where only headings stand over it, spaces
   * @param large letters of headings are mostly larger than this, spaces
   * @param tall a heading known by its place is higher than this, spaces
   * @param left it begins nearer to the line's left end than this, spaces
   * @param middle or its middle is nearer to the line's than this share of its length
   * @param worded how sure a text worded like a heading makes
   * @param same share of a box within another that makes them the same text
   * @param covered and of a line's width that another sign covers
   */
  public record Headings(
      double lowest,
      double high,
      double large,
      double tall,
      double left,
      double middle,
      double worded,
      double same,
      double covered) {}

  /**
   * Where the title stands that goes with "No. 7", in heights of that label.
   *
   * @param below nearer under it than this
   * @param least higher than this
   * @param most lower than this
   * @param level beside it, less than this off its middle
   */
  public record Titles(double below, double least, double most, double level) {}

  /**
   * How badly a phrase may be misread.
   *
   * @param lettersAMisread one letter in so many may be wrong
   * @param leastBegun phrases with fewer letters say nothing as the beginning of a longer text
   */
  public record Meaning(int lettersAMisread, int leastBegun) {}
}
