package org.barmap.plan.pace;

import java.util.List;
import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.map.Barline;
import org.barmap.map.Navigation;
import org.barmap.plan.piece.Piece;

/**
 * A tempo on its way to another: a rit. or an accel. between two tempi that are both given. It
 * changes evenly over the quarters that are played; where one end is missing, where it points the
 * other way than its word, or where a repeat or a jump lies in it, it stays unknown.
 *
 * @param first index of its first piece
 * @param from quarters a minute before it
 * @param slower whether its word says slower; empty where a change gave both ends
 */
record Ramp(int first, double from, Optional<Boolean> slower) {

  /** Fills in the measures from the ramp's first piece up to a piece that is no more in it. */
  void fill(List<Piece> pieces, List<Measure> measures, int end, double to) {
    if (slower.filter(s -> s ? to >= from : to <= from).isPresent() || !straight(pieces, end)) {
      return;
    }
    double whole = 0;
    for (int i = first; i < end; i++) {
      if (!pieces.get(i).cut() && measures.get(i).quarters().isEmpty()) {
        return;
      }
      whole += quarters(pieces.get(i), measures.get(i));
    }
    Pace all = new Pace(from, to);
    double passed = 0;
    for (int i = first; i < end && whole > 0; i++) {
      double next = passed + quarters(pieces.get(i), measures.get(i));
      Pace pace = new Pace(all.at(passed / whole), all.at(next / whole));
      measures.set(i, measures.get(i).withPace(Optional.of(pace)));
      passed = next;
    }
  }

  private static double quarters(Piece piece, Measure measure) {
    return piece.cut()
        ? 0
        : measure.quartersOrZero() * piece.count() - piece.beatsCut() * measure.quartersPerUnit();
  }

  /** Tells whether its bars are played one after the other, each as often as the next. */
  private boolean straight(List<Piece> pieces, int end) {
    for (int i = first; i < end; i++) {
      Bar bar = pieces.get(i).bar();
      boolean turnsBack =
          is(bar.endBarline(), Barline.REPEAT_END) || (i > first && opens(bar)) || leaves(bar);
      boolean opensAfter = i + 1 < end && is(bar.endBarline(), Barline.REPEAT_START);
      if (turnsBack || opensAfter || !bar.ending().isEmpty()) {
        return false;
      }
    }
    return true;
  }

  private static boolean opens(Bar bar) {
    return is(bar.startBarline(), Barline.REPEAT_START)
        || bar.has(Navigation.SEGNO)
        || bar.has(Navigation.CODA);
  }

  private static boolean leaves(Bar bar) {
    return bar.has(Navigation.TO_CODA)
        || bar.has(Navigation.FINE)
        || bar.has(Navigation.DA_CAPO)
        || bar.has(Navigation.DAL_SEGNO);
  }

  private static boolean is(Barline barline, Barline kind) {
    return barline == kind || barline == Barline.REPEAT_BOTH;
  }
}
