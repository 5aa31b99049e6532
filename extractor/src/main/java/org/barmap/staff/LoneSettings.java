package org.barmap.staff;

import java.util.List;
import org.barmap.page.pixel.Gray;

/**
 * What decides which single lines are staves of one line, and which two are one of two, as parts
 * for untuned percussion have them.
 *
 * <p>Lengths are in staff spaces, shares from 0 to 1, gray levels from 0, black, to 255, white,
 * unless a component says otherwise. Tuned on made pages of percussion that were looked at, and
 * held to this: on no other page of the corpus is anything taken for such a staff.
 *
 * @param follow how a line is followed along the page
 * @param stroke what is a barline on it
 * @param staff which lines are staves
 * @param twin which two lines are one
 * @param drawn how such a staff is drawn as one of five lines, which the network reads
 */
record LoneSettings(Follow follow, Stroke stroke, Single staff, Twin twin, Drawn drawn) {

  /** The settings in use. */
  static final LoneSettings STANDARD = standard();

  /**
   * How a line is followed, in blocks of a few columns and pixels of the copy searched.
   *
   * @param space staff space taken where the page has no other staves, pixels
   * @param strength gray levels a line of full value is darker than its paper, at least
   * @param line value from which on a height is a line
   * @param reach how far from where it is expected the line is looked for, pixels
   * @param tail blocks that say which way it goes
   * @param steepest pixels up or down from block to block at most
   * @param patience blocks without ink after which it ends
   * @param first blocks after which what has too few of a line is given up
   * @param seen share of its blocks in which the line is seen, until then
   * @param wider pixels by which it is looked for further off for every block it is hidden
   * @param fewest places seen that tell its height between them
   * @param bend blocks to each side through which a straight line is laid
   * @param least blocks of a line worth a look
   * @param apart parts of one line lie this near to each other's height, pixels
   * @param gap and end this near to each other, pixels
   */
  record Follow(
      double space,
      double strength,
      float line,
      double reach,
      int tail,
      double steepest,
      int patience,
      int first,
      double seen,
      double wider,
      int fewest,
      int bend,
      int least,
      double apart,
      double gap) {}

  /**
   * What is a barline: a stroke as far above the line as below it, whose ends and sides are free.
   *
   * @param ink darker than this is ink, gray level
   * @param reach how far a stroke is followed, pixels
   * @param thick half of what is thicker than a line, pixels
   * @param least half of the shortest barline, pixels
   * @param slack pixels by which its two halves may always differ
   * @param uneven share of a half by which they may differ
   * @param wide width of the widest as a share of a half
   * @param side pixels beside it that are looked at
   * @param from the least part of a half at which the sides are looked at
   * @param twinWide the same between two lines, as a share of their distance
   * @param between the least part at which the sides are looked at between two lines, as a share of
   *     half their distance
   * @param further and that share from which on it goes on beyond them
   * @param beyond pixels beyond its ends that are looked at
   * @param aside pixels to each side there
   * @param beside how far beside it a bar is looked for, pixels
   * @param thicker pixels by which a bar is thicker than the line
   * @param partner how near to a barline the other strokes of it stand, as a share of a half
   * @param partnerWide width of the widest of them likewise
   * @param partnerAt the part of a half at which paper is beside them
   * @param partnerSide so many pixels beside them
   * @param usual share of the columns of a line in which it is no thicker than usual
   * @param alike share of their height by which the barlines of a page differ at most
   */
  record Stroke(
      int ink,
      int reach,
      double thick,
      double least,
      double slack,
      double uneven,
      double wide,
      int side,
      List<Double> from,
      double twinWide,
      List<Double> between,
      double further,
      int beyond,
      int aside,
      List<Integer> beside,
      double thicker,
      double partner,
      double partnerWide,
      double partnerAt,
      int partnerSide,
      double usual,
      double alike) {}

  /**
   * Which lines are staves.
   *
   * @param halves half the height of barlines on one line, as houses have them
   * @param heads that many note heads on its lines tell the staff space of a page
   * @param headHalf half the height of a note head
   * @param headMost and at most as a share of half a barline
   * @param headWide its width as a multiple of half its height at least
   * @param headWidest and at most
   * @param headUneven by how much of half its height it may stand more to one side
   * @param clefTo how far from the left end a clef stands, as a multiple of half a barline
   * @param clefWide width of its bars as a share of half their height
   * @param nearest how near another line is looked for
   * @param sameSpace share by which the space may differ from that of the page's other staves
   * @param near how near another line may not come
   * @param parallel share of the length that another line so near must not reach
   * @param covered share of the length in which the line must be seen or hidden
   * @param length the shortest staff that shows itself
   * @param shortest and the shortest one below or above such a staff
   * @param bars barlines that prove a staff
   * @param end how near a barline ends the staff
   * @param margin how near staves begin below each other
   * @param dashes share of a line in dashes that must be left where it goes on
   * @param lines staves of a page without others
   * @param apart from other staves, from middle to middle
   * @param top half the height of its outline at least
   * @param bottom and at most
   */
  record Single(
      List<Double> halves,
      int heads,
      double headHalf,
      double headMost,
      double headWide,
      double headWidest,
      double headUneven,
      double clefTo,
      double clefWide,
      double nearest,
      double sameSpace,
      double near,
      double parallel,
      double covered,
      double length,
      double shortest,
      int bars,
      double end,
      double margin,
      double dashes,
      int lines,
      double apart,
      double top,
      double bottom) {}

