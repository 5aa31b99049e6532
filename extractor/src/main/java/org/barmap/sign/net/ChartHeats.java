package org.barmap.sign.net;

import java.util.List;
import org.barmap.sign.kind.ChartView;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.SignKind;

/** What the network's head for half charts says about one strip. */
public final class ChartHeats implements ChartView {

  /** Pixels from one place along the staff to the next. */
  private static final int STEP = 2;

  private final List<SignKind> kinds;
  private final Heats heats;
  private final List<RawSign> boxes;

  ChartHeats(List<SignKind> kinds, Heats heats, List<RawSign> boxes) {
    this.kinds = List.copyOf(kinds);
    this.heats = heats;
    this.boxes = List.copyOf(boxes);
  }

  /**
   * Takes what the network gave.
   *
   * @param along channel by channel, as {@link ChartView.Along} orders them, a value at every
   *     second pixel
   * @param heat of the middles of boxes, kind by kind, 40 rows of cells of four pixels
   * @param columns cells in a row
   */
  public static ChartHeats of(
      List<SignKind> kinds, float[] along, float[] heat, int columns, List<RawSign> boxes) {
    return new ChartHeats(kinds, new Heats(along, heat, new float[0], columns), boxes);
  }

  @Override
  public List<RawSign> boxes() {
    return boxes;
  }

  @Override
  public double mean(Along what, double from, double to) {
    int last = last(to);
    int first = Math.min(first(from), last);
    double sum = 0;
    for (int i = first; i <= last; i++) {
      sum += heats.line(what.ordinal(), i);
    }
    return sum / (last - first + 1);
  }

  @Override
  public double most(Along what, double from, double to) {
    double most = 0;
    for (int i = first(from); i <= last(to); i++) {
      most = Math.max(most, heats.line(what.ordinal(), i));
    }
    return most;
  }

  @Override
  public double at(SignKind kind, RawSign box) {
    int k = kinds.indexOf(kind);
    int row = cell((box.y0() + box.y1()) / 2, Heats.ROWS);
    int column = cell(box.centre(), heats.columns());
    double most = 0;
    for (int r = Math.max(0, row - 1); r <= Math.min(Heats.ROWS - 1, row + 1) && k >= 0; r++) {
      for (int c = Math.max(0, column - 1); c <= Math.min(heats.columns() - 1, column + 1); c++) {
        most = Math.max(most, heats.heat(k, r, c));
      }
    }
    return most;
  }

  private static int cell(double pixel, int cells) {
    return (int) Math.max(0, Math.min(cells - 1, Math.floor(pixel / Heats.STRIDE)));
  }

  private int first(double pixel) {
    return (int) Math.max(0, Math.min(heats.places() - 1, Math.ceil((pixel - 1) / STEP)));
  }

  private int last(double pixel) {
    return (int) Math.max(0, Math.min(heats.places() - 1, Math.floor((pixel - 1) / STEP)));
  }
}
