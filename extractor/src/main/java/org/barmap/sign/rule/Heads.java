package org.barmap.sign.rule;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.set.NoteSettings;
import org.barmap.sign.set.SignSettings;
import org.barmap.sign.strip.StripImage;

/**
 * Tells the player's own notes of a page from cues by the size of their heads: cues are drawn small
 * (common practice).
 */
public final class Heads {

  private static final NoteSettings.Own SET = SignSettings.STANDARD.note().own();

  private static final NoteSettings.Bars BARS = SignSettings.STANDARD.note().bars();

  private final List<ReadStrip> lines;
  private double usual;

  private Heads(List<ReadStrip> lines) {
    this.lines = lines;
  }

  /** A strip with its signs. */
  public record ReadStrip(StripImage strip, List<Sign> signs) {}

  /** The heads of a page; nothing is measured before it is asked for. */
  public static Heads of(List<ReadStrip> lines) {
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
    for (int n = 0; n < SET.bars() && radii.size() < SET.enough(); n++) {
      for (int i = 0; i < lines.size() && radii.size() < SET.enough(); i++) {
        if (n < bars.get(i).size() && !bars.get(i).get(n).holds(lines.get(i).signs())) {
          radii.addAll(radii(lines.get(i).strip(), lines.get(i).signs(), bars.get(i).get(n)));
        }
      }
    }
    Collections.sort(radii);
    return radii.size() < SET.least() ? SET.usual() : radii.get((int) (SET.rank() * radii.size()));
  }

  /** The heads of a bar: how many in all, and how many of them of the player's own size. */
  record Count(int all, int own, int small) {

    /** Tells whether the player's own notes are in the bar. */
    boolean isOwn() {
      return own > 1 || own > 0 && 2 * own >= all;
    }

    /** Tells whether all that is in the bar is a cue. */
    boolean isCue() {
      return all > SET.cueHeads() && 2 * small > all && SET.cueOwn() * own < all;
    }
  }

  /** Counts the heads of a bar. */
  Count in(StripImage strip, List<Sign> signs, Bar bar) {
    List<Double> radii = radii(strip, signs, bar);
    int own = (int) radii.stream().filter(r -> r >= SET.own() * usual()).count();
    int small = (int) radii.stream().filter(r -> r <= SET.cue() * usual()).count();
    return new Count(radii.size(), own, small);
  }

  private static List<Double> radii(StripImage strip, List<Sign> signs, Bar bar) {
    List<Sign> others = signs.stream().filter(Heads::isOther).toList();
    return HeadSize.of(strip, bar.from() + BARS.from(), bar.to() - BARS.to(), others);
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
        if (line.kind() == SignKind.BARLINE && line.probability() >= BARS.sure()) {
          if (line.at() - from > BARS.least()) {
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

    /** Tells whether something was taken for a whole-bar rest in the bar, however unsure. */
    boolean rests(List<Sign> signs) {
      return signs.stream().anyMatch(s -> s.kind() == SignKind.REST && has(s));
    }

    /** Tells whether a rest, a count or a bar-repeat sign stands in the bar. */
    boolean holds(List<Sign> signs) {
      return signs.stream()
          .anyMatch(
              s ->
                  (NoteInk.isRest(s.kind()) || s.kind() == SignKind.COUNT)
                      && s.probability() >= BARS.sure()
                      && has(s));
    }
  }
}
