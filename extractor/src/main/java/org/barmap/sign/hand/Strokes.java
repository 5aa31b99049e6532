package org.barmap.sign.hand;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.barmap.page.pixel.InkRuns;
import org.barmap.sign.set.HandSettings;
import org.barmap.sign.set.SignSettings;

/** The connected pieces of ink of a page, with how gray and how wide they are. */
final class Strokes extends InkRuns {

  private static final HandSettings SET = SignSettings.STANDARD.hand();

  /** Pieces there is room for at first. */
  private static final int FIRST = 1024;

  /** What is summed up of a piece. */
  private enum Sum {
    AREA,
    RUNS,
    JOINTS,
    OVERLAP,
    TOUCHING,
    GRAY,
    CORE,
    SQUARE
  }

  private static final int SUMS = Sum.values().length;

  private final byte[] gray;
  private final StaffZones zones;
  private final int width;
  private int[] begin = new int[FIRST];
  private int[] darkest = new int[FIRST];
  private long[] sums = new long[FIRST * SUMS];

  private Strokes(byte[] gray, StaffZones zones, int width) {
    super(FIRST);
    this.gray = gray;
    this.zones = zones;
    this.width = width;
  }

  /**
   * Finds the pieces.
   *
   * @param gray row by row, the staves cleared
   * @param space staff space, pixels
   */
  static List<Stroke> of(byte[] gray, int width, StaffZones zones, double space) {
    Strokes strokes = new Strokes(gray, zones, width);
    strokes.label(gray, width, SET.ink());
    return strokes.pieces(SET.smallest() * space, SET.largest() * space);
  }

  @Override
  protected void add(int label, int y, int from, int to, int joints, int overlap) {
    int sum = 0;
    int core = SET.ink();
    for (int x = from; x < to; x++) {
      int v = gray[y * width + x] & 0xff;
      sum += v;
      core = Math.min(core, v);
    }
    int at = label * SUMS;
    boolean first = sums[at + Sum.RUNS.ordinal()] == 0;
    begin[label] = first ? from : begin[label];
    darkest[label] = first ? core : Math.min(darkest[label], core);
    sums[at + Sum.AREA.ordinal()] += to - from;
    sums[at + Sum.RUNS.ordinal()]++;
    sums[at + Sum.JOINTS.ordinal()] += joints;
    sums[at + Sum.OVERLAP.ordinal()] += overlap;
    sums[at + Sum.TOUCHING.ordinal()] += zones.touching(y, from, to);
    sums[at + Sum.GRAY.ordinal()] += sum;
    sums[at + Sum.CORE.ordinal()] += core;
    sums[at + Sum.SQUARE.ordinal()] += (long) core * core;
  }

  @Override
  protected void merge(int to, int gone) {
    darkest[to] = Math.min(darkest[to], darkest[gone]);
    for (int k = 0; k < SUMS; k++) {
      sums[to * SUMS + k] += sums[gone * SUMS + k];
    }
  }

  @Override
  protected void grow(int pieces) {
    begin = Arrays.copyOf(begin, pieces);
    darkest = Arrays.copyOf(darkest, pieces);
    sums = Arrays.copyOf(sums, pieces * SUMS);
  }

  private List<Stroke> pieces(double smallest, double largest) {
    List<Stroke> pieces = new ArrayList<>();
    for (int i = 0; i < count(); i++) {
      int extent = Math.max(right(i) - left(i), bottom(i) - top(i));
      if (isPiece(i)
          && extent >= smallest
          && extent <= largest
          && sum(i, Sum.TOUCHING) <= SET.edge() * (right(i) - left(i))) {
        pieces.add(piece(i));
      }
    }
    return pieces;
  }

  private Stroke piece(int i) {
    long runs = sum(i, Sum.RUNS);
    double core = (double) sum(i, Sum.CORE) / runs;
    double square = (double) sum(i, Sum.SQUARE) / runs;
    return new Stroke(
        begin[i],
        left(i),
        top(i),
        right(i),
        bottom(i),
        (int) sum(i, Sum.AREA),
        (int) runs,
        (int) (1 - runs + sum(i, Sum.JOINTS)),
        (int) sum(i, Sum.OVERLAP),
        (int) sum(i, Sum.TOUCHING),
        (double) sum(i, Sum.GRAY) / sum(i, Sum.AREA),
        core,
        Math.sqrt(Math.max(0, square - core * core)),
        darkest[i]);
  }

  private long sum(int label, Sum what) {
    return sums[label * SUMS + what.ordinal()];
  }
}
