package org.barmap.page.file;

import java.time.Duration;

/**
 * How much a file may ask for before it is refused. What it asks for is looked at before memory or
 * time is given to it, as far as it says so in its header; the rest ends under way.
 *
 * @param pixels the most of one picture: a sheet of A2 at 600 dpi has 70 million a side
 * @param longestSide the most pixels of one side
 * @param shortestSide the fewest pixels of one side; below it no staff of five lines can be told
 * @param bytes the most a picture takes when it is decoded, pixels times channels times their
 *     depth: as much as {@code pixels} in three colours of 8 bits; twice that is in memory while it
 *     becomes gray
 * @param pages the most of one file, and of one book
 * @param levels of a PDF's page tree; writers make some four for {@code pages} pages
 * @param nodes of a PDF's page tree
 * @param forms how deep drawings of a PDF page may call one another; engravers' go some five deep
 * @param drawings the most calls of drawings on one PDF page; each note head can be one
 * @param operators the most drawing operators of one PDF page; a full score has some 100,000
 * @param time the longest that opening a page and making it upright may take; the largest pictures
 *     take some 10 s on a laptop
 */
public record Limits(
    long pixels,
    int longestSide,
    int shortestSide,
    long bytes,
    int pages,
    int levels,
    int nodes,
    int forms,
    int drawings,
    long operators,
    Duration time) {

  /** What is used. */
  public static final Limits STANDARD =
      new Limits(
          /* pixels= */ 120_000_000L,
          /* longestSide= */ 40_000,
          /* shortestSide= */ 32,
          /* bytes= */ 360_000_000L,
          /* pages= */ 600,
          /* levels= */ 100,
          /* nodes= */ 100_000,
          /* forms= */ 30,
          /* drawings= */ 100_000,
          /* operators= */ 5_000_000L,
          /* time= */ Duration.ofMinutes(2));

  /**
   * Returns of how many pixels in a row, and of how many rows, one is to be decoded so that a
   * picture fits.
   *
   * @param bytesOfPixel channels times bytes of each
   */
  int step(long width, long height, int bytesOfPixel) {
    int step = 1;
    while (width / step * (height / step) * bytesOfPixel > bytes) {
      step++;
    }
    return step;
  }
}
