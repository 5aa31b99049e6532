package org.barmap.plan.check;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Key;
import org.barmap.map.Severity;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.effect.InForce;
import org.barmap.plan.change.effect.TempoSet;
import org.barmap.plan.change.term.Figures;
import org.barmap.plan.change.term.Metronome;
import org.barmap.plan.order.Performance;
import org.barmap.plan.pace.Pace;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.Pieces;
import org.barmap.plan.piece.Span;

/**
 * Says what becomes of a change whose bars are cut: what holds until something else is said (tempo,
 * key, instrument, bow, mute) holds on behind the cut (common practice, landing in force), unless
 * the bars left out say something else after it or nothing is played behind them.
 */
public final class HoldsOn {
  private HoldsOn() {}

  /** Tells whether what a change sets holds on behind its last bar. */
  static boolean lasts(InForce set) {
    return set.tempo().isPresent()
        || set.fifths().isPresent()
        || set.instrument().isPresent()
        || set.grip().isPresent();
  }

  /** Returns what becomes of each such change of a number. */
  public static List<PlanFinding> of(Performance performance, List<Span> spans) {
    List<PlanFinding> findings = new ArrayList<>();
    List<Piece> pieces = performance.order().pieces();
    for (Span span : spans) {
      int at = Pieces.firstAt(pieces, span.from());
      boolean cut = at < pieces.size() && pieces.get(at).cut();
      if (cut && lasts(span.effects().inForce())) {
        findings.add(one(performance, span, at));
      }
    }
    return findings;
  }

  private static PlanFinding one(Performance performance, Span span, int at) {
    WrittenNumber number = performance.number();
    List<Piece> pieces = performance.order().pieces();
    int landing = at;
    while (landing < pieces.size()
        && (pieces.get(landing).cut() || pieces.get(landing).inserted().isPresent())) {
      landing++;
    }
    String what = span.effects().inForce().grip().isPresent() ? "change" : span.change().kind();
    String bar = "Bar " + number.nameAt(span.from()) + " of " + number.spoken() + " is cut";
    boolean inHand = span.effects().inForce().tempo().isEmpty() && !hasKey(span);
    if (landing >= pieces.size()) {
      return inHand
          ? told(span, number, bar + "; what it puts into your hands stays there after the number.")
          : lost(span, number, bar + " and nothing is played behind it, so the " + what);
    }
    String name = number.nameAt(pieces.get(landing).slot());
    if (!inForce(performance, span, landing)) {
      return lost(
          span, number, bar + " and bar " + name + " has something else in force, so the " + what);
    }
    return told(
        span, number, bar + "; the " + what + " holds on behind it, from bar " + name + ".");
  }

  private static boolean hasKey(Span span) {
    return span.effects().inForce().fifths().isPresent();
  }

  private static boolean inForce(Performance performance, Span span, int landing) {
    InForce set = span.effects().inForce();
    if (set.tempo().isPresent()) {
      TempoSet tempo = set.tempo().get();
      double quarters =
          tempo.toPerMinute().orElse(tempo.perMinute()) * Metronome.quarters(tempo.beat());
      Optional<Pace> pace = performance.measures().get(landing).pace();
      return pace.filter(p -> Math.abs(p.from() - quarters) < Figures.SAME).isPresent();
    }
    Optional<Key> key = performance.keys().get(landing);
    return !hasKey(span) || key.filter(k -> k.fifths() == set.fifths().getAsInt()).isPresent();
  }

  private static PlanFinding told(Span span, WrittenNumber number, String text) {
    Optional<String> id = Optional.of(number.barAt(span.from()).id());
    return PlanFinding.change(Severity.INFO, id, "holds-on", text, span.change());
  }

  private static PlanFinding lost(Span span, WrittenNumber number, String text) {
    Optional<String> id = Optional.of(number.barAt(span.from()).id());
    return PlanFinding.change(
        Severity.DOUBT, id, "no-effect", text + " does nothing.", span.change());
  }
}
