package org.barmap.fit;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.barmap.fit.CorpusReadings.Labelled;
import org.barmap.fit.Truth.TrueBar;
import org.barmap.map.Barline;
import org.barmap.reckon.cells.BarLengths;
import org.barmap.reckon.cells.GapEvidence;
import org.barmap.reckon.cells.LineEvidence;
import org.barmap.reckon.cells.Marks;
import org.barmap.reckon.cells.Meters;
import org.barmap.reckon.cells.RestEvidence;
import org.barmap.reckon.cells.Room;
import org.barmap.reckon.cells.SystemCells;
import org.barmap.reckon.cost.Calibration;
import org.barmap.sign.ReadSystem;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;

/** What the reader said on labelled pages and what was true, event by event. */
final class Observed {

  /** A candidate this near a true barline is it; staff spaces. */
  private static final double SAME = 1.2;

  /** A line that was read, or one supposed between two rests. */
  record SeenLine(double read, boolean ink, LineEvidence around, boolean right) {}

  /** A cell and how many barlines were missed in it. */
  record Gap(GapEvidence cell, int missed) {}

  /**
   * A numeral.
   *
   * @param there the reader's probability that there is such a sign
   * @param truth what it really says
   */
  record Numeral(double there, List<Reading> readings, int truth) {
    boolean listed() {
      return readings.stream().anyMatch(r -> Marks.number(r.text()) == truth);
    }

    boolean best() {
      return !readings.isEmpty() && Marks.number(readings.get(0).text()) == truth;
    }

    boolean oneFigureOff() {
      return !readings.isEmpty()
          && readings.get(0).text().matches("\\d{1,4}")
          && Marks.oneFigureOff(readings.get(0).text(), 1).containsKey(truth);
    }

    boolean figureMoreOrLess() {
      return !readings.isEmpty()
          && readings.get(0).text().matches("\\d{1,3}")
          && Marks.figureMoreOrLess(readings.get(0).text(), 1, 9999).containsKey(truth);
    }
  }

  /**
   * A rest, a rest with its numeral, or a numeral alone, and whether it stands for several bars.
   */
  record Rest(boolean seen, boolean numbered, double read, boolean several) {}

  /** A line of the book that begins after another one. */
  record Start(boolean heading, boolean afterFinal, int number, boolean again) {}

  /** A meter or a rehearsal mark: how sure the reader was and whether it was right. */
  record Said(double sure, boolean right, boolean listed) {}

  final List<SeenLine> lines = new ArrayList<>();
  final List<Boolean> openEnds = new ArrayList<>();

  /** Forward repeats near the beginning of a line: whether one ends a bar. */
  final List<Boolean> opening = new ArrayList<>();

  final List<Gap> gaps = new ArrayList<>();

  /** The cells there would be with one true line taken away. */
  final List<Gap> merged = new ArrayList<>();

  /** The cells there would be with two neighbouring true lines taken away. */
  final List<Gap> mergedOfThree = new ArrayList<>();

  /** What stands beside true lines and beside lines put anywhere. */
  final List<LineEvidence> besideTrue = new ArrayList<>();

  final List<LineEvidence> besideAnywhere = new ArrayList<>();
  final List<Rest> rests = new ArrayList<>();
  final List<Numeral> counts = new ArrayList<>();
  final List<Numeral> anchors = new ArrayList<>();
  final List<Start> starts = new ArrayList<>();

  final List<Integer> firstNumbers = new ArrayList<>();
  final List<Said> marks = new ArrayList<>();
  final List<Said> meters = new ArrayList<>();

  /** Misread numerals and all numerals of each page. */
  final List<int[]> misreadByPage = new ArrayList<>();

  int pages;
  int systems;
  int systemsMissed;

  static Observed of(List<Labelled> pages) {
    Observed out = new Observed();
    pages.forEach(out::page);
    return out;
  }

