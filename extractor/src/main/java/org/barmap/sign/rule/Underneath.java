package org.barmap.sign.rule;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.barmap.map.Point;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.set.SignSettings;
import org.barmap.sign.set.UnderSettings;
import org.barmap.sign.strip.StripImage;

/**
 * Gives marks and bar numbers to the staff they stand under, on pages of a house that sets them so.
 *
 * <p>Between two staves either could have them, and by common practice the lower one has: a page
 * must show more signs under its staves than over them, for marks and for numbers apart.
 */
public final class Underneath {

  private static final UnderSettings SET = SignSettings.STANDARD.under();

  private Underneath() {}

  /**
   * A staff's strip.
   *
   * @param signs what was found on it
   * @param under what may stand under its staff
   */
  public record Own(StripImage strip, List<RawSign> signs, List<RawSign> under) {

    /** Takes defensive copies. */
    public Own {
      signs = List.copyOf(signs);
      under = List.copyOf(under);
    }
  }

  /** A sign's middle on the page, and how long a staff space is there, pixels of the file. */
  private record Spot(Point at, double space) {

    static Spot of(StripImage strip, RawSign s) {
      double v = (s.y0() + s.y1()) / 2;
      Point at = strip.toFile(s.centre(), v);
      Point beside = strip.toFile(s.centre() + StripImage.SPACE, v);
      return new Spot(at, Math.hypot(beside.x() - at.x(), beside.y() - at.y()));
    }

    boolean isAt(Spot o) {
      return Math.hypot(at.x() - o.at.x(), at.y() - o.at.y()) < SET.same() * space;
    }
  }

  /** Returns the signs of each strip of a page, in the order given. */
  public static List<List<RawSign>> settled(List<Own> page) {
    List<List<RawSign>> signs = new ArrayList<>(page.stream().map(Own::signs).toList());
    for (SignKind kind : List.of(SignKind.REHEARSAL, SignKind.BAR_NUMBER)) {
      List<Spot> low = page.stream().flatMap(o -> spots(o, under(o, kind))).toList();
      if (isHabit(page, kind, low)) {
        for (int i = 0; i < page.size(); i++) {
          signs.set(i, lowered(page.get(i), signs.get(i), kind, low));
        }
      }
    }
    return signs;
  }

  private static List<RawSign> under(Own own, SignKind kind) {
    return own.under.stream().filter(s -> s.kind() == kind).toList();
  }

  private static Stream<Spot> spots(Own own, List<RawSign> signs) {
    return signs.stream().map(s -> Spot.of(own.strip, s));
  }

  /** Tells whether more of a kind stand under the staves than over them and nowhere else. */
  private static boolean isHabit(List<Own> page, SignKind kind, List<Spot> low) {
    long under = page.stream().mapToLong(o -> sure(o, kind)).sum();
    long staves = page.stream().filter(o -> sure(o, kind) > 0).count();
    boolean usual = kind != SignKind.BAR_NUMBER || staves >= SET.share() * page.size();
    long over =
        page.stream()
            .flatMap(o -> spots(o, over(o, kind)))
            .filter(s -> low.stream().noneMatch(s::isAt))
            .count();
    return under >= SET.fewest() && under > over && usual;
  }

  private static long sure(Own own, SignKind kind) {
    return under(own, kind).stream().filter(s -> s.probability() >= SET.sure()).count();
  }

  private static List<RawSign> over(Own own, SignKind kind) {
    return own.signs.stream().filter(s -> s.kind() == kind && s.y1() < StripImage.MIDDLE).toList();
  }

  /** The signs of a strip with those under its staff, without those under another one. */
  private static List<RawSign> lowered(
      Own own, List<RawSign> signs, SignKind kind, List<Spot> low) {
    List<RawSign> mine = under(own, kind);
    List<RawSign> all = new ArrayList<>(mine);
    for (RawSign s : signs) {
      boolean another = isText(s.kind()) && low.stream().anyMatch(Spot.of(own.strip, s)::isAt);
      boolean same = isText(s.kind()) && mine.stream().anyMatch(m -> m.inside(s) > SET.piece());
      if (!another && !same) {
        all.add(s);
      }
    }
    return all;
  }

  private static boolean isText(SignKind kind) {
    return switch (kind) {
      case REHEARSAL, BAR_NUMBER, WORD, HEADING, COUNT -> true;
      default -> false;
    };
  }
}
