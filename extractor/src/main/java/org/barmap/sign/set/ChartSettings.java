package org.barmap.sign.set;

/**
 * What is taken for slashes, chord symbols and their like, and what is believed against them. Units
 * as {@link SignSettings} says.
 *
 * @param repeats which bar-repeat signs are slashes
 * @param texts which marks, numbers and words are chord symbols and their like
 * @param lines which barlines are slashes' strokes
 * @param rests which bars are silent
 */
public record ChartSettings(Repeats repeats, Texts texts, Lines lines, Rests rests) {

  /** The settings in use. */
  static final ChartSettings STANDARD =
      new ChartSettings(
          new Repeats(
              /* beside= */ 8,
              /* same= */ 0.3,
              /* sign= */ 0.07,
              /* share= */ 0.125,
              /* slash= */ 0.5,
              /* nowhere= */ 0.02,
              /* half= */ 0.5),
          new Texts(
              /* there= */ 0.5,
              /* same= */ 0.4,
              /* piece= */ 0.7,
              /* surer= */ 1.2,
              /* counted= */ 0.3),
          new Lines(/* beside= */ 6, /* around= */ 24, /* line= */ 0.1, /* slash= */ 0.5),
          new Rests(
              /* there= */ 0.6,
              /* beside= */ 16,
              /* silent= */ 0.8,
              /* inset= */ 8,
              /* wholly= */ 0.9,
              /* named= */ 0.1,
              /* longNote= */ 2));

  /**
   * Which bar-repeat signs are slashes.
   *
   * @param beside as far from the sign's middle what fills the bar is looked at, pixels
   * @param same a bar less likely to be the one before again than this may be one of slashes (of
   *     1,296 bars of such signs on made pages held out 2 were below)
   * @param sign and is, where the sign itself is less likely than this (one by LilyPond, which was
   *     not trained on, has 0.10)
   * @param share or less likely than this share of a slash (that one has 0.14)
   * @param slash and a slash is more likely than this
   * @param nowhere where a bar is the one before again with less than this probability all round
   *     the sign (of the made pages looked at no such sign was below 0.28, and slashes taken for
   *     one were at 0.000)
   * @param half and others stand in its bar, less than this share of a slash is enough (slashes
   *     taken for one had 0.39 to 0.47)
   */
  public record Repeats(
      double beside,
      double same,
      double sign,
      double share,
      double slash,
      double nowhere,
      double half) {}

  /**
   * Which marks, numbers and words are chord symbols and their like.
   *
   * @param there what is less likely than this is not believed
   * @param same it is the sign whose box overlaps by this, intersection over union
   * @param piece or of which so much lies in the other
   * @param surer and has to be so many times likelier than what the sign was taken for
   * @param counted a counter stands over bars that are slashed, or the bar before again, this
   *     likely
   */
  public record Texts(double there, double same, double piece, double surer, double counted) {}

  /**
   * Which barlines are slashes' strokes.
   *
   * @param beside a slash so near is the stroke, pixels
   * @param around bars of slashes are looked for so far around, pixels
   * @param line less likely than this there is no barline
   * @param slash a slash at least this likely
   */
  public record Lines(double beside, double around, double line, double slash) {}

  /**
   * Which bars are silent.
   *
   * @param there a rest this likely is one
   * @param beside if the bar is silent so far beside it, pixels
   * @param silent with this probability
   * @param inset of a bar what lies nearer to its barlines isn't looked at, pixels
   * @param wholly a bar is silent though no rest was found in it, where this is likely all over it
   * @param named or this likely, where the name of another instrument stands over it
   * @param longNote and no note this long, in quarters, stands alone in it
   */
  public record Rests(
      double there,
      double beside,
      double silent,
      double inset,
      double wholly,
      double named,
      double longNote) {}
}
