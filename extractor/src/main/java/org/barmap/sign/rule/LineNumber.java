package org.barmap.sign.rule;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.strip.InkOver.Piece;
import org.barmap.sign.strip.InkPieces;
import org.barmap.sign.strip.StripImage;

/**
 * Finds by its ink what the network misses of the number printed at the beginning of a line: small
 * and single figures over it (of 1,014 numbers in the corpus 26), and the first figure of a long
 * number in front of it, which lies beyond the strip.
 *
 * <p>Over a line nothing but a few figures of like height may stand there, apart from everything
 * else; what they say decides whether they count.
 */
public final class LineNumber {
  private static final int FINE = 2 * StripImage.SPACE;

  /** How sure a lonely piece of text in the right place makes; what it says must fit, too. */
  static final double LONELY = 0.55;

  /** How surely the text must be a number. */
  private static final double READ = 0.9;

  /** A bar number whose likeliest reading has less than this is a piece of a clef or a note. */
  private static final double LEAST_READ = 0.25;

  /** The first figure begins at most this far from the line's beginning, spaces. */
  private static final double START = 2;

  /** Figures end this far above the middle line, spaces. */
  private static final double HIGHEST = 6;

  /** Height of figures, spaces. */
  private static final double LOW = 0.9;

  private static final double TALL = 2.2;

  /** Figures of a number are at most this far apart, spaces. */
  private static final double GAP = 0.6;

  /** Whatever else stands nearer than this belongs to it, and it is no number; spaces. */
  private static final double APART = 1;

  private static final int MOST_FIGURES = 4;

  /** A box this near the strip's left edge may lack a figure, pixels. */
  private static final double EDGE = 10;

  /** What a box lacks is less wide than this, in its heights: two figures. */
  private static final double LOST = 1.5;

  /** Gray darker than this is ink. */
  private static final int DARK = 140;

  /** Thin figures on photographs are this pale. */
  private static final int FAINT = 185;

  /** What is looked at: from the strip's left edge so far, fine pixels. */
  private static final int ROOM = 10 * FINE;

  /** And from the staff so far up, spaces over the middle line. */
  private static final double MOST_ROOM = 9;

  /** Ink nearer to the middle line than this is the staff's, spaces. */
  private static final double OVER_STAFF = 2.4;

  private LineNumber() {}

  /** Adds the number at a line's beginning where the network saw nothing. */
  public static List<RawSign> with(StripImage strip, List<RawSign> signs) {
    boolean seen =
        signs.stream().anyMatch(s -> s.kind() == SignKind.BAR_NUMBER && s.x0() < ROOM / 2.0);
    Optional<RawSign> number =
        (seen ? Optional.<RawSign>empty() : find(pieces(strip)))
            .filter(n -> signs.stream().noneMatch(s -> isText(s.kind()) && s.overlap(n) > 0));
    List<RawSign> all = new ArrayList<>();
    signs.forEach(s -> all.add(whole(strip, s)));
    number.ifPresent(all::add);
    return all;
  }

  /** The pieces of ink, faint ones too, over the beginning of a line. */
  private static List<Piece> pieces(StripImage strip) {
    int middle = 2 * StripImage.MIDDLE;
    int top = (int) Math.max(0, middle - Math.min(strip.room(), MOST_ROOM) * FINE);
    int bottom = middle - (int) (OVER_STAFF * FINE);
    int width = Math.min(ROOM, 2 * strip.width());
    if (bottom - top < FINE) {
      return List.of();
    }
    return InkPieces.of(strip.rough(0, top, width, bottom), width, FAINT).stream()
        .map(p -> new Piece(p.x(), p.y() + top, p.w(), p.h(), p.area()))
        .toList();
  }

  /** Grows the box of a number in front of the staff to the left, over figures left out. */
  static RawSign whole(StripImage strip, RawSign s) {
    int before = strip.fineBefore();
    if (s.kind() != SignKind.BAR_NUMBER || s.x0() > EDGE || s.x1() > StripImage.LEFT) {
      return s;
    }
    int right = (int) Math.ceil(2 * s.x0()) + 1;
    int top = Math.max(-strip.fineAbove(), (int) (2 * s.y0()));
    int bottom = Math.min(2 * StripImage.HEIGHT, (int) Math.ceil(2 * s.y1()));
    if (right <= -before || bottom <= top) {
      return s;
    }
    byte[] gray = strip.fine(-before, top, right, bottom);
    int width = right + before;
    int first = width;
    for (int u = width - 1; u >= 0 && first - u <= GAP * FINE; u--) {
      if (isInked(gray, width, u)) {
        first = u;
      }
    }
    double x0 = (first - before) / 2.0;
    boolean figures = x0 < s.x0() - 1 && first > 0 && s.x0() - x0 < LOST * s.height();
    return figures
        ? new RawSign(s.kind(), x0, s.y0(), s.x1(), s.y1(), s.probability(), s.readings())
        : s;
  }

