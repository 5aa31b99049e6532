package org.barmap.reckon.compare;

import java.util.List;
import java.util.Optional;
import org.barmap.map.Meter;
import org.barmap.map.Navigation;
import org.barmap.reckon.compare.NumberComparison.Single;

/** What it costs to say that single bars of two parts are the same bar. */
record SingleCosts(List<Single> a, List<Single> b) implements Aligner.Costs {

  /** Cost of a bar that only one has, and of each further one in a row. */
  private static final double GAP = 3;

  private static final double ONE_MORE = 0.3;

  private static final double SAME_MARK = -3;
  private static final double WRONG_MARK = 4;

  /** Parts leave marks out; in long rests mostly. */
  private static final double NO_MARK = 1.4;

  private static final double WRONG_METER = 1.5;
  private static final double WRONG_SIGN = 1;
  private static final double SAME_SIGN = -0.7;

  @Override
  public int most(int i) {
    return 1;
  }

  @Override
  public int usual(int i) {
    return 1;
  }

  @Override
  public double lone(int i, boolean first) {
    return first ? GAP : ONE_MORE;
  }

  @Override
  public double extra(int i, int j, boolean first) {
    return first ? GAP : ONE_MORE;
  }

  @Override
  public double pair(int i, int from, int to) {
    Single x = a.get(i);
    Single y = b.get(from);
    double cost = 0;
    if (x.mark().isPresent() && y.mark().isPresent()) {
      cost += x.mark().equals(y.mark()) ? SAME_MARK : WRONG_MARK;
    } else if (x.mark().isPresent() || y.mark().isPresent()) {
      cost += NO_MARK;
    }
    Optional<Meter> mine = x.bar().meter();
    Optional<Meter> other = y.bar().meter();
    if (mine.isPresent() && other.isPresent()) {
      cost += mine.get().sameAs(other.get()) ? 0 : WRONG_METER;
    }
    cost += signs(x.startsRepeat(), y.startsRepeat()) + signs(x.endsRepeat(), y.endsRepeat());
    for (Navigation sign : List.of(Navigation.SEGNO, Navigation.CODA)) {
      cost += signs(x.has(sign), y.has(sign));
    }
    return cost;
  }

  private static double signs(boolean mine, boolean other) {
    if (mine != other) {
      return WRONG_SIGN;
    }
    return mine ? SAME_SIGN : 0;
  }
}
