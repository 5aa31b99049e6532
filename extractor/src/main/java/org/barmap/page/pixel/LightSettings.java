package org.barmap.page.pixel;

/**
 * Light on the paper, and what is blurred. Units as {@link PageSettings} says.
 *
 * @param even how light is evened out
 * @param sharp what is blurred and what is empty
 */
public record LightSettings(Light even, Sharp sharp) {

  /**
   * How light is evened out.
   *
   * @param shrink to this part the picture is shrunk to find its light
   * @param leastReach of what is closed over, pixels of that
   * @param reach of it, staff spaces: ink is thinner
   * @param blur as a share of that reach
   * @param clean a picture nowhere darker than this is left as it is
   * @param darkest darker than this is no paper to compare with
   * @param paper what paper becomes
   * @param sample every so many pixels ink is looked for
   * @param inkShare part of the pixels that is surely ink: a hundredth
   * @param blackEnough ink as dark as this is left
   * @param noInk as light as this there is none
   * @param ink what pale ink becomes
   * @param leastPrint of what is closed over before a picture is printed, to each side
   * @param print the same in staff spaces: as thin as a note head
   */
  public record Light(
      int shrink,
      int leastReach,
      double reach,
      double blur,
      double clean,
      double darkest,
      int paper,
      int sample,
      int inkShare,
      int blackEnough,
      int noInk,
      int ink,
      double leastPrint,
      double print) {}

  /**
   * What is blurred and what is empty.
   *
   * @param enough pixels to judge by
   * @param ofSpace blurred by more than this share of a staff space, barlines and stems run
   *     together
   * @param ofSize the same as a share of the picture's size, where no staves are seen at all
   * @param leastHopeless a smaller blur never hides everything
   * @param faintest ink differs from paper by at least this, gray levels
   * @param smooth side of the median before that is looked at
   * @param ink share of the pixels that is surely ink
   * @param paper share that is no lighter than paper
   * @param edges share of the slopes below the steepest
   * @param radius of a blur that covers the way from ink to paper in one pixel
   * @param leastContrast between the two, gray levels
   * @param level smoothing along before slopes are taken
   * @param above part of what is left out that lies above the middle looked at
   */
  public record Sharp(
      double enough,
      double ofSpace,
      double ofSize,
      double leastHopeless,
      double faintest,
      int smooth,
      double ink,
      double paper,
      double edges,
      double radius,
      int leastContrast,
      double level,
      int above) {}

  static LightSettings standard() {
    return new LightSettings(standardLight(), standardSharp());
  }

  private static Light standardLight() {
    return new Light(
        /* shrink= */ 8,
        /* leastReach= */ 3,
        /* reach= */ 2.5,
        /* blur= */ 0.75,
        /* clean= */ 246,
        /* darkest= */ 40,
        /* paper= */ 250,
        /* sample= */ 3,
        /* inkShare= */ 100,
        /* blackEnough= */ 70,
        /* noInk= */ 215,
        /* ink= */ 30,
        /* leastPrint= */ 3,
        /* print= */ 1.2);
  }

  private static Sharp standardSharp() {
    return new Sharp(
        /* enough= */ 3e6,
        /* ofSpace= */ 0.21,
        /* ofSize= */ 0.0028,
        /* leastHopeless= */ 3,
        /* faintest= */ 25,
        /* smooth= */ 3,
        /* ink= */ 0.01,
        /* paper= */ 0.6,
        /* edges= */ 0.995,
        /* radius= */ 0.4,
        /* leastContrast= */ 20,
        /* level= */ 0.6,
        /* above= */ 3);
  }
}