  private static boolean isInked(byte[] gray, int width, int u) {
    for (int at = u; at < gray.length; at += width) {
      if ((gray[at] & 0xff) < DARK) {
        return true;
      }
    }
    return false;
  }

  private static boolean isText(SignKind kind) {
    return switch (kind) {
      case REHEARSAL, BAR_NUMBER, WORD, HEADING, COUNT, METER, ENDING -> true;
      default -> false;
    };
  }

  /** Tells whether a bar number is believed, by what it says. */
  public static boolean isBelieved(RawSign s, List<Reading> readings) {
    if (s.kind() != SignKind.BAR_NUMBER) {
      return s.probability() != LONELY;
    }
    double best = readings.isEmpty() ? 0 : readings.get(0).probability();
    return best >= (s.probability() == LONELY ? READ : LEAST_READ);
  }

  /** Returns the figures that stand alone over the beginning of a line. */
  static Optional<RawSign> find(List<Piece> pieces) {
    List<Piece> left = pieces.stream().sorted(Comparator.comparingInt(Piece::x)).toList();
    for (Piece first : left) {
      double along = first.x() / (double) FINE - StripImage.LEFT / (double) StripImage.SPACE;
      if (along > START) {
        break;
      }
      if (along >= -START && isFigure(first)) {
        List<Piece> number = number(first, left);
        if (number.size() <= MOST_FIGURES && isLonely(number, left)) {
          return Optional.of(box(number));
        }
      }
    }
    return Optional.empty();
  }

  private static boolean isFigure(Piece p) {
    double bottom = (2 * StripImage.MIDDLE - p.y() - p.h()) / (double) FINE;
    boolean cut = bottom <= OVER_STAFF || p.x() == 0;
    return !cut
        && p.h() > LOW * FINE
        && p.h() < TALL * FINE
        && p.w() < 1.2 * p.h()
        && bottom < HIGHEST;
  }

  /** The figures that follow one, from left to right. */
  private static List<Piece> number(Piece first, List<Piece> left) {
    List<Piece> number = new ArrayList<>(List.of(first));
    Piece last = first;
    for (Piece p : left) {
      boolean like = isFigure(p) && p.h() < 1.35 * first.h() && first.h() < 1.35 * p.h();
      boolean level = common(p, first) > 0.7 * Math.min(p.h(), first.h());
      double gap = p.x() - (last.x() + last.w());
      if (p.x() > last.x() && like && level && gap < GAP * FINE) {
        number.add(p);
        last = p;
      }
    }
    return number;
  }

  private static boolean isLonely(List<Piece> number, List<Piece> all) {
    Piece first = number.get(0);
    Piece last = number.get(number.size() - 1);
    return all.stream()
        .filter(p -> !number.contains(p) && p.area() >= 6)
        .noneMatch(
            p ->
                common(p, first) > 0
                    && p.x() < last.x() + last.w() + APART * FINE
                    && p.x() + p.w() > first.x() - APART * FINE);
  }

  /** Rows two pieces share. */
  private static int common(Piece a, Piece b) {
    return Math.min(a.y() + a.h(), b.y() + b.h()) - Math.max(a.y(), b.y());
  }

  private static RawSign box(List<Piece> number) {
    int x0 = Integer.MAX_VALUE;
    int y0 = Integer.MAX_VALUE;
    int x1 = Integer.MIN_VALUE;
    int y1 = Integer.MIN_VALUE;
    for (Piece p : number) {
      x0 = Math.min(x0, p.x());
      y0 = Math.min(y0, p.y());
      x1 = Math.max(x1, p.x() + p.w());
      y1 = Math.max(y1, p.y() + p.h());
    }
    return new RawSign(
        SignKind.BAR_NUMBER, x0 / 2.0, y0 / 2.0, x1 / 2.0, y1 / 2.0, LONELY, List.of());
  }
}
