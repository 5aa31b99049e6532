package org.barmap.reckon.book;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Barline;
import org.barmap.reckon.cells.Attributes;
import org.barmap.reckon.cells.SystemCells;
import org.barmap.reckon.set.BookSettings;
import org.barmap.reckon.set.ReckonSettings;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;

/**
 * Where a book goes back: the endings that stand before a later ending of the same repeat.
 *
 * <p>Most editions count straight through first and second endings; some number the second ending
 * like the first (common practice). Where they do, the bar at {@code to} has the number of the bar
 * at {@code from}.
 *
 * @param from where the earlier ending begins
 * @param to where the later one begins
 */
record Endings(Beginning from, Beginning to) {

  private static final BookSettings.EndingPairs SET = ReckonSettings.STANDARD.book().endings();

  /**
   * The beginning of a cell.
   *
   * @param system index into the book's systems
   * @param cell index into the system's cells
   */
  record Beginning(int system, int cell) {}

  /** The beginning of a bracket: where, and the endings it names; none where it can't be read. */
  private record Bracket(Beginning at, List<Integer> numbers) {}

  /** Finds all places where a later ending begins, in reading order. */
  static List<Endings> in(List<SystemCells> systems) {
    List<Endings> out = new ArrayList<>();
    Optional<Bracket> before = Optional.empty();
    for (int i = 0; i < systems.size(); i++) {
      if (begins(systems.get(i))) {
        before = Optional.empty();
      }
      for (Bracket b : brackets(systems.get(i), i)) {
        if (before.filter(a -> follows(systems, a, b)).isPresent()) {
          out.add(new Endings(before.orElseThrow().at(), b.at()));
        }
        before = Optional.of(b);
      }
    }
    return List.copyOf(out);
  }

  /** Tells whether a system begins a musical number, as far as its heading says. */
  static boolean begins(SystemCells system) {
    return system.signs(SignKind.HEADING).stream().anyMatch(s -> s.probability() >= SET.there());
  }

  private static List<Bracket> brackets(SystemCells cells, int system) {
    List<Bracket> out = new ArrayList<>();
    if (cells.lines().isEmpty()) {
      return out;
    }
    cells.signs(SignKind.ENDING).stream()
        .filter(s -> s.probability() >= SET.there() && !s.text().equals(Sign.GOES_ON))
        .sorted(java.util.Comparator.comparingDouble(Sign::from))
        .forEach(
            s -> {
              Beginning at = new Beginning(system, cells.cellStartingNear(s.from()));
              if (out.isEmpty() || !out.get(out.size() - 1).at().equals(at)) {
                out.add(new Bracket(at, Attributes.numbers(s.text())));
              }
            });
    return out;
  }

  /** A later ending comes right after the backward repeat that ends the one before it. */
  private static boolean follows(List<SystemCells> systems, Bracket a, Bracket b) {
    List<String> lines = new ArrayList<>();
    Beginning from = a.at();
    for (int i = from.system(); i <= b.at().system(); i++) {
      SystemCells cells = systems.get(i);
      int first = i == from.system() ? from.cell() : 0;
      int end = i == b.at().system() ? b.at().cell() : cells.lines().size();
      for (int c = first; c < end; c++) {
        lines.add(cells.lines().get(c).sign().text());
      }
    }
    if (lines.isEmpty() || lines.size() > SET.longest()) {
      return false;
    }
    boolean within = lines.subList(0, lines.size() - 1).stream().anyMatch(Endings::repeats);
    boolean counts =
        a.numbers().isEmpty()
            || b.numbers().isEmpty()
            || b.numbers().get(0) == a.numbers().get(a.numbers().size() - 1) + 1;
    return !within && counts && repeats(lines.get(lines.size() - 1));
  }

  private static boolean repeats(String barline) {
    return barline.equals(Barline.REPEAT_END.word()) || barline.equals(Barline.REPEAT_BOTH.word());
  }
}
