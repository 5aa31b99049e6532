package org.barmap.sign.hand;

/**
 * A connected piece of ink outside the staves.
 *
 * @param begin column of the first ink of the first row, pixels of the working image
 * @param left first column
 * @param top first row
 * @param right behind the last column
 * @param bottom behind the last row
 * @param area pixels of ink
 * @param runs of ink in its rows
 * @param holes closed rooms of paper in it
 * @param overlap pixels of ink with ink above them
 * @param touching pixels that go on into a staff's own ink
 * @param mean gray level of its ink
 * @param core mean of the darkest gray level of each run
 * @param spread standard deviation of the same
 * @param darkest gray level
 */
public record Stroke(
    int begin,
    int left,
    int top,
    int right,
    int bottom,
    int area,
    int runs,
    int holes,
    int overlap,
    int touching,
    double mean,
    double core,
    double spread,
    int darkest) {

  /** Returns its columns. */
  public int width() {
    return right - left;
  }

  /** Returns its rows. */
  public int height() {
    return bottom - top;
  }

  /** Returns how far the boxes of two strokes are apart, the larger of across and down; pixels. */
  int apart(Stroke other) {
    int across = Math.max(other.left - right, left - other.right);
    int down = Math.max(other.top - bottom, top - other.bottom);
    return Math.max(0, Math.max(across, down));
  }
}
