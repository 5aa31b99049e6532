package org.barmap.reckon.cells;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.barmap.reckon.set.CellSettings;
import org.barmap.reckon.set.ReckonSettings;
import org.barmap.sign.ReadSystem;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;

/**
 * What a cell says about barlines missed in it.
 *
 * <p>Common practice: a rest for a whole bar or several and a bar-repeat sign stand in the middle
 * of their bar, one in each. So beside such a sign only what makes it stand off the middle may be
 * another bar, and two of them are two bars.
 *
 * @param holds what stands in the cell
 * @param octaves how many times the room in it is twice the width of the line's other bars of
 *     music, below 0 for less: the cell's width, or what is left beside its sign
 * @param onPage likewise against all bars of music on its page
 * @param first whether it begins the line, so that what it begins with is a guess
 * @param marked whether something stands inside it that stands at a bar's beginning
 * @param trace the reader's probability of a faint line inside it, 0 without one
 * @param fill how many bars what stands in it adds up to
 */
public record GapEvidence(
    Holds holds,
    double octaves,
    double onPage,
    boolean first,
    boolean marked,
    double trace,
    Fill fill) {

  private static final CellSettings.Gaps SET = ReckonSettings.STANDARD.cells().gaps();

  /** What stands in a cell. */
  public enum Holds {
    MUSIC,
    /** One sign that stands for all of its bar. */
    SIGN,
    /** Two or more such signs, apart. */
    SIGNS
  }

  /** What a cell shows; {@code usual} is the usual width of a bar of music on its page. */
  public static GapEvidence of(SystemCells cells, int cell, double usual) {
    List<Sign> whole = whole(cells, cell);
    Holds holds = whole.isEmpty() ? Holds.MUSIC : whole.size() == 1 ? Holds.SIGN : Holds.SIGNS;
    double room =
        holds == Holds.SIGN ? roomBeside(cells, cell, whole.get(0)) : cells.musicWidth(cell);
    return new GapEvidence(
        holds,
        octaves(room, Room.others(cells, cell, usual)),
        octaves(room, usual),
        cell == 0,
        Room.markInside(cells, cell).isPresent(),
        cells.trace(cell).map(Sign::probability).orElse(0.0),
        cells.fill(cell));
  }

  /** How many times a room is twice as wide as a bar; within bounds. */
  private static double octaves(double room, double bar) {
    double octaves = Math.log(Math.max(SET.leastRoom(), room) / bar) / Math.log(2);
    return Math.max(-SET.mostOctaves(), Math.min(SET.mostOctaves(), octaves));
  }

  /** Signs in a cell that stand for all of their bar, apart from each other. */
  static List<Sign> whole(SystemCells cells, int cell) {
    double from = cells.from(cell);
    double to = cells.to(cell);
    List<Sign> out = new ArrayList<>();
    for (Sign s : cells.wholes()) {
      boolean apart = out.isEmpty() || s.from() > out.get(out.size() - 1).to() + SET.apart();
      if (apart && s.at() > from && s.at() < to) {
        out.add(s);
      }
    }
    return out;
  }

  /** All signs of a system that stand for all of their bar, along the staff. */
  static List<Sign> wholes(ReadSystem system) {
    return system.signs().stream()
        .filter(s -> isWhole(s.kind()) && s.probability() >= SET.there())
        .sorted(Comparator.comparingDouble(Sign::at))
        .toList();
  }

  private static boolean isWhole(SignKind kind) {
    return switch (kind) {
      case REST, MULTI_REST, BLOCK_REST, BAR_REPEAT -> true;
      default -> false;
    };
  }

  /**
   * Room left in a cell beside a sign in the middle of its bar, staff spaces. Left of a line's
   * first sign stand clef and key, so that room does not count.
   */
  private static double roomBeside(SystemCells cells, int cell, Sign sign) {
    double left = sign.at() - cells.from(cell);
    double right = cells.to(cell) - sign.at();
    return Math.abs(right - left) - (cell == 0 && left > right ? SET.headerSlack() : 0);
  }

  /** Where a missed barline would stand in a cell; staff spaces. */
  public static double place(SystemCells cells, int cell) {
    Optional<Double> seen = cells.trace(cell).map(Sign::at).or(() -> Room.markInside(cells, cell));
    if (seen.isPresent()) {
      return seen.get();
    }
    List<Sign> whole = whole(cells, cell);
    double from = cells.from(cell);
    double to = cells.to(cell);
    if (whole.isEmpty()) {
      return cells
          .beats()
          .endOfBar(cells.beatsFrom(cell), to, 1)
          .orElseGet(() -> (cells.musicFrom(cell) + to) / 2);
    }
    if (whole.size() > 1) {
      return between(from, whole.get(0), whole.get(1), to);
    }
    double at = whole.get(0).at();
    return at - from < to - at ? 2 * at - from : 2 * at - to;
  }

  /** The line between two signs that each stand in the middle of their bar. */
  static double between(double from, Sign left, Sign right, double to) {
    double fromLeft = 2 * left.at() - from;
    double fromRight = 2 * right.at() - to;
    double middle = (fromLeft + fromRight) / 2;
    return Math.max(
        left.to() + SET.besideSign(), Math.min(right.from() - SET.besideSign(), middle));
  }
}
