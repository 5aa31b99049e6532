package org.barmap.sign.strip;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.barmap.page.pixel.InkRuns;

/** The connected pieces of ink in an image, with their boxes and areas. */
public final class InkPieces extends InkRuns {

  /** Pieces there is room for at first. */
  private static final int FIRST = 256;

  private int[] area = new int[FIRST];

  private InkPieces() {
    super(FIRST);
  }

  /**
   * Finds the pieces.
   *
   * @param gray row by row, unsigned
   * @param dark darker than this is ink
   */
  public static List<InkPiece> of(byte[] gray, int width, int dark) {
    InkPieces found = new InkPieces();
    found.label(gray, width, dark);
    return found.pieces();
  }

  private List<InkPiece> pieces() {
    List<InkPiece> pieces = new ArrayList<>();
    for (int i = 0; i < count(); i++) {
      if (isPiece(i)) {
        pieces.add(new InkPiece(left(i), top(i), right(i) - left(i), bottom(i) - top(i), area[i]));
      }
    }
    return pieces;
  }

  @Override
  protected void grow(int pieces) {
    area = Arrays.copyOf(area, pieces);
  }

  @Override
  protected void add(int label, int y, int from, int to, int joints, int overlap) {
    area[label] += to - from;
  }

  @Override
  protected void merge(int to, int gone) {
    area[to] += area[gone];
  }
}
