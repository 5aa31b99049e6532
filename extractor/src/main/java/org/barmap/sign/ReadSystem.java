package org.barmap.sign;

import java.util.Comparator;
import java.util.List;
import org.barmap.map.Outline;
import org.barmap.map.StaffSystem;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.Sound;

/**
 * One system with the signs read at it.
 *
 * @param system index, outline, staff space and midline, as the map will carry them
 * @param length of the staff, in staff spaces
 * @param shape gives the part of the system between two positions
 * @param signs ordered by position along the staff
 * @param begin where the staff's own lines begin along it, staff spaces; more than 0 where it runs
 *     on into the facing page
 * @param musicBegin how far along the staff nothing but clef, key and meter stands, staff spaces; 0
 *     where nobody looked
 * @param inkEnd how far along the staff something is written on it, staff spaces
 * @param sounds note heads and rests inside bars; none where a system has several staves
 */
public record ReadSystem(
    StaffSystem system,
    double length,
    Shape shape,
    List<Sign> signs,
    double begin,
    double musicBegin,
    double inkEnd,
    List<Sound> sounds) {

  /** Orders the signs along the staff. */
  public ReadSystem {
    signs = signs.stream().sorted(Comparator.comparingDouble(Sign::at)).toList();
    sounds = List.copyOf(sounds);
  }

  /** A system that is written on up to its end. */
  public ReadSystem(StaffSystem system, double length, Shape shape, List<Sign> signs) {
    this(system, length, shape, signs, 0, 0, length, List.of());
  }

  /** Gives the outline of a part of a system. */
  @FunctionalInterface
  public interface Shape {

    /**
     * Returns the region from the top line of the system's first staff to the bottom line of its
     * last.
     *
     * @param from left side along the staff, staff spaces from its left end
     * @param to right side, likewise
     * @return corners in pixels of the given file
     */
    Outline between(double from, double to);
  }
}
