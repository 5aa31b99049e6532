package org.barmap.sign.rule;

import java.util.List;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.set.NoteSettings;
import org.barmap.sign.set.SignSettings;
import org.barmap.sign.strip.Ink;
import org.barmap.sign.strip.StaffInk;
import org.barmap.sign.strip.StripImage;

/**
 * Tells notes from the accidentals of a key signature by their ink: a note has a stem longer than
 * any accidental is tall, or a head that is solid over a wider piece than any part of one.
 */
public final class NoteInk {

  private static final NoteSettings.Strokes SET = SignSettings.STANDARD.note().strokes();

  private static final NoteSettings.Places PLACES = SignSettings.STANDARD.note().places();

  /** No accidental is this tall, pixels. */
  private static final int STEM = (int) (SET.stem() * StripImage.SPACE);

  /** Solid ink this wide is a head, pixels. */
  private static final int HEAD_WIDTH = SET.solidWide() * StripImage.SPACE;

  /** Rows looked at above and below the middle line, pixels. */
  private static final int REACH = SET.reach() * StripImage.SPACE;

  private NoteInk() {}

  /**
   * Returns how far something is written on a staff, spaces: a tail after the last barline that
   * holds accidentals only announces the next line's key.
   */
  public static double end(StripImage strip, List<Sign> signs) {
    double end = StaffInk.end(strip);
    double last =
        signs.stream()
            .filter(s -> s.kind() == SignKind.BARLINE && s.probability() > SET.sure())
            .mapToDouble(Sign::at)
            .max()
            .orElse(end);
    boolean music =
        signs.stream().anyMatch(s -> isRest(s.kind()) && s.at() > last)
            || between(strip, StripImage.column(last + PLACES.barline()), StripImage.column(end));
    return music ? end : Math.min(end, last);
  }

  static boolean isRest(SignKind kind) {
    return switch (kind) {
      case REST, MULTI_REST, BLOCK_REST, BAR_REPEAT, BAR_REPEAT_2 -> true;
      default -> false;
    };
  }

  /**
   * Returns how far along a staff nothing but clef, key and meter stands, spaces.
   *
   * @param left where the staff begins, spaces
   */
  public static double begin(StripImage strip, double left, List<Sign> signs) {
    double rest =
        signs.stream()
            .filter(s -> isRest(s.kind()))
            .mapToDouble(Sign::from)
            .min()
            .orElse(Double.MAX_VALUE);
    double from = left + PLACES.clef();
    for (Sign s : signs) {
      boolean meter = s.kind() == SignKind.METER && s.from() < from + PLACES.mostKey();
      from = meter ? Math.max(from, s.to() + PLACES.meter()) : from;
    }
    int note = first(strip, StripImage.column(from), strip.width());
    return Math.min(rest, note < 0 ? Double.MAX_VALUE : StripImage.along(note) - PLACES.head());
  }

  /** Returns where clef and meter of a line end at the latest, spaces. */
  static double headEnd(List<Sign> signs) {
    double end = PLACES.clef();
    for (Sign s : signs) {
      boolean first = s.kind() == SignKind.METER && s.from() < PLACES.mostKey() + PLACES.clef();
      end = first ? Math.max(end, s.to()) : end;
    }
    return end;
  }

  /** Tells whether a stroke of two spaces or more stands between two places along a strip. */
  static boolean stemBetween(StripImage strip, double from, double to) {
    for (int u = Math.max(0, (int) StripImage.column(from));
        u < Math.min(strip.width(), StripImage.column(to));
        u++) {
      int tall = 0;
      for (int v = StripImage.MIDDLE - REACH; v < StripImage.MIDDLE + REACH; v++) {
        tall = Ink.at(strip, u, v) ? tall + 1 : 0;
        if (tall >= SET.stroke() * StripImage.SPACE) {
          return true;
        }
      }
    }
    return false;
  }

  /** Tells whether a note or a barline stands between two columns of a strip. */
  static boolean between(StripImage strip, double from, double to) {
    return first(strip, from, to) >= 0;
  }

  /** Returns the first column from which on a note is seen, or -1. */
  private static int first(StripImage strip, double from, double to) {
    int u0 = Math.max(0, (int) Math.ceil(from));
    int u1 = Math.min(strip.width() - 1, (int) Math.floor(to));
    int v0 = StripImage.MIDDLE - REACH;
    int v1 = Math.min(StripImage.HEIGHT, StripImage.MIDDLE + REACH);
    int[] wide = new int[v1 - v0];
    for (int u = u0; u <= u1; u++) {
      int tall = 0;
      int solid = 0;
      for (int v = v0; v < v1; v++) {
        boolean dark = Ink.at(strip, u, v);
        tall = dark ? tall + 1 : 0;
        wide[v - v0] = dark ? wide[v - v0] + 1 : 0;
        solid = wide[v - v0] >= HEAD_WIDTH ? solid + 1 : 0;
        if (tall >= STEM || solid >= SET.solidHigh()) {
          return u;
        }
      }
    }
    return -1;
  }
}
