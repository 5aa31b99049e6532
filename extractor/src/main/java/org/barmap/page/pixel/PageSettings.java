package org.barmap.page.pixel;

/**
 * Everything the page stage decides by a threshold; it stands in the lowest of the stage's rooms so
 * that all of them see it.
 *
 * <p>Lengths are in pixels of the picture looked at, shares from 0 to 1 and gray levels from 0,
 * black, to 255, white, unless a component says otherwise. Where no other reason stands beside a
 * value it was tuned on the photographs of the corpus by looking at the pages that came out wrong;
 * none of those searches was kept as figures.
 *
 * @param judging what a picture is judged on as a whole
 * @param view the part of it that is looked at
 * @param level how the paper and its lines lie in the picture
 * @param light light on the paper, and what is blurred
 * @param size how much a picture is scaled
 * @param pdf how the pages of a PDF are drawn
 */
public record PageSettings(
    Judging judging, View view, LevelSettings level, LightSettings light, Size size, Pdf pdf) {

  /** The settings in use. */
  public static final PageSettings STANDARD =
      new PageSettings(
          standardJudging(),
          new View(/* margin= */ 0.015, /* edge= */ 0.12, /* leastRows= */ 200),
          LevelSettings.standard(),
          LightSettings.standard(),
          standardSize(),
          standardPdf());

  /**
   * What a picture is judged on as a whole.
   *
   * @param pixels of the picture that are enough for it
   * @param level a smaller slope is left to the staff tracing; tangent
   * @param turned times as many level lines must show before a turned picture is believed
   * @param surelyLevel lines as regular as this are staves; no need to look at the picture sideways
   * @param alike how far the staff space of a half is from that of the whole opening, as a share
   */
  public record Judging(
      double pixels, double level, double turned, double surelyLevel, double alike) {}

  /**
   * The part of a picture that is looked at.
   *
   * @param margin how much around the paper is kept, as a share of its size
   * @param edge share of the height left out at each edge when no lines are seen
   * @param leastRows of a picture of which something is left out
   */
  public record View(double margin, double edge, int leastRows) {}

  /**
   * How much a picture is scaled.
   *
   * @param usualSpace staff space of a scaled picture
   * @param leastSpace from this staff space on a picture is left as it is
   * @param mostSpace up to this one
   * @param plain long side of a working image of a page without staves
   * @param mostPixels of a working image
   * @param leastScale of it
   */
  public record Size(
      double usualSpace,
      double leastSpace,
      double mostSpace,
      double plain,
      double mostPixels,
      double leastScale) {}

  /**
   * How the pages of a PDF are drawn.
   *
   * @param dpi of a drawn page: what scans are advised to have
   * @param mostPixels of a drawn page
   * @param mostSide of a drawn page
   * @param leastScanDpi of a page that is one scan; fewer is a picture on it
   * @param mostScanDpi of such a page
   * @param scanFits how far its picture's shape is from the page's, as a share
   * @param much without a picture of at least this share of its area a page is not the page any
   *     more
   * @param allThere a picture of less than this share of its bytes is broken off; some writers drop
   *     a last row
   * @param moreThanNeeded times the bytes that a picture needs, those of its rows' filters among
   *     them, at most
   */
  public record Pdf(
      double dpi,
      double mostPixels,
      double mostSide,
      double leastScanDpi,
      double mostScanDpi,
      double scanFits,
      double much,
      double allThere,
      int moreThanNeeded) {}

  private static Judging standardJudging() {
    return new Judging(
        /* pixels= */ 2.4e6,
        /* level= */ 0.01,
        /* turned= */ 1.5,
        /* surelyLevel= */ 0.4,
        /* alike= */ 0.25);
  }

  private static Size standardSize() {
    return new Size(
        /* usualSpace= */ 16,
        /* leastSpace= */ 11.5,
        /* mostSpace= */ 22,
        /* plain= */ 2200,
        /* mostPixels= */ 40e6,
        /* leastScale= */ 0.05);
  }

  private static Pdf standardPdf() {
    return new Pdf(
        /* dpi= */ 300,
        /* mostPixels= */ 40e6,
        /* mostSide= */ 15_000,
        /* leastScanDpi= */ 72,
        /* mostScanDpi= */ 600,
        /* scanFits= */ 0.05,
        /* much= */ 0.05,
        /* allThere= */ 0.99,
        /* moreThanNeeded= */ 2);
  }
}
