package org.barmap.plan.check;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Meter;
import org.barmap.map.Navigation;
import org.barmap.map.Severity;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.order.Loop;
import org.barmap.plan.order.OrderOfPlay;
import org.barmap.plan.order.Piece;
import org.barmap.plan.order.Span;
import org.barmap.plan.turn.Binding;

/** Says what follows from each cut of a number. */
public final class CutChecks {
  private final OrderOfPlay order;
  private final List<Piece> pieces;
  private final List<PlanFinding> findings = new ArrayList<>();

  private CutChecks(OrderOfPlay order) {
    this.order = order;
    this.pieces = order.pieces();
  }

  /**
   * Returns what follows from the cuts of a number.
   *
   * @param instruments the instrument at each piece; empty text where unknown
   */
  public static List<PlanFinding> of(
      OrderOfPlay order, List<Span> spans, List<String> instruments, Binding binding) {
    CutChecks checks = new CutChecks(order);
    for (CutStretch cut : CutStretch.of(order.pieces(), spans)) {
      checks.repeats(cut);
      checks.signs(cut);
      checks.join(cut, instruments, binding);
    }
    return checks.findings;
  }

  private void repeats(CutStretch cut) {
    for (Loop loop : order.repeats()) {
      boolean start = cut.holds(loop.start()) && pieces.get(loop.start()).cut();
      boolean end = cut.holds(loop.end()) && pieces.get(loop.end()).endCut();
      if (!loop.parts().isEmpty()) {
        endings(cut, loop);
      } else if (start && !end) {
        find(
            cut,
            Severity.DOUBT,
            "cut-repeat",
            "The cut takes the start of the repeat of bars "
                + range(loop)
                + "; it now goes back to bar "
                + name(cut.last() + 1));
      } else if (end && !start) {
        find(
            cut,
            Severity.DOUBT,
            "cut-repeat",
            "The cut takes the repeat sign at the end of bar "
                + name(loop.end())
                + "; bars "
                + name(loop.start())
                + " to "
                + name(cut.first() - (pieces.get(cut.first()).cut() ? 1 : 0))
                + " are played once. If they are still repeated, write the sign before the cut");
      }
    }
  }

  private void endings(CutStretch cut, Loop loop) {
    if (cut.holds(loop.start()) && cut.holds(loop.end()) && pieces.get(loop.start()).cut()) {
      return; // the whole repeat is cut
    }
    Loop.Part first = loop.parts().get(0);
    boolean begins = cut.first() >= first.start() && cut.first() <= first.end();
    boolean takesRepeat =
        loop.parts().stream()
            .anyMatch(p -> p.closes() && cut.holds(p.end()) && pieces.get(p.end()).endCut());
    if (takesRepeat) {
      find(
          cut,
          Severity.DOUBT,
          "cut-in-ending",
          "The cut "
              + (begins ? "starts in the first ending and takes" : "takes")
              + " the repeat back to bar "
              + name(loop.start())
              + ": you go on after the cut without it. If it still holds, write the sign before the"
              + " cut");
    } else if (cut.holds(loop.start()) && pieces.get(loop.start()).cut()) {
      find(
          cut,
          Severity.DOUBT,
          "cut-repeat",
          "The cut takes the start of the repeat of bars "
              + range(loop)
              + "; it now goes back to bar "
              + name(cut.last() + 1));
    } else if (loop.parts().stream().anyMatch(p -> opensInside(cut, p))) {
      find(
          cut,
          Severity.DOUBT,
          "cut-in-ending",
          "The cut takes the start of an ending of bars "
              + range(loop)
              + ": mark which time what is left of it is played");
    }
  }

  private boolean opensInside(CutStretch cut, Loop.Part part) {
    return cut.holds(part.start()) && !cut.holds(part.end());
  }

  private void signs(CutStretch cut) {
    for (int i = cut.first(); i <= cut.last(); i++) {
      Piece piece = pieces.get(i);
      if (starts(piece, Navigation.SEGNO) && left(Navigation.DAL_SEGNO, i)) {
        find(
            cut,
            Severity.ERROR,
            "cut-segno",
            "The segno is cut, but its D.S. is not: the D.S. is passed over; say where it goes back to");
      }
      if (starts(piece, Navigation.CODA) && left(Navigation.TO_CODA, i)) {
        find(
            cut,
            Severity.ERROR,
            "cut-coda",
            "The start of the coda is cut, but the To Coda is not: you land after the cut, at bar "
                + name(cut.last() + 1));
      }
      if (ends(piece, Navigation.TO_CODA)
          && pieces.stream().anyMatch(p -> p.first() && !p.cut() && p.bar().has(Navigation.CODA))) {
        find(
            cut,
            Severity.ERROR,
            "cut-to-coda",
            "The To Coda is cut: after the D.C. or D.S. you play on and never jump to the coda");
      }
      if (ends(piece, Navigation.FINE)
          && (left(Navigation.DA_CAPO, i) || left(Navigation.DAL_SEGNO, i))) {
        find(
            cut,
            Severity.ERROR,
            "cut-fine",
            "The Fine is cut: after the D.C. or D.S. you play to the end");
      }
      if (ends(piece, Navigation.DA_CAPO) || ends(piece, Navigation.DAL_SEGNO)) {
        find(
            cut,
            Severity.DOUBT,
            "cut-jump",
            "A D.C. or D.S. is cut with its bar: you don't go back");
      }
    }
  }

