package org.barmap.plan.check;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Severity;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.Ranged;
import org.barmap.plan.change.ShowChange;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.order.Span;

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
    return findings;
  }

  private static void silent(
      WrittenNumber number, List<ShowChange> changes, List<PlanFinding> findings) {
    Optional<ShowChange> cut =
        changes.stream().filter(c -> c instanceof ShowChange.CutNumber).findFirst();
    Optional<ShowChange> tacet =
        changes.stream().filter(c -> c instanceof ShowChange.Tacet).findFirst();
    Optional<ShowChange> whole = cut.or(() -> tacet);
    if (whole.isEmpty() && !number.tacet()) {
      return;
    }
    String state = cut.isPresent() ? "cut" : "tacet";
    for (ShowChange change : changes) {
      if (whole.filter(w -> w == change).isEmpty()) {
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
    boolean cutA = a.change() instanceof ShowChange.Cut;
    boolean cutB = b.change() instanceof ShowChange.Cut;
    if (cutA && cutB) {
      overlap(number, a, b, findings);
    } else if (cutA || cutB) {
      Span cut = cutA ? a : b;
      Span other = cutA ? b : a;
      inside(number, cut, other, findings);
    } else if (loops(a) && loops(b) && !(nested(a, b) && different(a, b))) {
      add(
          number,
          b,
          "contradiction",
          "is already in a " + a.change().kind() + "; which one holds?",
          findings);
    } else if (a.change() instanceof ShowChange.Tempo x
        && b.change() instanceof ShowChange.Tempo y
        && (x.perMinute() != y.perMinute()
            || !x.beat().equals(y.beat())
            || !x.toPerMinute().equals(y.toPerMinute()))) {
      add(number, b, "contradiction", "has two tempi; the later change holds.", findings);
    } else if (a.change() instanceof ShowChange.KeyChange x
        && b.change() instanceof ShowChange.KeyChange y
        && x.fifths() != y.fifths()) {
      add(number, b, "contradiction", "has two keys; the later change holds.", findings);
    } else if (a.change() instanceof ShowChange.Beats x
        && b.change() instanceof ShowChange.Beats y
        && x.beats() != y.beats()) {
      add(
          number,
          b,
          "contradiction",
          "is in " + x.beats() + " and in " + y.beats() + "; the later change holds.",
          findings);
    } else if (a.change() instanceof ShowChange.Instrument x
        && b.change() instanceof ShowChange.Instrument y
        && !x.to().equalsIgnoreCase(y.to())) {
      add(number, b, "contradiction", "asks for " + x.to() + " and for " + y.to() + ".", findings);
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
    boolean edge = cut.fromBeat().isPresent() || cut.toBeat().isPresent();
    if (whole && other.change() instanceof ShowChange.Insert && other.to() == cut.to()) {
      return;
    }
    if (whole && !edge) {
      add(
          number,
          other,
          "no-effect",
          "is cut, so the " + other.change().kind() + " does nothing.",
          findings);
    } else if (!whole && other.change() instanceof Ranged && loops(other)) {
      add(
          number,
          other,
          "contradiction",
          "is partly cut; the " + other.change().kind() + " holds for what is left of it.",
          findings);
    }
  }

  private static boolean loops(Span span) {
    return span.change() instanceof ShowChange.Vamp
        || span.change() instanceof ShowChange.Safety
        || span.change() instanceof ShowChange.Play;
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
