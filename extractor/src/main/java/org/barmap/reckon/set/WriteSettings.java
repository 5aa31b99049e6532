package org.barmap.reckon.set;

/**
 * What is written into the map.
 *
 * <p>Lengths are in staff spaces. Where no other reason stands beside a value it was set by looking
 * at single cases on the pages of the corpus; no figures of those searches were kept.
 *
 * @param contents what is said of a bar
 * @param silences silence at the edges of a bar
 * @param signatures what a key signature says
 * @param keys how keys follow each other
 * @param lines what the map keeps of a line
 */
public record WriteSettings(
    Contents contents, Silences silences, Signatures signatures, KeyOrder keys, Lines lines) {

  /**
   * What is said of a bar.
   *
   * @param noRest a whole-bar rest less likely than this was not read
   * @param sureRest and one likelier than this was, for sure; between the two a person is asked
   * @param openEnd an open end is a bar's end unless the book makes it less likely than this
   * @param inferred how likely a guessed barline stands where it was guessed: with one line in each
   *     third system of the corpus taken away, 567 of the 586 bars beside lines that were then
   *     guessed were right
   * @param heading a heading is there when the reader gives it this much: even odds
   */
  public record Contents(
      double noRest, double sureRest, double openEnd, double inferred, double heading) {}

  /**
   * Silence at the edges of a bar.
   *
   * @param besideLine a barline's own dots and strokes are no notes
   * @param sureRest a rest less likely than this may be something else, so nothing is claimed
   */
  public record Silences(double besideLine, double sureRest) {}

  /**
   * What a key signature says.
   *
   * @param misread share of a reading that may have been anything; from memory
   */
  public record Signatures(double misread) {}

  /**
   * How keys follow each other; from memory, not fitted.
   *
   * @param missed share of lines whose signature isn't drawn, or was overlooked
   * @param invented share of what was taken for a signature that is none
   * @param sameKey share of numbers that go on in the key of the one before
   * @param unannounced share of lines on which the key is another one although nothing announced it
   * @param there a signature is there when the reader gives it this much: even odds
   */
  public record KeyOrder(
      double missed, double invented, double sameKey, double unannounced, double there) {}

  /**
   * What the map keeps of a line.
   *
   * @param printed a bar number up to this far into a line is the line's
   */
  public record Lines(double printed) {}

  static WriteSettings standard() {
    return new WriteSettings(
        standardContents(),
        standardSilences(),
        standardSignatures(),
        standardKeyOrder(),
        standardLines());
  }

  private static Contents standardContents() {
    return new Contents(
        /* noRest= */ 0.4,
        /* sureRest= */ 0.6,
        /* openEnd= */ 0.5,
        /* inferred= */ 0.97,
        /* heading= */ 0.5);
  }

  private static Silences standardSilences() {
    return new Silences(/* besideLine= */ 0.7, /* sureRest= */ 0.6);
  }

  private static Signatures standardSignatures() {
    return new Signatures(/* misread= */ 0.02);
  }

  private static KeyOrder standardKeyOrder() {
    return new KeyOrder(
        /* missed= */ 0.2,
        /* invented= */ 0.03,
        /* sameKey= */ 0.3,
        /* unannounced= */ 0.004,
        /* there= */ 0.5);
  }

  private static Lines standardLines() {
    return new Lines(/* printed= */ 8);
  }
}
