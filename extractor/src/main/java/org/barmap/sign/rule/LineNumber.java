package org.barmap.sign.rule;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.barmap.sign.kind.Origin;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.set.NumberSettings;
import org.barmap.sign.set.SignSettings;
import org.barmap.sign.strip.InkPiece;
import org.barmap.sign.strip.InkPieces;
import org.barmap.sign.strip.StripImage;

/**
 * Finds by its ink what the network misses of the number printed at the beginning of a line: small
 * and single figures over it, and the first figure of a long number in front of it, which lies
 * beyond the strip.
 *
 * <p>Over a line nothing but a few figures of like height may stand there, apart from everything
 * else; what they say decides whether they count.
 */
public final class LineNumber {

  private static final NumberSettings.Figures SET = SignSettings.STANDARD.number().figures();

  private static final NumberSettings.Grown GROWN = SignSettings.STANDARD.number().grown();

  private static final int FINE = StripImage.FINE;
  private static final int DARK = SignSettings.STANDARD.ink().dark();

  /** What is looked at: from the strip's left edge so far, fine pixels. */
  private static final int ROOM = SET.room() * FINE;

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
  private static List<InkPiece> pieces(StripImage strip) {
    int middle = 2 * StripImage.MIDDLE;
    int top = (int) Math.max(0, middle - Math.min(strip.room(), SET.roomAbove()) * FINE);
    int bottom = middle - (int) (SET.overStaff() * FINE);
    int width = Math.min(ROOM, 2 * strip.width());
    if (bottom - top < FINE) {
      return List.of();
    }
    return InkPieces.of(strip.rough(0, top, width, bottom), width, SET.faint()).stream()
        .map(p -> p.lower(top))
        .toList();
  }

  /** Grows the box of a number in front of the staff to the left, over figures left out. */
  static RawSign whole(StripImage strip, RawSign s) {
    int before = strip.fineBefore();
    if (s.kind() != SignKind.BAR_NUMBER || s.x0() > GROWN.edge() || s.x1() > StripImage.LEFT) {
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
    for (int u = width - 1; u >= 0 && first - u <= SET.gap() * FINE; u--) {
      if (isInked(gray, width, u)) {
        first = u;
      }
    }
    double x0 = (first - before) / 2.0;
    boolean figures = x0 < s.x0() - 1 && first > 0 && s.x0() - x0 < GROWN.lost() * s.height();
    return figures ? s.along(x0, s.x1()) : s;
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
      return s.origin() != Origin.FIGURES;
    }
    double best = readings.isEmpty() ? 0 : readings.get(0).probability();
    return best >= (s.origin() == Origin.FIGURES ? SET.read() : SET.leastRead());
  }

  /** Returns the figures that stand alone over the beginning of a line. */
  static Optional<RawSign> find(List<InkPiece> pieces) {
    List<InkPiece> left = pieces.stream().sorted(Comparator.comparingInt(InkPiece::x)).toList();
    for (InkPiece first : left) {
      double along = first.x() / (double) FINE - StripImage.LEFT / (double) StripImage.SPACE;
      if (along > SET.start()) {
        break;
      }
      if (along >= -SET.start() && isFigure(first)) {
        List<InkPiece> number = number(first, left);
        if (number.size() <= SET.most() && isLonely(number, left)) {
          return Optional.of(box(number));
        }
      }
    }
    return Optional.empty();
  }

  private static boolean isFigure(InkPiece p) {
    double bottom = (2 * StripImage.MIDDLE - p.y() - p.h()) / (double) FINE;
    boolean cut = bottom <= SET.overStaff() || p.x() == 0;
    return !cut
        && p.h() > SET.low() * FINE
        && p.h() < SET.tall() * FINE
        && p.w() < SET.wide() * p.h()
        && bottom < SET.highest();
  }

  /** The figures that follow one, from left to right. */
  private static List<InkPiece> number(InkPiece first, List<InkPiece> left) {
    List<InkPiece> number = new ArrayList<>(List.of(first));
    InkPiece last = first;
    for (InkPiece p : left) {
      boolean like =
          isFigure(p) && p.h() < SET.like() * first.h() && first.h() < SET.like() * p.h();
      boolean level = p.common(first) > SET.level() * Math.min(p.h(), first.h());
      double gap = p.x() - (last.x() + last.w());
      if (p.x() > last.x() && like && level && gap < SET.gap() * FINE) {
        number.add(p);
        last = p;
      }
    }
    return number;
  }

  private static boolean isLonely(List<InkPiece> number, List<InkPiece> all) {
    InkPiece first = number.get(0);
    InkPiece last = number.get(number.size() - 1);
    return all.stream()
        .filter(p -> !number.contains(p) && p.area() >= SET.speck())
        .noneMatch(
            p ->
                p.common(first) > 0
                    && p.x() < last.x() + last.w() + SET.apart() * FINE
                    && p.x() + p.w() > first.x() - SET.apart() * FINE);
  }

  private static RawSign box(List<InkPiece> number) {
    return number.stream()
        .reduce(InkPiece::union)
        .orElseThrow()
        .sign(SignKind.BAR_NUMBER, SET.probability(), Origin.FIGURES);
  }
}