  /**
   * Which two lines are one staff.
   *
   * @param nearest lines from middle to middle, pixels
   * @param furthest lines from middle to middle, pixels
   * @param even share of their distance by which it may change along them
   * @param slack and pixels by which it always may
   * @param along share of the longer one along which both run; in a bad copy an end may be gone
   * @param bar least height of their barlines as a multiple of their distance
   * @param highest and the most
   * @param inside share of their distance between them in which no line lies, to each side of the
   *     middle
   * @param outside share of it, from each of them outwards, from which on none lies
   * @param clear and up to which
   * @param parallel share of the length that another line there must not reach; beams may stand at
   *     one height for long
   * @param head half of the highest note head as a multiple of their distance
   * @param distances in spaces that are written
   */
  record Twin(
      double nearest,
      double furthest,
      double even,
      double slack,
      double along,
      double bar,
      double highest,
      double inside,
      double outside,
      double clear,
      double parallel,
      double head,
      List<Integer> distances) {}

  /**
   * How the lines that aren't there are drawn, and barlines up to them.
   *
   * @param thick of a line
   * @param ink its gray level
   * @param from the part of a barline's half from which on it is drawn further
   * @param clear how far from the middle between two lines a stroke is clear of them, as a share of
   *     their distance
   * @param clef what stands nearer to the left end is no barline
   * @param band what comes as near to the line hangs together with it
   * @param touching ink darker than this hangs together where it touches, gray level
   * @param restFrom a whole rest is ink from so far under the line
   * @param restTo to so far at least
   * @param restUnder and not further than this
   * @param restWide it is so wide at least
   * @param restWidest and at most
   */
  record Drawn(
      double thick,
      int ink,
      double from,
      double clear,
      double clef,
      double band,
      int touching,
      double restFrom,
      double restTo,
      double restUnder,
      double restWide,
      double restWidest) {}

  private static LoneSettings standard() {
    return new LoneSettings(
        new Follow(
            /* space= */ 16,
            /* strength= */ 36,
            /* line= */ 0.35f,
            /* reach= */ 2.2,
            /* tail= */ 30,
            /* steepest= */ 0.6,
            /* patience= */ 10,
            /* first= */ 8,
            /* seen= */ 0.7,
            /* wider= */ 0.04,
            /* fewest= */ 6,
            /* bend= */ 20,
            /* least= */ 10,
            /* apart= */ 6,
            /* gap= */ 60),
        new Stroke(
            /* ink= */ Gray.STROKE,
            /* reach= */ 64,
            /* thick= */ 4,
            /* least= */ 6,
            /* slack= */ 2,
            /* uneven= */ 0.14,
            /* wide= */ 0.75,
            /* side= */ 3,
            /* from= */ List.of(0.28, 0.5, 0.75),
            /* twinWide= */ 0.6,
            /* between= */ List.of(0.28, 0.6),
            /* further= */ 1.25,
            /* beyond= */ 3,
            /* aside= */ 5,
            /* beside= */ List.of(3, 8),
            /* thicker= */ 2,
            /* partner= */ 0.9,
            /* partnerWide= */ 1.1,
            /* partnerAt= */ 0.85,
            /* partnerSide= */ 2,
            /* usual= */ 0.4,
            /* alike= */ 0.1),
        new Single(
            /* halves= */ List.of(1.0, 1.5, 2.0),
            /* heads= */ 4,
            /* headHalf= */ 0.47,
            /* headMost= */ 0.75,
            /* headWide= */ 2,
            /* headWidest= */ 3.2,
            /* headUneven= */ 0.3,
            /* clefTo= */ 3,
            /* clefWide= */ 0.3,
            /* nearest= */ 0.5,
            /* sameSpace= */ 0.3,
            /* near= */ 2.2,
            /* parallel= */ 0.3,
            /* covered= */ 0.85,
            /* length= */ 12,
            /* shortest= */ 5,
            /* bars= */ 3,
            /* end= */ 1.2,
            /* margin= */ 2.5,
            /* dashes= */ 0.4,
            /* lines= */ 2,
            /* apart= */ 4.2,
            /* top= */ 1.5,
            /* bottom= */ 2),
        new Twin(
            /* nearest= */ 9,
            /* furthest= */ 72,
            /* even= */ 0.12,
            /* slack= */ 1.5,
            /* along= */ 0.85,
            /* bar= */ 0.95,
            /* highest= */ 2.2,
            /* inside= */ 0.25,
            /* outside= */ 0.3,
            /* clear= */ 1.2,
            /* parallel= */ 0.6,
            /* head= */ 0.75,
            /* distances= */ List.of(1, 2, 3, 4)),
        new Drawn(
            /* thick= */ 0.16,
            /* ink= */ 40,
            /* from= */ 0.85,
            /* clear= */ 0.25,
            /* clef= */ 2.2,
            /* band= */ 0.3,
            /* touching= */ 150,
            /* restFrom= */ 0.2,
            /* restTo= */ 0.35,
            /* restUnder= */ 0.8,
            /* restWide= */ 0.8,
            /* restWidest= */ 1.9));
  }
}
