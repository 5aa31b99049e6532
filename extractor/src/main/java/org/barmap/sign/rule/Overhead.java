package org.barmap.sign.rule;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Enclosure;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.strip.InkOver.Piece;
import org.barmap.sign.strip.StripImage;
import org.barmap.staff.Staff;

/**
 * Finds what stands over a staff by its ink alone, up to the staff above or the page's edge: frames
 * of marks, and lines of text.
 *
 * <p>Number headings and marks over stacks of words stand higher than the network looks. What they
 * say decides whether they count.
 */
public final class Overhead {
  /** Pixels a space in the finer strip. */
  private static final int FINE = 2 * StripImage.SPACE;

  /** Room an upper staff's own signs take under its middle line, spaces. */
  private static final double UNDER = 3.5;

  /** Share of a frame's area its ink and letters may fill. */
  private static final double FILLED = 0.8;

  /** How sure a closed frame of the right size makes; what it says must fit, too. */
  static final double FRAME = 0.8;

  /** Share of a box within another that makes them the same. */
  private static final double SAME = 0.5;

  /** How surely a frame's text must be a mark's. */
  private static final double READ = 0.7;

  /** Letters of a line are at most this far apart, in heights of the line. */
  private static final double GAP = 1.2;

  private Overhead() {}

  /** Returns the spaces from a staff's middle line up to the staff above or the page's edge. */
  public static double room(Staff staff, Optional<Staff> before) {
    double room = Double.MAX_VALUE;
    for (double share = 0; share <= 1; share += 0.125) {
      double x = staff.left() + share * (staff.right() - staff.left());
      double y = staff.middleAt(x);
      double limit = before.map(b -> b.middleAt(x) + UNDER * b.spaceAt(x)).orElse(0.0);
      room = Math.min(room, (y - limit) / staff.spaceAt(x));
    }
    return room;
  }

  /** Adds the frames in which the network saw no mark or number. */
  public static List<RawSign> withFrames(StripImage strip, List<RawSign> signs) {
    List<RawSign> all = new ArrayList<>(signs);
    for (RawSign frame : frames(strip)) {
      boolean seen =
          signs.stream()
              .filter(s -> s.kind() == SignKind.REHEARSAL || s.kind() == SignKind.BAR_NUMBER)
              .anyMatch(s -> s.inside(frame) > SAME);
      if (!seen) {
        all.add(frame);
      }
    }
    return all;
  }

  /** Tells whether a mark is believed: a frame alone must hold what a mark may say. */
  public static boolean isBelieved(RawSign s, List<Reading> readings) {
    return s.kind() != SignKind.REHEARSAL
        || s.probability() != FRAME
        || (KindByText.fit(readings) > READ && readings.get(0).probability() > READ);
  }

  /** Returns closed frames the size of a mark's. */
  static List<RawSign> frames(StripImage strip) {
    List<RawSign> found = new ArrayList<>();
    List<Piece> pieces = strip.pieces();
    for (Piece p : pieces) {
      boolean size =
          p.w() > 1.7 * FINE && p.w() < 8 * FINE && p.h() > 1.7 * FINE && p.h() < 5 * FINE;
      if (size && p.area() < FILLED * p.w() * p.h() && pieces.stream().anyMatch(p::holds)) {
        RawSign sign = p.sign(SignKind.REHEARSAL, FRAME);
        if (Frame.around(strip, sign) != Enclosure.NONE) {
          found.add(sign);
        }
      }
    }
    return found;
  }

  /** Returns lines of text, from left to right within each height. */
  public static List<RawSign> lines(StripImage strip) {
    List<Piece> pieces = new ArrayList<>(strip.pieces());
    pieces.removeIf(p -> p.h() > 4.5 * FINE || p.w() > 20 * FINE || p.area() < 6);
    pieces.sort(Comparator.comparingInt(Piece::x));
    List<Piece> lines = new ArrayList<>();
    for (Piece p : pieces) {
      int into = lineOf(lines, p);
      if (into >= 0) {
        lines.set(into, union(lines.get(into), p));
      } else if (p.h() > 0.7 * FINE) {
        lines.add(p);
      }
    }
    return lines.stream()
        .filter(l -> l.h() > 1.1 * FINE && l.w() > 2 * FINE)
        .map(l -> l.sign(SignKind.HEADING, 1))
        .toList();
  }

  private static int lineOf(List<Piece> lines, Piece p) {
    int best = -1;
    for (int i = 0; i < lines.size(); i++) {
      Piece l = lines.get(i);
      int common = Math.min(l.y() + l.h(), p.y() + p.h()) - Math.max(l.y(), p.y());
      boolean beside =
          common > 0.6 * Math.min(l.h(), p.h()) && p.h() < 1.8 * l.h() && l.h() < 5 * p.h() + 8;
      boolean stop = p.h() < 0.5 * l.h() && common > 0 && p.w() < 2 * l.h();
      if ((beside || stop) && p.x() - (l.x() + l.w()) < GAP * l.h()) {
        best = best < 0 || lines.get(best).x() + lines.get(best).w() < l.x() + l.w() ? i : best;
      }
    }
    return best;
  }

  private static Piece union(Piece a, Piece b) {
    int x = Math.min(a.x(), b.x());
    int y = Math.min(a.y(), b.y());
    return new Piece(
        x,
        y,
        Math.max(a.x() + a.w(), b.x() + b.w()) - x,
        Math.max(a.y() + a.h(), b.y() + b.h()) - y,
        a.area() + b.area());
  }
}