  private static boolean starts(Piece piece, Navigation sign) {
    return piece.first() && piece.cut() && piece.bar().has(sign);
  }

  private static boolean ends(Piece piece, Navigation sign) {
    return piece.last() && piece.endCut() && piece.bar().has(sign);
  }

  /** Tells whether a sign is still in force somewhere else. */
  private boolean left(Navigation sign, int but) {
    for (int i = 0; i < pieces.size(); i++) {
      if (i != but
          && pieces.get(i).last()
          && pieces.get(i).bar().has(sign)
          && !pieces.get(i).endCut()) {
        return true;
      }
    }
    return false;
  }

  private void join(CutStretch cut, List<String> instruments, Binding binding) {
    boolean partFirst = !pieces.get(cut.first()).cut();
    boolean partLast = !pieces.get(cut.last()).cut();
    int before = partFirst ? cut.first() : cut.first() - 1;
    int after = partLast ? cut.last() : cut.last() + 1;
    if (before < 0 && after >= pieces.size()) {
      find(
          cut,
          Severity.DOUBT,
          "cut-all",
          "Every bar of " + order.number().spoken() + " is cut; cut the number instead");
      return;
    }
    if (after >= pieces.size()) {
      find(
          cut,
          Severity.INFO,
          "cut-to-end",
          "The cut runs to the end of "
              + order.number().spoken()
              + ": after bar "
              + name(before)
              + " comes the next number");
      return;
    }
    if (before < 0) {
      find(
          cut,
          Severity.INFO,
          "cut-from-start",
          order.number().spoken() + " starts at bar " + name(after));
      return;
    }
    meters(cut, before, after);
    beats(cut, before, after);
    String held = instruments.get(before);
    String wanted = instruments.get(after);
    if (!wanted.isEmpty() && !held.equals(wanted)) {
      find(
          cut,
          Severity.DOUBT,
          "cut-instrument",
          "You land on "
              + wanted
              + (held.isEmpty() ? "" : ", coming from " + held)
              + ": the change lies inside the cut");
    }
    pages(cut, before, after, binding);
  }

  private void meters(CutStretch cut, int before, int after) {
    Optional<Meter> from = pieces.get(before).bar().meter();
    Optional<Meter> to = pieces.get(after).bar().meter();
    if (from.isEmpty() || to.isEmpty() || from.get().sameAs(to.get())) {
      return;
    }
    String text =
        "You land in "
            + to.get().beats()
            + "/"
            + to.get().unit()
            + ", coming from "
            + from.get().beats()
            + "/"
            + from.get().unit();
    boolean printed = to.get().printed() && pieces.get(after).first();
    find(
        cut,
        printed ? Severity.INFO : Severity.DOUBT,
        "cut-meter",
        printed
            ? text
            : text + "; the signature lies inside the cut, write it at bar " + name(after));
  }

  private void beats(CutStretch cut, int before, int after) {
    Piece a = pieces.get(before);
    Piece b = pieces.get(after);
    if (before == after || a.cutEnd() + b.cutStart() == 0 || a.bar().meter().isEmpty()) {
      return;
    }
    int inBar = a.bar().meter().get().beats();
    double left =
        (a.cutEnd() > 0 ? inBar - a.cutEnd() : 0)
            + (b.cutStart() > 0
                ? b.bar().meter().map(Meter::beats).orElse(inBar) - b.cutStart()
                : 0);
    if (Math.abs(left - inBar) > 1e-9 && left > 0) {
      find(
          cut,
          Severity.DOUBT,
          "cut-odd-bar",
          "Where the ends of the cut meet, "
              + plain(left)
              + " beats are left, not a bar of "
              + inBar);
    }
  }

  private void pages(CutStretch cut, int before, int after, Binding binding) {
    int from = pieces.get(before).bar().page();
    int to = pieces.get(after).bar().page();
    int sheets = Math.abs(binding.opening(to) - binding.opening(from));
    if (sheets == 1) {
      find(
          cut,
          Severity.INFO,
          "cut-turn",
          "The turn lies inside the cut: from page " + from + " straight to page " + to);
    } else if (sheets > 1) {
      find(
          cut,
          Severity.DOUBT,
          "cut-pages",
          "The turn lies inside the cut: "
              + sheets
              + " leaves at once, from page "
              + from
              + " to page "
              + to
              + "; clip them together");
    } else if (from != to) {
      find(
          cut,
          Severity.INFO,
          "cut-across",
          "The cut jumps across the opening, from page " + from + " to page " + to);
    }
  }

  private String range(Loop loop) {
    return name(loop.start()) + " to " + name(loop.end());
  }

  private String name(int piece) {
    int i = Math.max(0, Math.min(piece, pieces.size() - 1));
    Piece p = pieces.get(i);
    return p.inserted()
        .orElse(order.number().nameAt(Math.min(p.slot(), order.number().slots() - 1)));
  }

  private static String plain(double beats) {
    return beats == Math.rint(beats) ? Long.toString((long) beats) : Double.toString(beats);
  }

  private void find(CutStretch cut, Severity severity, String code, String text) {
    Optional<String> at = Optional.of(pieces.get(cut.first()).bar().id());
    findings.add(PlanFinding.change(severity, at, code, text + ".", cut.change()));
  }
}
