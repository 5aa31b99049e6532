package org.barmap.plan.check;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Meter;
import org.barmap.map.Severity;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.Silenced;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.effect.Put;
import org.barmap.plan.change.effect.Rounds;
import org.barmap.plan.change.effect.Silence;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.piece.Span;

/** Finds changes of one number that can't both be meant, or of which one does nothing. */
public final class Contradictions {
  /** Nobody reads more than this for one number. */
  private static final int MOST_FINDINGS = 300;

  private Contradictions() {}

  /** Returns what contradicts; the later of two changes is named. */
  public static List<PlanFinding> of(
      WrittenNumber number, List<ShowChange> changes, List<Span> spans) {
    List<PlanFinding> findings = new ArrayList<>();
    silent(number, changes, findings);
    for (int i = 0; i < spans.size(); i++) {
      for (int k = i + 1; k < spans.size() && findings.size() < MOST_FINDINGS; k++) {
        pair(number, spans.get(i), spans.get(k), findings);
      }
    }
    if (findings.size() < MOST_FINDINGS) {
      together(number, spans, findings);
    }
    return findings;
  }

  /** What no single cut takes out may be out by several. */
  private static void together(WrittenNumber number, List<Span> spans, List<PlanFinding> findings) {
    BitSet out = new BitSet();
    List<Span> cuts = spans.stream().filter(s -> s.effects().leavesOut()).toList();
    for (Span cut : cuts) {
      int from = cut.fromBeat().orElse(1) > 1 ? cut.from() + 1 : cut.from();
      boolean part = cut.toBeat().orElse(1e9) < beats(number, cut);
      out.set(from, Math.max(from, part ? cut.to() : cut.to() + 1));
    }
    for (Span span : spans) {
      boolean whole = !span.effects().leavesOut() && out.nextClearBit(span.from()) > span.to();
      boolean told =
          span.effects().added().isPresent()
              || HoldsOn.lasts(span.effects().inForce())
              || cuts.stream().anyMatch(c -> c.from() <= span.from() && c.to() >= span.to());
      if (whole && !told) {
        String says = "is cut, so the " + span.change().kind() + " does nothing.";
        add(number, span, "no-effect", says, findings);
      }
    }
  }

  private static void silent(
      WrittenNumber number, List<ShowChange> changes, List<PlanFinding> findings) {
    Optional<Silenced> whole = Silenced.by(changes);
    if (whole.isEmpty() && !number.tacet()) {
      return;
    }
    String state = whole.filter(w -> w.why() == Silence.CUT).isPresent() ? "cut" : "tacet";
    for (ShowChange change : changes) {
      boolean followed = state.equals("tacet") && change.effects().link().isPresent();
      if (!followed && whole.filter(w -> w.change() == change).isEmpty()) {
        findings.add(
            PlanFinding.change(
                Severity.DOUBT,
                Optional.empty(),
                "no-effect",
                number.spoken() + " is " + state + ", so the " + change.kind() + " does nothing.",
                change));
      }
    }
  }

  private static void pair(WrittenNumber number, Span a, Span b, List<PlanFinding> findings) {
    if (a.to() < b.from() || b.to() < a.from()) {
      return;
    }
    boolean cutA = a.effects().leavesOut();
    boolean cutB = b.effects().leavesOut();
    if (cutA && cutB) {
      overlap(number, a, b, findings);
    } else if (cutA || cutB) {
      Span cut = cutA ? a : b;
      Span other = cutA ? b : a;
      inside(number, cut, other, findings);
    } else if (open(a) && open(b)) {
      return; // the order of play asks which one holds
    } else if (counted(a) && counted(b)) {
      return; // how often is asked where the order of play is worked out
    } else if (loops(a) && loops(b) && !(nested(a, b) && different(a, b))) {
      add(
          number,
          b,
          "contradiction",
          "is already in a " + a.change().kind() + "; which one holds?",
          findings);
    } else {
      a.effects()
          .inForce()
          .clash(b.effects().inForce())
          .or(() -> twoMeters(a, b))
          .ifPresent(says -> add(number, b, "contradiction", says, findings));
    }
  }

  private static void overlap(WrittenNumber number, Span a, Span b, List<PlanFinding> findings) {
    boolean beats =
        a.fromBeat().isPresent()
            || a.toBeat().isPresent()
            || b.fromBeat().isPresent()
            || b.toBeat().isPresent();
    if (!beats) {
      boolean within = nested(a, b);
      add(
          number,
          b,
          within ? "no-effect" : "overlap",
          within ? "is already in another cut." : "is in two cuts; together they are one.",
          findings);
    }
  }

  private static void inside(
      WrittenNumber number, Span cut, Span other, List<PlanFinding> findings) {
    boolean whole = other.from() >= cut.from() && other.to() <= cut.to();
    boolean edge = cut.fromBeat().orElse(1) > 1 || cut.toBeat().orElse(1e9) < beats(number, cut);
    if (other.effects().added().isPresent()) {
      return; // whether they are played is asked where they are put in
    }
    if (whole && !edge) {
      if (HoldsOn.lasts(other.effects().inForce())) {
        return; // what becomes of it hangs on where one lands
      }
      add(
          number,
          other,
          "no-effect",
          "is cut, so the " + other.change().kind() + " does nothing.",
          findings);
    } else if (!whole && loops(other) && !open(other)) {
      add(
          number,
          other,
          "contradiction",
          "is partly cut; the " + other.change().kind() + " holds for what is left of it.",
          findings);
    }
  }

  private static Optional<String> twoMeters(Span a, Span b) {
    Optional<Meter> one = a.effects().course().put().flatMap(Put::meter);
    Optional<Meter> other = b.effects().course().put().flatMap(Put::meter);
    boolean differ = one.isPresent() && other.isPresent() && !one.equals(other);
    return differ ? Optional.of("has two meters; the later change holds.") : Optional.empty();
  }

  private static double beats(WrittenNumber number, Span cut) {
    return number.barAt(cut.to()).meter().map(Meter::beats).orElse(0);
  }

  private static boolean counted(Span span) {
    return span.effects().rounds().filter(r -> r.until() == Rounds.Until.COUNTED).isPresent();
  }

  private static boolean loops(Span span) {
    return span.effects().rounds().isPresent();
  }

  private static boolean open(Span span) {
    return span.effects().rounds().filter(r -> r.until() != Rounds.Until.COUNTED).isPresent();
  }

  private static boolean nested(Span a, Span b) {
    return (a.from() <= b.from() && a.to() >= b.to()) || (b.from() <= a.from() && b.to() >= a.to());
  }

  private static boolean different(Span a, Span b) {
    return a.from() != b.from() || a.to() != b.to();
  }

  private static void add(
      WrittenNumber number, Span span, String code, String says, List<PlanFinding> findings) {
    String where =
        span.from() == span.to()
            ? "Bar " + number.nameAt(span.from())
            : "Bars " + number.nameAt(span.from()) + " to " + number.nameAt(span.to());
    String verb = span.from() == span.to() ? says : plural(says);
    findings.add(
        PlanFinding.change(
            code.equals("contradiction") ? Severity.ERROR : Severity.DOUBT,
            Optional.of(number.barAt(span.from()).id()),
            code,
            where + " of " + number.spoken() + " " + verb,
            span.change()));
  }

  private static String plural(String says) {
    return says.replaceFirst("^is ", "are ")
        .replaceFirst("^has ", "have ")
        .replaceFirst("^asks ", "ask ");
  }
}
