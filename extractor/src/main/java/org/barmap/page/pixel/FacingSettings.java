package org.barmap.page.pixel;

/**
 * What tells the pages of one picture apart, and a page from a strip of the one that faces it.
 * Tuned on half of the pictures that {@code corpus/make/strips.mjs} makes and on the photographs of
 * the corpus; the other half only tells what it is worth.
 *
 * <p>Lengths are in staff spaces, shares from 0 to 1.
 *
 * @param across columns averaged, cells
 * @param mean height over which the paper is averaged, pixels
 * @param paper what even light becomes, gray level
 * @param line darker than the paper by this is a line, gray levels
 * @param faintest and by this whatever the light: what is less is noise, gray levels
 * @param lean heights by which a line may lean, pixels
 * @param together so many of five lines make a staff
 * @param apart rows further apart than this are two staves
 * @param maxSlope of a gutter: a camera held more askew is turned before; tangent
 * @param slopeStep between two slopes tried
 * @param leaning share of what a slope moves the band by over the page that it loses in width when
 *     bands are compared
 * @param page two gutters are further apart than this, as a share of the picture's width: what lies
 *     between them is whole
 * @param usual share of the columns that have no more staves than the usual one
 * @param empty share of the usual staves up to which a column is empty
 * @param leastSpaces width of a gutter: the margins of both its pages
 * @param beside how far from it staves are looked for
 * @param run cells in a row that a staff is seen in at least
 * @param fewest staves that end at a gutter on either side
 * @param many staves on one side of it: what parts two short lines is no gutter
 * @param crossing share of the staves that may seem to go on across it
 * @param goesOn lines of five seen in the mean across it where a staff goes on
 * @param foldBeside how far beside a fold the paper is compared with it
 * @param foldDepth how much darker it is at least, gray levels
 * @param foldLean how far its slope is from the band's at most
 * @param foldStep between two slopes tried: a pixel or two over a page
 * @param foldEvery rows of which one is looked at
 * @param trim of a page lost at a gutter, the fold's own shadow
 * @param runsOut staves that come as near as this to the picture's edge are cut off by it, cells
 * @param margin staves that end nearer to it may be
 * @param most share of the staves of a page that are no longer than its usual one
 * @param surelyWhole staves as long as this share of the longest page's are whole but for those
 *     that run out
 * @param farMargin staves that end nearer to it than this may be cut off though their ends seem to
 *     be there
 * @param leastWhole staves that end in the picture are a page's from this share on
 * @param leastApart and from this share on where they end far from the picture's edge
 * @param strip up to this share of a page is a strip of it; more is a page cut off
 */
public record FacingSettings(
    int across,
    int mean,
    double paper,
    double line,
    double faintest,
    int lean,
    int together,
    double apart,
    double maxSlope,
    double slopeStep,
    double leaning,
    double page,
    double usual,
    double empty,
    double leastSpaces,
    double beside,
    int run,
    int fewest,
    int many,
    double crossing,
    double goesOn,
    double foldBeside,
    double foldDepth,
    double foldLean,
    double foldStep,
    int foldEvery,
    double trim,
    double runsOut,
    double margin,
    double most,
    double surelyWhole,
    double farMargin,
    double leastWhole,
    double leastApart,
    double strip) {

  static FacingSettings standard() {
    return new FacingSettings(
        /* across= */ 5,
        /* mean= */ 13,
        /* paper= */ 250,
        /* line= */ 22,
        /* faintest= */ 4,
        /* lean= */ 3,
        /* together= */ 4,
        /* apart= */ 2,
        /* maxSlope= */ 0.09,
        /* slopeStep= */ 0.01,
        /* leaning= */ 0.5,
        /* page= */ 0.35,
        /* usual= */ 0.7,
        /* empty= */ 0.08,
        /* leastSpaces= */ 1.5,
        /* beside= */ 12,
        /* run= */ 2,
        /* fewest= */ 1,
        /* many= */ 3,
        /* crossing= */ 0.15,
        /* goesOn= */ 1.2,
        /* foldBeside= */ 0.8,
        /* foldDepth= */ 3,
        /* foldLean= */ 0.03,
        /* foldStep= */ 0.002,
        /* foldEvery= */ 4,
        /* trim= */ 0.15,
        /* runsOut= */ 1,
        /* margin= */ 2,
        /* most= */ 0.7,
        /* surelyWhole= */ 0.97,
        /* farMargin= */ 6,
        /* leastWhole= */ 0.8,
        /* leastApart= */ 0.4,
        /* strip= */ 0.35);
  }
}
