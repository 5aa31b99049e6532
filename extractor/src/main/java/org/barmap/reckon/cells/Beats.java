package org.barmap.reckon.cells;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.ToDoubleFunction;
import org.barmap.reckon.set.CellSettings;
import org.barmap.reckon.set.ReckonSettings;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.Sound;

/**
 * What the notes and rests of a system are worth, and how long its bars are meant to be.
 *
 * <p>Common practice: the notes and rests of a bar add up to its meter. So a cell that holds two
 * bars' worth misses a barline, and a line that cuts a bar's worth in two is none.
 */
public final class Beats {

  private static final CellSettings.Beats SET = ReckonSettings.STANDARD.cells().beats();

  /** From where on a bar is so long. */
  record Length(double at, double quarters) {}

  static final Beats NONE = new Beats(List.of(), List.of());

  private final double[] at;
  private final double[] quarters;
  private final int[] unknown;
  private final List<Length> lengths;

  /**
   * Sums up a system's sounds.
   *
   * @param lengths of its bars, in order along the staff, the first one in force at its beginning;
   *     none where no meter is known
   */
  Beats(List<Sound> sounds, List<Length> lengths) {
    List<Sound> own = alone(sounds);
    this.lengths = List.copyOf(lengths);
    at = new double[own.size()];
    quarters = new double[own.size() + 1];
    unknown = new int[own.size() + 1];
    for (int i = 0; i < own.size(); i++) {
      at[i] = own.get(i).at();
      quarters[i + 1] = quarters[i] + own.get(i).likely().orElse(0.0);
      unknown[i + 1] = unknown[i] + (own.get(i).likely().isPresent() ? 0 : 1);
    }
  }

  /** In order, the likelier one of two that begin together. */
  private static List<Sound> alone(List<Sound> sounds) {
    List<Sound> out = new ArrayList<>();
    sounds.stream()
        .filter(s -> s.probability() >= SET.there())
        .sorted(Comparator.comparingDouble(Sound::at))
        .forEach(
            s -> {
              int last = out.size() - 1;
              if (last < 0 || s.at() - out.get(last).at() >= SET.together()) {
                out.add(s);
              } else if (s.probability() > out.get(last).probability()) {
                out.set(last, s);
              }
            });
    return out;
  }

  /** Sums up a system's sounds but for signs that stand for a whole bar. */
  static Beats of(SystemCells cells, List<Length> lengths) {
    List<Sign> whole = cells.wholes();
    List<Sound> sounds =
        cells.source().sounds().stream()
            .filter(
                s ->
                    whole.stream()
                        .noneMatch(
                            w ->
                                s.at() > w.from() - SET.besideWhole()
                                    && s.at() < w.to() + SET.besideWhole()))
            .toList();
    return new Beats(sounds, lengths);
  }

  /**
   * From where on the notes of a line's first bar count.
   *
   * @param left where the line begins
   * @param begin where its first bar begins behind a header of the usual width
   */
  double firstFrom(double left, double begin) {
    return Math.min(begin, left + SET.clef());
  }

  /** The first sound at or after a place. */
  private int first(double place) {
    int low = 0;
    int high = at.length;
    while (low < high) {
      int middle = (low + high) / 2;
      if (at[middle] < place) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low;
  }

  /**
   * What stands between two lines, in quarter notes.
   *
   * @return empty where nothing stands there or something has no known value
   */
  OptionalDouble between(double from, double to) {
    int a = first(from + SET.besideLine());
    int b = first(to - SET.besideLine());
    boolean sure = b > a && unknown[b] == unknown[a];
    return sure ? OptionalDouble.of(quarters[b] - quarters[a]) : OptionalDouble.empty();
  }

  /** How many notes and rests begin between two lines. */
  int count(double from, double to) {
    return Math.max(0, first(to - SET.besideLine()) - first(from + SET.besideLine()));
  }

  /**
   * What is in force between two lines: the last of those that count from there on, else the first.
   *
   * @param changes in order along the staff
   * @param at where each stands
   */
  static <T> Optional<T> inForce(List<T> changes, ToDoubleFunction<T> at, double from, double to) {
    Optional<T> out = Optional.empty();
    for (T change : changes) {
      if (out.isEmpty() || begun(at.applyAsDouble(change), from, to)) {
        out = Optional.of(change);
      }
    }
    return out;
  }

  /** Tells whether a meter that stands there counts from a bar on that begins at {@code from}. */
  private static boolean begun(double meter, double from, double to) {
    double furthest = from + Math.max(SET.header(), SET.headerShare() * (to - from));
    return meter < Math.min(to, furthest);
  }

  /** Length of the bar between two lines, in quarter notes; empty where no meter is known. */
  OptionalDouble bar(double from, double to) {
    return inForce(lengths, Length::at, from, to)
        .map(l -> OptionalDouble.of(l.quarters()))
        .orElse(OptionalDouble.empty());
  }

  /**
   * How many bars stand between two lines.
   *
   * @param whole signs there that each stand for a bar
   */
  Fill fill(double from, double to, int whole) {
    int a = first(from + SET.besideLine());
    int b = first(to - SET.besideLine());
    OptionalDouble bar = bar(from, to);
    if (a >= b || bar.isEmpty()) {
      return Fill.UNKNOWN;
    }
    int lost = unknown[b] - unknown[a];
    int read = b - a - lost;
    double sum = quarters[b] - quarters[a];
    // what has no value counts as the others do
    double guessed = lost == 0 ? sum : read == 0 ? b - a : sum * (b - a) / read;
    return Fill.of(whole + guessed / bar.getAsDouble(), lost == 0);
  }

  /** Where a bar's worth of notes ends between two lines; staff spaces. */
  public Optional<Double> endOfBar(double from, double to, int bars) {
    int a = first(from + SET.besideLine());
    int b = first(to - SET.besideLine());
    double length = bars * bar(from, to).orElse(0);
    for (int i = a + 1; i < b && length > 0; i++) {
      if (Math.abs(quarters[i] - quarters[a] - length) < SET.exact()) {
        double room = at[i] - at[i - 1];
        return Optional.of(at[i] - Math.min(SET.beforeNote(), SET.beforeShare() * room));
      }
    }
    return Optional.empty();
  }
}
