package org.barmap.exchange.musicxml.book;

import java.util.List;
import java.util.Optional;
import org.barmap.map.Barline;
import org.barmap.map.SecondReading.Measure;

/** How far rests reach, as a part prints them: to whatever a player has to see. */
final class Rests {
  private final List<Cell> cells;
  private final boolean merges;

  /**
   * @param merges rests that follow each other are one, as in a part that is written out from a
   *     score
   */
  Rests(List<Cell> cells, boolean merges) {
    this.cells = cells;
    this.merges = merges;
  }

  /**
   * A rest.
   *
   * @param measures how many measures of the file it takes
   * @param bars how many bars it stands for
   * @param doubt what is to be asked, one sentence
   */
  record Span(int measures, int bars, Optional<String> doubt) {
    static Span of(int measures) {
      return new Span(measures, measures, Optional.empty());
    }
  }

  /** Returns the rest that begins at a measure in which the part rests. */
  Span at(int from) {
    int said = cells.get(from).said().multiRest();
    if (said < 2) {
      return Span.of(merges ? reach(from, cells.size()) : 1);
    }
    int reach = reach(from, said);
    if (reach == said) {
      return Span.of(said);
    }
    if (reach == 1 && alone(from, said)) {
      return new Span(1, said, Optional.empty());
    }
    // what is left of it goes on behind what broke it
    return new Span(
        reach,
        reach,
        Optional.of(
            "The file has a rest of "
                + said
                + " bars here, and something else after "
                + reach
                + (reach == 1 ? " bar" : " bars")
                + ": look how long it is"));
  }

  /** One measure stands for the whole rest: the next number is so many bars on. */
  private boolean alone(int from, int said) {
    int number = cells.get(from).number().number();
    return from + 1 < cells.size() ? cells.get(from + 1).number().number() == number + said : false;
  }

  private int reach(int from, int most) {
    int n = 1;
    while (n < most && from + n < cells.size() && goesOn(from + n)) {
      n++;
    }
    return n;
  }

  private boolean goesOn(int i) {
    Cell before = cells.get(i - 1);
    Cell cell = cells.get(i);
    Measure m = cell.said();
    boolean printed =
        m.meter().filter(x -> x.printed()).isPresent()
            || m.key().filter(x -> x.printed()).isPresent();
    boolean counted =
        cell.number().label().isEmpty()
            && before.number().label().isEmpty()
            && cell.number().number() == before.number().number() + 1
            && before.number().number() > 0;
    boolean plain =
        before.said().end() == Barline.SINGLE
            && m.start() == Barline.NONE
            && before.said().signs().isEmpty()
            && m.signs().isEmpty()
            && m.ending().equals(before.said().ending());
    return cell.rests()
        && counted
        && plain
        && !printed
        && m.multiRest() == 0
        && m.rehearsal().isEmpty()
        && cell.extra().words().isEmpty()
        && cell.extra().tempo().isEmpty();
  }
}