  /** How many events of each kind there were. */
  java.util.Map<String, Object> events() {
    java.util.Map<String, Object> out = new java.util.LinkedHashMap<>();
    out.put("pages", pages);
    out.put("systems", systems);
    out.put("systemsMissed", systemsMissed);
    out.put("lines", lines.size());
    out.put("linesInvented", lines.stream().filter(l -> !l.right()).count());
    out.put("barlinesMissedInsideALine", gaps.stream().mapToInt(Gap::missed).sum());
    out.put("forwardRepeatsAtTheBeginning", opening.size());
    out.put("forwardRepeatsThatEndABar", opening.stream().filter(b -> b).count());
    out.put("openEnds", openEnds.size());
    out.put("openEndsThatEndABar", openEnds.stream().filter(b -> b).count());
    out.put("rests", rests.size());
    out.put("restsOfOneBar", rests.stream().filter(r -> !r.several()).count());
    out.put("counts", counts.size());
    out.put("countsMisread", counts.stream().filter(n -> !n.best()).count());
    out.put("countsNotListed", counts.stream().filter(n -> !n.listed()).count());
    out.put("barNumbers", anchors.size());
    out.put("barNumbersMisread", anchors.stream().filter(n -> !n.best()).count());
    out.put("barNumbersNotListed", anchors.stream().filter(n -> !n.listed()).count());
    out.put("marks", marks.size());
    out.put("marksMisread", marks.stream().filter(m -> !m.right()).count());
    out.put("marksNotListed", marks.stream().filter(m -> !m.listed()).count());
    out.put("meters", meters.size());
    out.put("metersMisread", meters.stream().filter(m -> !m.right()).count());
    out.put("linesOfTheBook", starts.size());
    out.put("restarts", starts.stream().filter(Start::again).count());
    return out;
  }

  private void page(Labelled page) {
    pages++;
    systems += page.truth().at("/pages/0/systems").size();
    systemsMissed += page.truth().at("/pages/0/systems").size();
    List<SystemCells> all =
        BarLengths.along(
            page.read().systems().stream().map(s -> SystemCells.of(s, 0.5, 0.5)).toList());
    List<Double> usual = Room.usual(all);
    Optional<SystemCells> before = Optional.empty();
    Optional<TrueBar> lastBefore = Optional.empty();
    int numerals = counts.size();
    int numbers = anchors.size();
    for (SystemCells cells : all) {
      List<TrueBar> truth = Truth.bars(page.truth(), cells.source());
      if (!truth.isEmpty() && !cells.lines().isEmpty()) {
        systemsMissed--;
        system(cells, truth, usual.get(all.indexOf(cells)));
        start(cells, truth.get(0), before, lastBefore);
        lastBefore = Optional.of(truth.get(truth.size() - 1));
        before = Optional.of(cells);
      }
    }
    List<Numeral> own = new ArrayList<>(counts.subList(numerals, counts.size()));
    own.addAll(anchors.subList(numbers, anchors.size()));
    misreadByPage.add(new int[] {(int) own.stream().filter(n -> !n.best()).count(), own.size()});
  }

  private void start(
      SystemCells cells, TrueBar first, Optional<SystemCells> before, Optional<TrueBar> last) {
    if (before.isEmpty() || last.isEmpty()) {
      return;
    }
    int going = last.get().number() + last.get().count();
    boolean again = first.number() != going && first.number() <= 1;
    List<SystemCells.Candidate> lines = before.get().lines();
    boolean ended = lines.get(lines.size() - 1).sign().text().equals(Barline.FINAL.word());
    boolean heading = !cells.signs(SignKind.HEADING).isEmpty();
    starts.add(new Start(heading, ended, first.number(), again));
  }

  private void system(SystemCells cells, List<TrueBar> truth, double usualWidth) {
    List<Optional<RestEvidence>> rests = new ArrayList<>();
    for (int c = 0; c < cells.lines().size(); c++) {
      rests.add(RestEvidence.in(cells, c));
    }
    double usual = Room.usual(cells, usualWidth);
    List<Double> edges = new ArrayList<>();
    truth.forEach(t -> edges.add(t.to()));
    boolean trulyOpen = truth.get(truth.size() - 1).openEnd();
    if (trulyOpen) {
      edges.remove(edges.size() - 1);
    }
    for (int c = 0; c < cells.lines().size(); c++) {
      SystemCells.Candidate line = cells.lines().get(c);
      boolean last = c == cells.lines().size() - 1;
      if (last && cells.openEnd()) {
        // a barline at the very end that was not seen as one still ends the bar there
        openEnds.add(trulyOpen || near(edges, line.at(), 3));
      } else if (cells.opens(c)) {
        opening.add(near(edges, line.at(), SAME));
      } else {
        LineEvidence around = LineEvidence.of(cells, c, usualWidth, usual);
        boolean right = near(edges, line.at(), SAME);
        lines.add(new SeenLine(line.probability(), line.ink(), around, right));
      }
      double from = cells.from(c);
      double to = cells.to(c);
      int missed =
          (int)
              edges.stream()
                  .filter(e -> e > from + SAME && e < to - SAME)
                  .filter(e -> unseen(cells, e))
                  .count();
      gaps.add(new Gap(GapEvidence.of(cells, c, usualWidth), missed));
      rests.get(c).ifPresent(r -> count(r, truth));
    }
    signs(cells, truth);
    supposed(cells, edges, usualWidth);
  }

