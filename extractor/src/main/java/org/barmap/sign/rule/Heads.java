package org.barmap.sign.rule;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.strip.StripImage;

/**
 * Tells the player's own notes of a page from cues by the size of their heads: cues are drawn small
 * (common practice).
 */
public final class Heads {

  /** A space is as high as a head; circles in it are a little smaller. Without a page's own. */
  private static final double USUAL = 0.47;

  /** A head at least this share of the usual one is the player's own. */
  private static final double OWN = 0.88;

  /** A head at most this share of the usual one is a cue's. */
  private static final double CUE = 0.82;

  /** So many heads tell what is usual on a page. */
  private static final int ENOUGH = 80;

  private static final int LEAST = 12;

  /** The usual head is larger than this share of a page's heads. */
  private static final double RANK = 0.7;

  private final List<Line> lines;
  private double usual;

  private Heads(List<Line> lines) {
    this.lines = lines;
  }

  /** A strip with its signs. */
  public record Line(StripImage strip, List<Sign> signs) {}

  /** The heads of a page; nothing is measured before it is asked for. */
  public static Heads of(List<Line> lines) {
    return new Heads(lines);
  }

  /** Measures some bars that look like music. */
  private synchronized double usual() {
    if (usual == 0) {
      usual = measured();
    }
    return usual;
  }

  private double measured() {
    List<Double> radii = new ArrayList<>();
    // From every line a bar, then from every line the next one.
    List<List<Bar>> bars = lines.stream().map(l -> Bar.all(l.signs())).toList();
    for (int n = 0; n < 40 && radii.size() < ENOUGH; n++) {
      for (int i = 0; i < lines.size() && radii.size() < ENOUGH; i++) {
        if (n < bars.get(i).size() && !bars.get(i).get(n).holds(lines.get(i).signs())) {
          radii.addAll(radii(lines.get(i).strip(), lines.get(i).signs(), bars.get(i).get(n)));
        }
      }
    }
    Collections.sort(radii);
    return radii.size() < LEAST ? USUAL : radii.get((int) (RANK * radii.size()));
  }

  /** The heads of a bar: how many in all, and how many of them of the player's own size. */
  record Count(int all, int own, int small) {

    /** Tells whether the player's own notes are in the bar. */
    boolean isOwn() {
      return own > 1 || own > 0 && 2 * own >= all;
    }

    /** Tells whether all that is in the bar is a cue. */
    boolean isCue() {
      return all > 2 && 2 * small > all && 3 * own < all;
    }
  }

  /** Counts the heads of a bar. */
  Count in(StripImage strip, List<Sign> signs, Bar bar) {
    List<Double> radii = radii(strip, signs, bar);
    int own = (int) radii.stream().filter(r -> r >= OWN * usual()).count();
    int small = (int) radii.stream().filter(r -> r <= CUE * usual()).count();
    return new Count(radii.size(), own, small);
  }

  private static List<Double> radii(StripImage strip, List<Sign> signs, Bar bar) {
    List<Sign> others = signs.stream().filter(Heads::isOther).toList();
    return HeadSize.of(strip, bar.from() + 0.5, bar.to() - 0.3, others);
  }

  /** Signs that stand over notes or beside them; what may be a note misread isn't one. */
  private static boolean isOther(Sign s) {
    return !NoteInk.isRest(s.kind()) && s.kind() != SignKind.BARLINE && s.kind() != SignKind.KEY;
  }

  /** The room between two barlines, spaces. */
  record Bar(double from, double to) {

    static List<Bar> all(List<Sign> signs) {
      List<Bar> bars = new ArrayList<>();
      double from = NoteInk.headEnd(signs);
      for (Sign line : signs) {
        if (line.kind() == SignKind.BARLINE && line.probability() >= 0.5) {
          if (line.at() - from > 2.5) {
            bars.add(new Bar(from, line.at()));
          }
          from = line.at();
        }
      }
      return bars;
    }

    boolean has(Sign s) {
      return s.at() > from && s.at() < to;
    }

    /** Tells whether a rest, a count or a bar-repeat sign stands in the bar. */
    boolean holds(List<Sign> signs) {
      return signs.stream()
          .anyMatch(
              s ->
                  (NoteInk.isRest(s.kind()) || s.kind() == SignKind.COUNT)
                      && s.probability() >= 0.5
                      && has(s));
    }
  }
}
