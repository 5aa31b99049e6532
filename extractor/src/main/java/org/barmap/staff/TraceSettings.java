package org.barmap.staff;

import java.util.List;

/**
 * How staves are found and followed along the page. Units as {@link StaffSettings} says.
 *
 * @param lines how much a height looks like a line
 * @param middles how much a place looks like the middle of a staff
 * @param tracks how staves are followed along the page
 * @param straight how tracks that strayed are brought back
 */
record TraceSettings(Lines lines, Middles middles, Following tracks, Straight straight) {

  /**
   * How much a height of the page looks like a thin level line.
   *
   * @param space staff space of the copy searched at most, pixels; enough to place a line to a
   *     fiftieth of a space
   * @param reach how far above and below a line its paper is looked for
   * @param paper the gray that paper has after its light was evened
   * @param leastDarker what hides a line is darker than paper by at least this, gray levels
   * @param darker and by this share of the page's usual strength of a line
   * @param typical share of the blocks whose strongest line is weaker than the usual one
   * @param weakestLine the usual strength is taken for no less than this, gray levels
   * @param strongestLine and for no more than this
   * @param full this share of the usual strength counts as a whole line
   * @param blur of the heights, pixels: less than a line is thick
   * @param least usual strength below which the page holds no staves, gray levels
   * @param leastHeight of a page that can hold a staff
   */
  record Lines(
      double space,
      double reach,
      int paper,
      double leastDarker,
      double darker,
      double typical,
      double weakestLine,
      double strongestLine,
      double full,
      double blur,
      double least,
      double leastHeight) {}

  /**
   * How much a place looks like the middle of five lines.
   *
   * @param spaces the staff spaces tried, as shares of the usual one: from small staves to large
   * @param line what a line counts: five make a whole
   * @param between what is seen half way between lines counts, four times
   */
  record Middles(List<Double> spaces, float line, float between) {}

  /**
   * How staves are followed along the page, in blocks of a few columns.
   *
   * @param fade what is left of the evidence a block further on
   * @param steepest pixels up or down from one block to the next at most
   * @param bend what such a step costs, times its square
   * @param start evidence that starts a track
   * @param seed a place with this share of it is looked at
   * @param every blocks between two columns of such places
   * @param alive evidence, faded, that keeps a track going
   * @param back evidence that takes up a track again after a long gap
   * @param first evidence a walk begins with
   * @param keep share of the evidence so far in the running mean of a walk
   * @param fresh share of a block's own, which makes one with it
   * @param patience how far without evidence a walk goes on
   * @param longGap share of the patience, as its divisor, after which a gap is long
   * @param apart two staves lie at least this far from each other
   */
  record Following(
      float fade,
      int steepest,
      float bend,
      float start,
      float seed,
      int every,
      float alive,
      float back,
      float first,
      float keep,
      float fresh,
      double patience,
      int longGap,
      double apart) {}

  /**
   * How tracks that strayed are brought back.
   *
   * @param step pixels between two heights tried
   * @param move what a move by one staff space costs, in lines found bare in one block
   * @param hidden what a line neither seen nor bare costs
   * @param reach how far from the track the staff may lie
   * @param tolerance how far from its place a line still counts as seen
   * @param line value from which on a height is a line
   * @param beyond what a height out of reach costs, more than five missing lines
   */
  record Straight(
      int step,
      double move,
      float hidden,
      double reach,
      double tolerance,
      float line,
      float beyond) {}

  static TraceSettings standard() {
    return new TraceSettings(
        standardLines(), standardMiddles(), standardTracks(), standardStraight());
  }

  private static Lines standardLines() {
    return new Lines(
        /* space= */ 16.5,
        /* reach= */ 0.4,
        /* paper= */ 250,
        /* leastDarker= */ 8,
        /* darker= */ 0.4,
        /* typical= */ 0.75,
        /* weakestLine= */ 8,
        /* strongestLine= */ 80,
        /* full= */ 0.7,
        /* blur= */ 0.7,
        /* least= */ 6,
        /* leastHeight= */ 5);
  }

  private static Middles standardMiddles() {
    return new Middles(
        /* spaces= */ List.of(0.8, 0.86, 0.92, 0.97, 1.02, 1.08, 1.15, 1.23),
        /* line= */ 0.2f,
        /* between= */ -0.1f);
  }

  private static Following standardTracks() {
    return new Following(
        /* fade= */ 0.96f,
        /* steepest= */ 3,
        /* bend= */ 0.02f,
        /* start= */ 0.30f,
        /* seed= */ 0.6f,
        /* every= */ 4,
        /* alive= */ 0.22f,
        /* back= */ 0.5f,
        /* first= */ 0.5f,
        /* keep= */ 0.8f,
        /* fresh= */ 0.2f,
        /* patience= */ 12,
        /* longGap= */ 4,
        /* apart= */ 4.2);
  }

  private static Straight standardStraight() {
    return new Straight(
        /* step= */ 2,
        /* move= */ 12,
        /* hidden= */ 0.2f,
        /* reach= */ 2.4,
        /* tolerance= */ 0.16,
        /* line= */ 0.35f,
        /* beyond= */ 6);
  }
}
