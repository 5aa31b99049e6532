package org.barmap.sign.set;

/**
 * How the networks' output becomes signs, sounds and texts. Units as {@link SignSettings} says; a
 * cell is two pixels along the strip.
 *
 * @param boxes which peaks of centre heat are signs
 * @param barlines which peaks of line heat are barlines
 * @param endings how far the brackets of endings go
 * @param sounds which peaks are notes and rests, and what they are worth
 * @param search how texts are searched for
 * @param runs how crops are put together into one run
 * @param crops how crops are cut
 */
public record NetSettings(
    Boxes boxes,
    Barlines barlines,
    Endings endings,
    Sounds sounds,
    Search search,
    Runs runs,
    Crops crops) {

  /** The settings in use. */
  static final NetSettings STANDARD =
      new NetSettings(
          new Boxes(
              /* most= */ 0.5,
              /* unlisted= */ 0.4,
              /* same= */ 0.4,
              /* piece= */ 0.7,
              /* either= */ 0.6,
              /* head= */ 128,
              /* headMeter= */ 0.25),
          new Barlines(
              /* least= */ 0.05,
              /* apart= */ 1.2,
              /* centre= */ 2,
              /* reach= */ 3,
              /* leastType= */ 0.02),
          new Endings(
              /* under= */ 0.5f,
              /* gap= */ 8,
              /* leastCells= */ 4,
              /* shortest= */ 4,
              /* atStart= */ 16,
              /* around= */ 2,
              /* between= */ 2),
          new Sounds(
              /* leastNote= */ 0.3,
              /* leastRest= */ 0.4,
              /* leastValue= */ 0.5,
              /* otherValue= */ 0.15,
              /* leastGuess= */ 0.1,
              /* likelier= */ 0.5,
              /* sureNot= */ 0.2,
              /* reach= */ 2),
          new Search(
              /* beam= */ 12, /* leastLetter= */ 1e-4, /* leastText= */ 1e-12, /* readings= */ 5),
          new Runs(/* batch= */ 3, /* narrowest= */ 48, /* padding= */ 24),
          new Crops(/* margin= */ 4, /* narrowest= */ 4, /* shrunk= */ 0.8, /* blur= */ 0.45));

  /**
   * Which peaks of centre heat are signs.
   *
   * @param most no threshold of a box is above this, whatever the model's card says: what is
   *     likelier than not is handed on (on 50 made pages whole-bar rests rose from 0.88 to 0.98 F1)
   * @param unlisted the threshold of a kind whose card says none
   * @param same boxes of one kind overlapping more than this are one sign; intersection over union
   * @param piece a box with this share of it inside another of its kind is a piece of it
   * @param either boxes of different kinds overlapping more than this can't both be there;
   *     intersection over union
   * @param head so far clef, key and meter of a line reach, pixels
   * @param headMeter there a meter is handed on from this, whatever the card says (behind clefs of
   *     percussion 2 of 3 that were missed had 0.34 and 0.35)
   */
  public record Boxes(
      double most,
      double unlisted,
      double same,
      double piece,
      double either,
      double head,
      double headMeter) {}

  /**
   * Which peaks of line heat are barlines.
   *
   * @param least a barline less likely than this is not handed on; the reckoning weighs the others,
   *     the faint ones only where a barline is missed (of 6,546 barlines inside a line in the
   *     corpus none had less, and one line in fifty has a peak above it that is none)
   * @param apart two barlines are at least this far apart, spaces
   * @param centre cells beside a peak from which its place is weighed
   * @param reach cells beside a peak over which its type is settled
   * @param leastType a type less likely than this is not handed on
   */
  public record Barlines(double least, double apart, int centre, int reach, double leastType) {}

  /**
   * How far the brackets of endings go.
   *
   * @param under a place hotter than this is under a bracket
   * @param gap in a bracket that is bridged, cells
   * @param leastCells that stand under a bracket, from the first to the last
   * @param shortest a bracket without numbers is at least this long, spaces
   * @param atStart a bracket that goes on begins at most this far from the strip's left end, spaces
   * @param around the bracket may begin this much before or after the box of its beginning, spaces
   * @param between two brackets side by side there is this much room, pixels
   */
  public record Endings(
      float under,
      int gap,
      int leastCells,
      int shortest,
      int atStart,
      int around,
      double between) {}

  /**
   * Which peaks are notes and rests, and what they are worth; all but the last are probabilities.
   *
   * @param leastNote a note less likely than this is none; low, since a note overlooked makes a
   *     false silence
   * @param leastRest a rest less likely than this is none
   * @param leastValue a value less likely than this isn't known
   * @param otherValue nor is it known where another value is likelier than this
   * @param leastGuess a value less likely than this isn't even guessed
   * @param likelier more likely than this a sound has a dot, is under a tuplet's figure, or is
   *     small
   * @param sureNot less likely than this it surely hasn't a dot, nor a tuplet over it
   * @param reach cells beside a peak over which its value is settled
   */
  public record Sounds(
      double leastNote,
      double leastRest,
      double leastValue,
      double otherValue,
      double leastGuess,
      double likelier,
      double sureNot,
      int reach) {}

  /**
   * How texts are searched for.
   *
   * @param beam beginnings kept at each place
   * @param leastLetter a letter less likely than this at a place is not tried there
   * @param leastText where all allowed texts together are less likely than this nothing was read
   * @param readings kept at most
   */
  public record Search(int beam, double leastLetter, double leastText, int readings) {}

  /**
   * How crops are put together into one run, pixels of the crop.
   *
   * @param batch crops in one run: more aren't quicker each, and the last run would keep one
   *     processor idle
   * @param narrowest the network takes nothing narrower
   * @param padding a narrow crop's letters come out partly over this much of the padding at its
   *     right
   */
  public record Runs(int batch, int narrowest, int padding) {}

  /**
   * How crops are cut; as in training, so none can be changed alone.
   *
   * @param margin the box is grown by this on each side, fine pixels: a quarter space
   * @param narrowest crop, pixels of the crop
   * @param shrunk a crop scaled by less than this is smoothed before
   * @param blur of it: standard deviation in pixels of the crop
   */
  public record Crops(double margin, int narrowest, double shrunk, double blur) {}
}
