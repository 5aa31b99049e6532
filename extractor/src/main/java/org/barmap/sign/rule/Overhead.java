package org.barmap.sign.rule;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Enclosure;
import org.barmap.sign.kind.Origin;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.set.MarkSettings;
import org.barmap.sign.set.SignSettings;
import org.barmap.sign.strip.InkPiece;
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

  private static final MarkSettings.Frames FRAMES = SignSettings.STANDARD.mark().frames();

  private static final MarkSettings.Lines LINES = SignSettings.STANDARD.mark().lines();

  private static final int FINE = StripImage.FINE;

  private Overhead() {}

  /** Returns the spaces from a staff's middle line up to the staff above or the page's edge. */
  public static double room(Staff staff, Optional<Staff> before) {
    double room = Double.MAX_VALUE;
    for (double share = 0; share <= 1; share += FRAMES.every()) {
      double x = staff.left() + share * (staff.right() - staff.left());
      double y = staff.middleAt(x);
      double limit = before.map(b -> b.middleAt(x) + FRAMES.under() * b.spaceAt(x)).orElse(0.0);
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
              .anyMatch(s -> s.inside(frame) > FRAMES.same());
      if (!seen) {
        all.add(frame);
      }
    }
    return all;
  }

  /** Tells whether a mark is believed: a frame alone must hold what a mark may say. */
  public static boolean isBelieved(RawSign s, List<Reading> readings) {
    return s.kind() != SignKind.REHEARSAL
        || s.origin() != Origin.FRAME
        || (KindByText.fit(readings) > FRAMES.read()
            && readings.get(0).probability() > FRAMES.read());
  }

  /** Returns closed frames the size of a mark's. */
  static List<RawSign> frames(StripImage strip) {
    List<RawSign> found = new ArrayList<>();
    List<InkPiece> pieces = strip.pieces();
    for (InkPiece p : pieces) {
      boolean size =
          p.w() > FRAMES.least() * FINE
              && p.w() < FRAMES.widest() * FINE
              && p.h() > FRAMES.least() * FINE
              && p.h() < FRAMES.highest() * FINE;
      if (size
          && p.area() < FRAMES.filled() * p.w() * p.h()
          && pieces.stream().anyMatch(p::holds)) {
        RawSign sign = p.sign(SignKind.REHEARSAL, FRAMES.probability(), Origin.FRAME);
        if (Surround.around(strip, sign) != Enclosure.NONE) {
          found.add(sign);
        }
      }
    }
    return found;
  }

  /** Returns lines of text, from left to right within each height. */
  public static List<RawSign> lines(StripImage strip) {
    List<InkPiece> pieces = new ArrayList<>(strip.pieces());
    pieces.removeIf(
        p ->
            p.h() > LINES.highest() * FINE
                || p.w() > LINES.widest() * FINE
                || p.area() < LINES.speck());
    pieces.sort(Comparator.comparingInt(InkPiece::x));
    List<InkPiece> lines = new ArrayList<>();
    for (InkPiece p : pieces) {
      int into = lineOf(lines, p);
      if (into >= 0) {
        lines.set(into, lines.get(into).union(p));
      } else if (p.h() > LINES.begins() * FINE) {
        lines.add(p);
      }
    }
    return lines.stream()
        .filter(l -> l.h() > LINES.least() * FINE && l.w() > LINES.shortest() * FINE)
        .map(l -> l.sign(SignKind.HEADING, 1, Origin.INK))
        .toList();
  }

  private static int lineOf(List<InkPiece> lines, InkPiece p) {
    int best = -1;
    for (int i = 0; i < lines.size(); i++) {
      InkPiece l = lines.get(i);
      int common = l.common(p);
      boolean beside =
          common > LINES.level() * Math.min(l.h(), p.h())
              && p.h() < LINES.taller() * l.h()
              && l.h() < LINES.lower() * p.h() + LINES.slack();
      boolean stop = p.h() < LINES.stop() * l.h() && common > 0 && p.w() < LINES.stopWide() * l.h();
      if ((beside || stop) && p.x() - (l.x() + l.w()) < LINES.gap() * l.h()) {
        best = best < 0 || lines.get(best).x() + lines.get(best).w() < l.x() + l.w() ? i : best;
      }
    }
    return best;
  }
}
