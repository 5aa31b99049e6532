package org.barmap.page.pixel;

import java.util.List;

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
 * @param sheet where the paper lies
 * @param levels slope and distance of the level lines
 * @param facing where an opening falls into its pages, and what of them is whole
 * @param light how light is evened out
 * @param screens paper turned into dots
 * @param sharp what is blurred and what is empty
 * @param size how much a picture is scaled
 * @param pdf how the pages of a PDF are drawn
 */
public record PageSettings(
    Judging judging,
    View view,
    Sheet sheet,
    Levels levels,
    FacingSettings facing,
    Light light,
    Screens screens,
    Sharp sharp,
    Size size,
    Pdf pdf) {

  /** The settings in use. */
  public static final PageSettings STANDARD =
      new PageSettings(
          standardJudging(),
          new View(/* margin= */ 0.015, /* edge= */ 0.12, /* leastRows= */ 200),
          standardSheet(),
          standardLevels(),
          FacingSettings.standard(),
          standardLight(),
          new Screens(/* everyRow= */ 7, /* dark= */ 128, /* alone= */ 0.08, /* around= */ 3),
          standardSharp(),
          standardSize(),
          standardPdf());

  /**
   * What is a screen: paper turned into dots.
   *
   * @param everyRow of so many rows one is looked at
   * @param dark darker than this is a dot or ink, gray level
   * @param alone of what is dark a larger share than this touches nothing dark: of 0.21 on a
   *     screened copy, and of at most 0.03 on all others of the corpus and of real print
   * @param around side of the square whose middle value a pixel takes, pixels
   */
  public record Screens(int everyRow, int dark, double alone, int around) {}

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
   * Where the paper lies, on a thumbnail.
   *
   * @param thumb its longer side
   * @param leastShare of the picture that paper takes
   * @param mostShare of it; more is all of it
   * @param fit how well a quadrilateral must cover the paper, as a share
   * @param edgeWeight what a good edge counts beside a good cover
   * @param steps how sharp an edge stops the paper, on the scale of brightness
   * @param ink what is thinner than this is closed over
   * @param smooth side of the median after it
   * @param leastContrast of a picture that shows more than paper; gray levels
   * @param darkest a threshold lies at least this much over the darkest place
   * @param brightest and this much below the brightest
   * @param between two thresholds tried
   * @param octave levels of the scale of brightness in a halving
   * @param darkestGray darker is taken for this
   * @param lift what is added to the scale, so that it fits a byte
   * @param seeds places across, and down, from which paper spreads
   * @param firstSeed the first of them, as a share of the size
   * @param nextSeed the distance of the next, as a share
   * @param inside corners this far inside are in the picture
   * @param hullPoints points of an outline of which the best four are looked for
   * @param leastSide of a sheet
   * @param uneven opposite sides are at most this much longer than each other
   * @param leastSine of its corners: some 60 degrees at least
   * @param narrowest width by height at least
   * @param widest width by height at most, an opening
   * @param edge the least share of each side along which it must look like an edge of paper
   * @param beside from the edge to the places compared
   * @param jump brightness steps between paper and what lies beside it
   * @param border what is nearer to the picture's border counts as edge
   * @param bent how far a bent page leaves its straight side
   * @param corner share of a side left out at its ends
   */
  public record Sheet(
      double thumb,
      double leastShare,
      double mostShare,
      double fit,
      double edgeWeight,
      List<Double> steps,
      int ink,
      int smooth,
      double leastContrast,
      double darkest,
      double brightest,
      double between,
      double octave,
      int darkestGray,
      double lift,
      int seeds,
      double firstSeed,
      double nextSeed,
      double inside,
      int hullPoints,
      double leastSide,
      double uneven,
      double leastSine,
      double narrowest,
      double widest,
      double edge,
      double beside,
      int jump,
      int border,
      int bent,
      double corner) {}

  /**
   * Slope and distance of the level lines.
   *
   * @param shrink columns averaged before anything else: level lines lose nothing by it
   * @param tile columns of the shrunk picture in one tile
   * @param thick ink this high is no line
   * @param mean height over which the paper is averaged
   * @param strongest a line counts this much at most; a tile of them fits a short
   * @param maxSlope of the lines, tangent
   * @param slopeStep between two slopes tried; tangent
   * @param minSpace of neighbouring lines
   * @param maxSpace of neighbouring lines
   * @param spaceStep between two distances tried
   * @param tileSteps steps by which a tile's slope may differ from the usual one
   * @param repeated what five lines agree with themselves, moved by one and two distances
   * @param least below this regularity there are no staves
   * @param regular lines less regular than this may be none of staves of five; of 226 pages with
   *     such staves 44 are, down to 0.24, and five of their lines stand together in 4 rows and
   *     more, of staves of one line in none
   * @param lasting spaces for which five of them stand together where they are a staff
   * @param together in how many rows a column shows five lines of staves at least, on average
   * @param plain weight of a picture without any regularity
   * @param tiny keeps from dividing by nothing
   */
  public record Levels(
      int shrink,
      int tile,
      int thick,
      int mean,
      double strongest,
      double maxSlope,
      double slopeStep,
      int minSpace,
      int maxSpace,
      double spaceStep,
      int tileSteps,
      double repeated,
      double least,
      double regular,
      double lasting,
      double together,
      double plain,
      double tiny) {}

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

  private static Sheet standardSheet() {
    return new Sheet(
        /* thumb= */ 320,
        /* leastShare= */ 0.15,
        /* mostShare= */ 0.93,
        /* fit= */ 0.93,
        /* edgeWeight= */ 0.3,
        /* steps= */ List.of(1.0, 2.0, 3.0, 5.0, 8.0),
        /* ink= */ 9,
        /* smooth= */ 5,
        /* leastContrast= */ 40,
        /* darkest= */ 10,
        /* brightest= */ 8,
        /* between= */ 8,
        /* octave= */ 20,
        /* darkestGray= */ 4,
        /* lift= */ 60,
        /* seeds= */ 5,
        /* firstSeed= */ 0.2,
        /* nextSeed= */ 0.15,
        /* inside= */ 1.5,
        /* hullPoints= */ 28,
        /* leastSide= */ 20,
        /* uneven= */ 1.5,
        /* leastSine= */ 0.85,
        /* narrowest= */ 0.35,
        /* widest= */ 2.6,
        /* edge= */ 0.7,
        /* beside= */ 3,
        /* jump= */ 4,
        /* border= */ 4,
        /* bent= */ 4,
        /* corner= */ 0.04);
  }

  private static Levels standardLevels() {
    return new Levels(
        /* shrink= */ 4,
        /* tile= */ 36,
        /* thick= */ 9,
        /* mean= */ 13,
        /* strongest= */ 70,
        /* maxSlope= */ 0.25,
        /* slopeStep= */ 0.0125,
        /* minSpace= */ 4,
        /* maxSpace= */ 48,
        /* spaceStep= */ 0.125,
        /* tileSteps= */ 6,
        /* repeated= */ 0.8 + 0.6,
        /* least= */ 0.08,
        /* regular= */ 0.7,
        /* lasting= */ 4,
        /* together= */ 1,
        /* plain= */ 0.02,
        /* tiny= */ 1e-9);
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