  /** What the cells would look like with a line too few or too many. */
  private void supposed(SystemCells cells, List<Double> edges, double usualWidth) {
    for (int k = 0; k + 1 < cells.lines().size(); k++) {
      if (near(edges, cells.lines().get(k).at(), SAME)) {
        SystemCells fewer = cells.without(k);
        merged.add(new Gap(GapEvidence.of(fewer, k, usualWidth), 1));
        if (k + 1 < fewer.lines().size() && near(edges, fewer.lines().get(k).at(), SAME)) {
          mergedOfThree.add(new Gap(GapEvidence.of(fewer.without(k), k, usualWidth), 2));
        }
        double usual = Room.usual(cells, usualWidth);
        besideTrue.add(LineEvidence.of(cells, k, usualWidth, usual));
      }
    }
    // not the hash of the lines themselves: enums hash differently in every process
    long seed = cells.lines().stream().map(SystemCells.Candidate::at).toList().hashCode();
    java.util.Random random = new java.util.Random(seed);
    for (int n = 0; n < 3; n++) {
      double at =
          cells.begin()
              + (cells.to(cells.lines().size() - 1) - cells.begin()) * random.nextDouble();
      int k = cells.cellAt(at);
      List<SystemCells.Candidate> more = new ArrayList<>(cells.lines());
      more.add(k, new SystemCells.Candidate(at, 0.5, cells.lines().get(0).sign()));
      SystemCells with = with(cells, more);
      double usual = Room.usual(with, usualWidth);
      besideAnywhere.add(LineEvidence.of(with, k, usualWidth, usual));
    }
  }

  private static SystemCells with(SystemCells cells, List<SystemCells.Candidate> lines) {
    return new SystemCells(
        cells.source(),
        cells.begin(),
        cells.end(),
        List.copyOf(lines),
        cells.openEnd(),
        cells.wholes(),
        cells.beats());
  }

  private static boolean near(List<Double> edges, double at, double reach) {
    return edges.stream().anyMatch(e -> Math.abs(e - at) < reach);
  }

  private static boolean unseen(SystemCells cells, double edge) {
    return cells.lines().stream().noneMatch(l -> Math.abs(l.at() - edge) < SAME);
  }

  private void count(RestEvidence rest, List<TrueBar> truth) {
    truth.stream()
        .filter(t -> t.from() < rest.sign().at() && t.to() > rest.sign().at())
        .findFirst()
        .ifPresent(
            t -> {
              boolean several = t.count() > 1;
              boolean numbered = rest.numeral().isPresent();
              rests.add(new Rest(rest.seen(), numbered, rest.sign().probability(), several));
              if (several && numbered) {
                counts.add(new Numeral(1, rest.readings(), t.count()));
              }
            });
  }

  private void signs(SystemCells cells, List<TrueBar> truth) {
    ReadSystem read = cells.source();
    for (Sign sign : read.signs()) {
      boolean number = sign.kind() == SignKind.BAR_NUMBER;
      boolean mark = sign.kind() == SignKind.REHEARSAL;
      if (number || mark) {
        int cell = Marks.cellOf(cells, sign);
        double at = cells.from(cell);
        Optional<TrueBar> bar =
            cell == 0
                ? Optional.of(truth.get(0))
                : truth.stream().filter(t -> Math.abs(t.from() - at) < 2.5).findFirst();
        if (number && bar.isPresent()) {
          anchors.add(new Numeral(sign.probability(), sign.readings(), bar.get().number()));
        } else if (mark && bar.isPresent()) {
          String says = bar.get().bar().at("/rehearsal/text").asString("");
          marks.add(
              new Said(
                  Calibration.Sure.read(sign),
                  says.equals(sign.text()),
                  sign.readings().stream().anyMatch(x -> x.text().equals(says))));
        }
      } else if (sign.kind() == SignKind.METER) {
        truth.stream()
            .min(Comparator.comparingDouble(t -> Math.abs(t.from() + 3 - sign.at())))
            .filter(t -> sign.at() < t.to())
            .ifPresent(
                t -> meters.add(new Said(Calibration.Sure.read(sign), sameMeter(t, sign), true)));
      }
    }
  }

  private static boolean sameMeter(TrueBar t, Sign sign) {
    int beats = t.bar().at("/meter/beats").asInt();
    int unit = t.bar().at("/meter/unit").asInt();
    return t.bar().at("/meter/printed").asBoolean()
        && Meters.of(sign).filter(m -> m.beats() == beats && m.unit() == unit).isPresent();
  }
}
