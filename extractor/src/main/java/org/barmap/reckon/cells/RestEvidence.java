package org.barmap.reckon.cells;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.reckon.set.CellSettings;
import org.barmap.reckon.set.ReckonSettings;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;

/**
 * A rest of several bars inside a cell.
 *
 * @param sign the thick bar or block rest; the numeral where none was seen
 * @param seen whether such a rest was seen
 * @param numeral its numeral, if one was found
 * @param counts probability of each count the numeral may say, most likely first
 */
public record RestEvidence(
    Sign sign, boolean seen, Optional<Sign> numeral, Map<Integer, Double> counts) {

  private static final CellSettings.Rests SET = ReckonSettings.STANDARD.cells().rests();

  /** Finds the rest of a cell. */
  public static Optional<RestEvidence> in(SystemCells cells, int cell) {
    double from = cells.from(cell);
    double to = cells.to(cell);
    List<Sign> rests = new ArrayList<>(cells.signs(SignKind.MULTI_REST));
    rests.addAll(cells.signs(SignKind.BLOCK_REST));
    return rests.stream()
        .filter(s -> s.at() >= from && s.at() < to)
        .max(java.util.Comparator.comparingDouble(Sign::probability))
        .map(rest -> of(rest, cells.signs(SignKind.COUNT), from, to))
        .or(() -> alone(cells.signs(SignKind.COUNT), from, to));
  }

  private static RestEvidence of(Sign rest, List<Sign> numerals, double from, double to) {
    Optional<Sign> numeral =
        numerals.stream()
            .filter(n -> n.at() > from - SET.outside() && n.at() < to + SET.outside())
            .filter(n -> n.at() > rest.from() - SET.reach() && n.at() < rest.to() + SET.reach())
            .min(java.util.Comparator.comparingDouble(n -> Math.abs(n.at() - rest.at())));
    return new RestEvidence(
        rest, true, numeral, numeral.map(RestEvidence::counts).orElse(Map.of()));
  }

  /** A numeral whose rest was not seen. */
  private static Optional<RestEvidence> alone(List<Sign> numerals, double from, double to) {
    return numerals.stream()
        .filter(n -> n.at() >= from && n.at() < to && !counts(n).isEmpty())
        .max(java.util.Comparator.comparingDouble(Sign::probability))
        .map(n -> new RestEvidence(n, false, Optional.of(n), counts(n)));
  }

  private static Map<Integer, Double> counts(Sign numeral) {
    Map<Integer, Double> counts = new LinkedHashMap<>();
    for (Reading r : numeral.readings()) {
      numeral(r.text()).ifPresent(v -> counts.merge(v, r.probability(), Double::sum));
    }
    return counts;
  }

  /** Readings of the numeral, best first; empty without one. */
  public List<Reading> readings() {
    return numeral.map(Sign::readings).orElse(List.of());
  }

  /** Reads a count, 1 to {@link #SET.most()}. */
  public static Optional<Integer> numeral(String text) {
    if (!text.matches("\\d{1,3}")) {
      return Optional.empty();
    }
    int value = Integer.parseInt(text);
    return value >= 1 && value <= SET.most() ? Optional.of(value) : Optional.empty();
  }
}
