package org.barmap.page.pixel;

import java.util.List;

/**
 * How the paper and its lines lie in the picture. Units as {@link PageSettings} says.
 *
 * @param sheet where the paper lies
 * @param levels slope and distance of the level lines
 * @param gutter where an opening falls into its pages
 */
public record LevelSettings(Sheet sheet, Levels levels, Gutter gutter) {

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
      double plain,
      double tiny) {}

  /**
   * Where an opening falls into its pages.
   *
   * @param leastAspect width by height of an opening
   * @param usual share of the columns that have no more lines than the usual one
   * @param leastWidth of a gutter, columns
   * @param leastSpaces of a gutter, staff spaces
   * @param from where it is looked for, as a share of the width
   * @param to until there
   * @param empty share of the usual lines below which a column is empty
   * @param lines so many of a column make it full
   * @param filled share of the columns of a page that are full
   * @param beyond columns beside it that a staff would run on over
   * @param edge part of the height left out above and below: the paper's own edge
   * @param crossed share of the columns that a staff across it fills
   * @param across columns averaged
   * @param mean height over which the paper is averaged
   * @param paper what even light becomes, gray level
   * @param line darker than the paper by this is a line, gray levels
   * @param lean heights by which a line may lean
   * @param together more than this many of five lines stand together
   */
  public record Gutter(
      double leastAspect,
      double usual,
      double leastWidth,
      double leastSpaces,
      double from,
      double to,
      double empty,
      double lines,
      double filled,
      int beyond,
      int edge,
      double crossed,
      int across,
      int mean,
      double paper,
      double line,
      int lean,
      double together) {}

  static LevelSettings standard() {
    return new LevelSettings(standardSheet(), standardLevels(), standardGutter());
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
        /* plain= */ 0.02,
        /* tiny= */ 1e-9);
  }

  private static Gutter standardGutter() {
    return new Gutter(
        /* leastAspect= */ 1.05,
        /* usual= */ 0.7,
        /* leastWidth= */ 3,
        /* leastSpaces= */ 1.5,
        /* from= */ 0.36,
        /* to= */ 0.64,
        /* empty= */ 0.25,
        /* lines= */ 2,
        /* filled= */ 0.35,
        /* beyond= */ 8,
        /* edge= */ 8,
        /* crossed= */ 0.95,
        /* across= */ 5,
        /* mean= */ 13,
        /* paper= */ 250,
        /* line= */ 22,
        /* lean= */ 3,
        /* together= */ 3);
  }
}
