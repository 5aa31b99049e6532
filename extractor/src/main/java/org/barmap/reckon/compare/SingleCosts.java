package org.barmap.reckon.compare;

import java.util.List;
import java.util.Optional;
import org.barmap.map.Meter;
import org.barmap.map.Navigation;
import org.barmap.reckon.compare.NumberComparison.Single;
import org.barmap.reckon.set.CompareSettings;
import org.barmap.reckon.set.ReckonSettings;

/** What it costs to say that single bars of two parts are the same bar. */
record SingleCosts(List<Single> a, List<Single> b) implements Aligner.Costs {

  private static final CompareSettings.Singles SET = ReckonSettings.STANDARD.compare().singles();

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
    return first ? SET.gap() : SET.oneMore();
  }

  @Override
  public double extra(int i, int j, boolean first) {
    return first ? SET.gap() : SET.oneMore();
  }

  @Override
  public double pair(int i, int from, int to) {
    Single x = a.get(i);
    Single y = b.get(from);
    double cost = 0;
    if (x.mark().isPresent() && y.mark().isPresent()) {
      cost += x.mark().equals(y.mark()) ? SET.sameMark() : SET.wrongMark();
    } else if (x.mark().isPresent() || y.mark().isPresent()) {
      cost += SET.noMark();
    }
    Optional<Meter> mine = x.bar().meter();
    Optional<Meter> other = y.bar().meter();
    if (mine.isPresent() && other.isPresent()) {
      cost += mine.get().sameAs(other.get()) ? 0 : SET.wrongMeter();
    }
    cost += signs(x.startsRepeat(), y.startsRepeat()) + signs(x.endsRepeat(), y.endsRepeat());
    for (Navigation sign : List.of(Navigation.SEGNO, Navigation.CODA)) {
      cost += signs(x.has(sign), y.has(sign));
    }
    return cost;
  }

  private static double signs(boolean mine, boolean other) {
    if (mine != other) {
      return SET.wrongSign();
    }
    return mine ? SET.sameSign() : 0;
  }
}
