package org.barmap.plan.check;

import java.util.List;
import java.util.Optional;
import org.barmap.map.Key;
import org.barmap.map.Meter;
import org.barmap.map.Severity;
import org.barmap.plan.change.say.Saying;
import org.barmap.plan.change.term.Figures;
import org.barmap.plan.page.Sides;
import org.barmap.plan.piece.Piece;

/** Says where one lands after a cut: meter, key, beats, instrument, page. */
final class CutJoin {
  private final CutReport report;
  private final List<Piece> pieces;
  private final List<Optional<Key>> keys;
  private final CutLanding landing;

  CutJoin(CutReport report, List<Optional<Key>> keys, CutLanding landing) {
    this.landing = landing;
    this.keys = keys;
    this.report = report;
    this.pieces = report.order().pieces();
  }

  void join(CutStretch cut, List<String> instruments, Sides sides) {
    int before = cut.leaves(pieces);
    int after = cut.lands(pieces);
    if (before < 0 && after >= pieces.size()) {
      report.find(
          cut,
          Severity.DOUBT,
          "cut-all",
          "Every bar of " + report.order().number().spoken() + " is cut; cut the number instead");
      return;
    }
    if (after >= pieces.size()) {
      report.find(
          cut,
          Severity.INFO,
          "cut-to-end",
          "The cut runs to the end of "
              + report.order().number().spoken()
              + ": after bar "
              + report.name(before)
              + " comes the next number");
      return;
    }
    if (before < 0) {
      report.find(
          cut,
          Severity.INFO,
          "cut-from-start",
          report.order().number().spoken() + " starts at bar " + report.name(after));
      return;
    }
    meters(cut, before, after);
    keys(cut, before, after);
    beats(cut, before, after);
    String held = instruments.get(before);
    String wanted = instruments.get(after);
    landing.land(cut, before, after);
    if (!wanted.isEmpty() && !held.equals(wanted)) {
      report.find(
          cut,
          after,
          Severity.DOUBT,
          "cut-instrument",
          "You land on "
              + wanted
              + (held.isEmpty() ? "" : ", coming from " + held)
              + ": the change lies inside the cut");
    }
    pages(cut, before, after, sides);
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
    signature(cut, "cut-meter", text, printed, after);
  }

  private void signature(CutStretch cut, String code, String text, boolean seen, int after) {
    String write = "; the signature lies inside the cut, write it at bar " + report.name(after);
    Severity severity = seen ? Severity.INFO : Severity.DOUBT;
    report.find(cut, after, severity, code, seen ? text : text + write);
  }

  private void keys(CutStretch cut, int before, int after) {
    Optional<Key> from = keys.get(before);
    Optional<Key> to = keys.get(after);
    if (from.isEmpty() || to.isEmpty() || from.get().sameAs(to.get())) {
      return;
    }
    String text = "You land in " + to.get().says() + ", coming from " + from.get().says();
    boolean drawn =
        pieces.get(after).first() && (LineStart.at(pieces, after) || to.get().printed());
    signature(cut, "cut-key", text, drawn, after);
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
    if (Math.abs(left - inBar) > Figures.SAME && left > 0) {
      report.find(
          cut,
          Severity.DOUBT,
          "cut-odd-bar",
          "Where the ends of the cut meet, "
              + Saying.many(left, "beat")
              + (left == 1 ? " is" : " are")
              + " left, not a bar of "
              + inBar);
    }
  }

  private void pages(CutStretch cut, int before, int after, Sides sides) {
    int from = pieces.get(before).bar().page();
    int to = pieces.get(after).bar().page();
    int sheets = sides.leaves(from, to);
    if (sheets == 1) {
      report.find(
          cut,
          Severity.INFO,
          "cut-turn",
          "The turn lies inside the cut: from page " + from + " straight to page " + to);
    } else if (sheets > 1) {
      report.find(
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
      report.find(
          cut,
          Severity.INFO,
          "cut-across",
          "The cut jumps across the opening, from page " + from + " to page " + to);
    }
  }
}
