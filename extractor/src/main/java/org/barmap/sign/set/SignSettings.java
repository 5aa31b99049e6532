package org.barmap.sign.set;

/**
 * Everything the sign stage decides by a threshold.
 *
 * <p>Lengths are in staff spaces, "fine pixels" are those of the finer strip (16 a space), "pixels"
 * those of the strip the networks see (8 a space); shares and probabilities go from 0 to 1, gray
 * levels from 0, black, to 255, white. A value whose component names a figure was chosen by it.
 * Where no figure stands beside a value it was tuned on the pages of the corpus and on made pages
 * by looking at the signs lost and made up; the search was not kept: not measured.
 *
 * @param ink what is ink on a strip, and where a staff begins and ends
 * @param net how the networks' output becomes signs, sounds and texts
 * @param text how texts are read, cut into words and believed
 * @param mark what marks and frames are
 * @param number what the numbers of lines and of endings are
 * @param rest what rests are, and what signs of several staves and a numeral say about them
 * @param note what notes are, and which of them are the player's own
 * @param chart what is taken for slashes, chord symbols and their like
 * @param hand what is taken for written by hand
 * @param pen which pages were written by hand
 * @param under which pages have marks or bar numbers under their staves
 */
public record SignSettings(
    InkSettings ink,
    NetSettings net,
    TextSettings text,
    MarkSettings mark,
    NumberSettings number,
    RestSettings rest,
    NoteSettings note,
    ChartSettings chart,
    HandSettings hand,
    PenSettings pen,
    UnderSettings under) {

  /** The settings in use. */
  public static final SignSettings STANDARD =
      new SignSettings(
          InkSettings.STANDARD,
          NetSettings.STANDARD,
          TextSettings.STANDARD,
          MarkSettings.STANDARD,
          NumberSettings.STANDARD,
          RestSettings.STANDARD,
          NoteSettings.STANDARD,
          ChartSettings.STANDARD,
          HandSettings.STANDARD,
          PenSettings.STANDARD,
          UnderSettings.STANDARD);
}
