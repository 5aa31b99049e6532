package org.barmap.reckon;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.barmap.sign.Sign;
import org.barmap.sign.SignKind;

/**
 * How wide a cell is for what stands in it: too wide and a barline was missed, too narrow and a
 * line is none.
 */
final class Room {

  /** How far inside a cell a mark stands that belongs to none of its sides; staff spaces. */
  private static final double INSIDE = 5;

  private Room() {}

  /** The width in the middle of all cells of a book; staff spaces. */
  static double usual(List<SystemCells> systems) {
    return median(
        systems.stream()
            .flatMapToDouble(s -> IntStream.range(0, s.lines().size()).mapToDouble(s::width))
            .toArray());
  }

  /** The width in the middle of a system's cells without rests, where it has some. */
  static double usual(SystemCells cells, List<Optional<RestEvidence>> rests, double usual) {
    double[] played =
        IntStream.range(0, rests.size())
            .filter(c -> rests.get(c).isEmpty())
            .mapToDouble(cells::width)
            .toArray();
    return played.length >= 3 ? median(played) : usual;
  }

  /** How many times a cell is twice as wide as usual; of a rest's cell only the room beside it. */
  static double octaves(SystemCells cells, int cell, double usual, Optional<RestEvidence> rest) {
    double room = rest.map(r -> r.roomBeside(cells, cell)).orElse(cells.width(cell));
    return Math.log(Math.max(0.1, room) / usual) / Math.log(2);
  }

  /** Width of the narrower of the two cells beside a line, against the usual one. */
  static double beside(SystemCells cells, int line, double usual) {
    double right = line + 1 < cells.lines().size() ? cells.width(line + 1) : usual;
    return Math.min(cells.width(line), right) / usual;
  }

  /** A line within a thick rest bar is part of it. */
  static boolean insideRest(SystemCells cells, int line) {
    double at = cells.to(line);
    return cells.signs(SignKind.MULTI_REST).stream()
        .anyMatch(s -> s.from() + 0.5 < at && at < s.to() - 0.5);
  }

  /**
   * Where something stands inside a cell that stands at a bar's beginning: a mark or a bar number.
   */
  static Optional<Double> markInside(SystemCells cells, int cell) {
    double from = cells.from(cell);
    double to = cells.to(cell);
    return cells.source().signs().stream()
        .filter(s -> s.kind() == SignKind.REHEARSAL || s.kind() == SignKind.BAR_NUMBER)
        .filter(s -> s.probability() >= 0.5 && s.from() > from + INSIDE && s.to() < to - INSIDE)
        .map(Sign::at)
        .findFirst();
  }

  private static double median(double[] values) {
    if (values.length == 0) {
      return 20;
    }
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    return Math.max(1, sorted[sorted.length / 2]);
  }
}
