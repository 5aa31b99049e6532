package org.barmap.reckon;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.map.Finding;
import org.barmap.map.Finding.Answer;
import org.barmap.map.Severity;
import org.barmap.map.Stage;
import org.barmap.reckon.MapWriter.Written;
import org.barmap.sign.Sign;

/** Says where evidence disagreed, in the order of how many bars an error there would shift. */
final class FindingWriter {

  private final List<Finding> findings = new ArrayList<>();
  private final Costs costs;
  private final List<Written> bars;

  FindingWriter(Costs costs, List<Written> bars) {
    this.costs = costs;
    this.bars = bars;
  }

  List<Finding> write(List<Lattice.About.Line> refused, Lattice lattice) {
    for (int i = 0; i < bars.size(); i++) {
      Written w = bars.get(i);
      count(i, w);
      lines(i, w);
      anchors(i, w);
    }
    for (Lattice.About.Line line : refused) {
      refused(line, lattice);
    }
    findings.sort(Comparator.comparingDouble(Finding::weight).reversed());
    return List.copyOf(findings);
  }

  /** Bars up to the next place where the print confirms the counting. */
  private double reach(int from) {
    double sum = 0;
    for (int i = from; i < bars.size(); i++) {
      BarSpan span = bars.get(i).span();
      boolean confirmed = i > from && span.anchors().stream().anyMatch(a -> says(a, span.number()));
      if (confirmed) {
        break;
      }
      sum += span.count();
    }
    return sum;
  }

  private static boolean says(Sign anchor, int number) {
    return Marks.number(anchor.text()) == number;
  }

  private void count(int i, Written w) {
    BarSpan span = w.span();
    if (span.rest().isEmpty()) {
      return;
    }
    RestEvidence rest = span.rest().get();
    int count = span.count();
    Optional<Integer> read = rest.counts().keySet().stream().findFirst();
    if (read.isEmpty()) {
      add(
          i,
          "count-missing",
          "This rest has no numeral that could be read; it counts as "
              + count
              + " bars for now. How many bars is it?",
          List.of(isCount(w.bar(), count)));
    } else if (read.get() != count) {
      add(
          i,
          "count-settled",
          "The numeral looks like "
              + read.get()
              + ", but the numbers printed around it ask for "
              + count
              + ".",
          List.of(isCount(w.bar(), count), isCount(w.bar(), read.get())));
    } else if (span.countChoice() < costs.doubt()) {
      int other = Math.max(1, span.otherCount());
      add(
          i,
          "count-unsure",
          "Read as a rest of " + count + "; it may also be " + other + ".",
          List.of(isCount(w.bar(), count), isCount(w.bar(), other)));
    }
  }

  private static Answer isCount(Bar bar, int count) {
    return new Answer(
        "This rest is " + count,
        Map.of("kind", "set-count", "bar", bar.id(), "count", Integer.toString(count)));
  }

  private void lines(int i, Written w) {
    if (w.span().inferred()) {
      boolean firstHalf = i + 1 < bars.size() && bars.get(i + 1).span().inferred();
      if (firstHalf && w.span().end().isEmpty()) {
        Bar bar = w.bar();
        add(
            i,
            "barline-missing",
            "The counting needs one more bar here: a barline seems to be missing. Its place is a guess.",
            List.of(
                new Answer(
                    "A barline is missing here", Map.of("kind", "verify-bar", "bar", bar.id())),
                new Answer(
                    "It is one bar",
                    Map.of("kind", "remove-barline", "bar", bar.id(), "side", "end"))));
      }
    } else if (w.span().end().filter(e -> isDoubtful(e, w.span())).isPresent()) {
      add(
          i,
          "barline-unsure",
          "The line after this bar may not be a barline.",
          List.of(
              new Answer("It is a barline", Map.of()),
              new Answer(
                  "It is not",
                  Map.of("kind", "remove-barline", "bar", w.bar().id(), "side", "end"))));
    }
  }

  /** A line the reader did not believe, or the counting does not. */
  private boolean isDoubtful(Sign end, BarSpan span) {
    boolean ink = end.to() > end.from();
    return span.endProbability() < costs.doubt() || (ink && end.probability() < 0.5);
  }

  private void anchors(int i, Written w) {
    for (Sign anchor : w.span().anchors()) {
      int read = Marks.number(anchor.text());
      if (read >= 0 && read != w.span().number()) {
        add(
            i,
            "number-misread",
            "A printed "
                + anchor.text()
                + " was read here, but counting gives "
                + w.span().number()
                + ".",
            List.of(
                new Answer("The printed " + anchor.text() + " was misread", Map.of()),
                new Answer(
                    "This bar is " + read,
                    Map.of(
                        "kind",
                        "set-number",
                        "bar",
                        w.bar().id(),
                        "number",
                        Integer.toString(read)))));
      }
    }
  }

  private void refused(Lattice.About.Line about, Lattice lattice) {
    SystemCells cells = lattice.systems().get(about.system());
    SystemCells.Line line = cells.lines().get(about.line());
    if (line.probability() < 0.5) {
      return;
    }
    for (int i = 0; i < bars.size(); i++) {
      BarSpan span = bars.get(i).span();
      if (span.system() == about.system() && span.from() < line.at() && span.to() > line.at()) {
        org.barmap.map.Point at = line.sign().outline().leftMiddle();
        add(
            i,
            "barline-refused",
            "A line was read inside this bar that the counting has no room for.",
            List.of(
                new Answer("It is no barline", Map.of()),
                new Answer(
                    "It is a barline",
                    Map.of(
                        "kind",
                        "add-barline",
                        "page",
                        Integer.toString(bars.get(i).bar().page()),
                        "system",
                        Integer.toString(bars.get(i).bar().system()),
                        "x",
                        Double.toString(at.x()),
                        "y",
                        Double.toString(at.y())))));
      }
    }
  }

  void jump(int i, String code, String text) {
    add(i, code, text, List.of());
  }

  void mark(int i, String text, List<Answer> answers) {
    Bar bar = bars.get(i).bar();
    findings.add(
        new Finding(
            Severity.DOUBT,
            Stage.RECKON,
            Optional.of(bar.page()),
            Optional.of(bar.system()),
            Optional.of(bar.id()),
            Optional.of(bar.outline()),
            "mark-settled",
            text,
            answers,
            1));
  }

  private void add(int i, String code, String text, List<Answer> answers) {
    Bar bar = bars.get(i).bar();
    findings.add(
        new Finding(
            Severity.DOUBT,
            Stage.RECKON,
            Optional.of(bar.page()),
            Optional.of(bar.system()),
            Optional.of(bar.id()),
            Optional.of(bar.outline()),
            code,
            text,
            answers,
            reach(i)));
  }
}
