package org.barmap.exchange.musicxml.book;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.barmap.map.Bar;
import org.barmap.map.Finding;
import org.barmap.map.Meter;
import org.barmap.map.Navigation;
import org.barmap.map.Severity;
import org.barmap.map.Stage;

/**
 * What a person should know about a book that came from a score: what is asked, what was left out.
 */
final class Remarks {
  /** A score that asks more than this is broken. */
  private static final int MOST = 500;

  /** So many bars are named in one remark. */
  private static final int NAMED = 8;

  private final List<Cell> cells;
  private final List<Entries.Made> made;
  private final List<Bar> bars;
  private final List<Integer> unnamed;
  private final List<Finding> findings = new ArrayList<>();

  Remarks(List<Cell> cells, List<Entries.Made> made, List<Bar> bars, List<Integer> unnamed) {
    this.cells = cells;
    this.made = made;
    this.bars = bars;
    this.unnamed = unnamed;
  }

  /** Returns all of it, doubts first. */
  List<Finding> all() {
    for (int e = 0; e < made.size(); e++) {
      entry(e);
    }
    for (int e : unnamed) {
      doubt(
          bars.get(e),
          "score-new-number",
          "Bar numbers begin again here: it is taken as a new number; say what it is called");
    }
    if (cells.stream().allMatch(c -> c.extra().quarters() == 0)) {
      String text = "The file has neither notes nor rests in this part: every bar counts as music";
      findings.add(Finding.ofPage(Severity.DOUBT, Stage.FILE, 0, "score-bare", text));
    }
    tempi();
    lengths();
    leftOut();
    findings.sort(Comparator.comparing((Finding f) -> f.severity()).reversed());
    List<Finding> all = new ArrayList<>(new LinkedHashSet<>(findings));
    if (all.size() <= MOST) {
      return all;
    }
    List<Finding> first = new ArrayList<>(all.subList(0, MOST));
    String more = all.size() - MOST + " more remarks are not listed; the file may be broken";
    first.add(Finding.ofPage(Severity.DOUBT, Stage.FILE, 0, "score-more", more));
    return first;
  }

  private void entry(int e) {
    Bar bar = bars.get(e);
    Entries.Made entry = made.get(e);
    entry.doubt().ifPresent(text -> doubt(bar, "score-rest", text));
    for (int k = entry.first(); k < entry.first() + entry.measures(); k++) {
      Cell cell = cells.get(k);
      cell.read().doubts().forEach(text -> doubt(bar, "score-asks", text));
      cell.number().doubt().ifPresent(text -> doubt(bar, "score-number", text));
      cell.extra().remarks().forEach(text -> info(bar, "score-remark", text));
      early(bar, cell);
      if (cell.extra().repeats() > 1 && (k == 0 || cells.get(k - 1).extra().repeats() == 0)) {
        info(
            bar,
            "score-repeat-sign",
            "From here on a sign stands for the " + cell.extra().repeats() + " bars before it");
      }
    }
  }

  private void early(Bar bar, Cell cell) {
    for (Navigation sign : List.of(Navigation.TO_CODA, Navigation.FINE)) {
      if (cell.read().early().contains(sign) && bar.has(sign) && cell.extra().quarters() > 0) {
        doubt(
            bar,
            "score-sign-early",
            (sign == Navigation.FINE ? "Fine" : "To Coda")
                + " stands before the first note of this bar in the file; it is taken as at the"
                + " bar's end");
      }
    }
  }

  private void tempi() {
    List<Bar> played = new ArrayList<>();
    for (int e = 0; e < made.size(); e++) {
      if (cells.get(made.get(e).first()).extra().tempo().isPresent()) {
        played.add(bars.get(e));
      }
    }
    if (!played.isEmpty()) {
      info(
          played.get(0),
          "score-tempo",
          "These tempi are played by the file and not printed: " + named(played));
    }
  }

  private void lengths() {
    List<Bar> odd = new ArrayList<>();
    for (int e = 0; e < made.size(); e++) {
      Bar bar = bars.get(e);
      Entries.Made entry = made.get(e);
      double quarters = cells.get(entry.first()).extra().quarters();
      double meter = bar.meter().map(Meter::quarters).orElse(0.0);
      boolean counts = bar.count() == 1 && bar.number() > 0 && meter > 0 && quarters > 0;
      if (!counts || Math.abs(quarters - meter) < Entries.SAME) {
        continue;
      }
      boolean split = e + 1 < made.size() && bars.get(e + 1).number() == 0;
      if (e == 0 && quarters < meter) {
        doubt(
            bar,
            "score-pickup",
            "The first bar is shorter than its meter and has a number: look whether it is a pickup");
      } else if (!split && !(e == made.size() - 1 && quarters < meter)) {
        odd.add(bar);
      }
    }
    if (!odd.isEmpty()) {
      info(
          odd.get(0),
          "score-length",
          "Shorter or longer than their meter, and counted as whole bars: " + named(odd));
    }
  }

  private void leftOut() {
    Map<String, Integer> left = new LinkedHashMap<>();
    for (Cell cell : cells) {
      cell.extra().left().forEach((what, often) -> left.merge(what, 1, Integer::sum));
    }
    String also =
        left.entrySet().stream()
            .sorted(Map.Entry.comparingByKey())
            .map(e -> e.getKey() + " (" + e.getValue() + (e.getValue() == 1 ? " bar)" : " bars)"))
            .collect(Collectors.joining(", "));
    findings.add(
        Finding.ofPage(
            Severity.INFO,
            Stage.FILE,
            0,
            "score-left-out",
            "This book came from a score file. A bar map has no place for notes"
                + (also.isEmpty() ? "" : ", " + also)
                + ": they were left out"));
  }

  private static String named(List<Bar> bars) {
    String names =
        bars.stream()
            .limit(NAMED)
            .map(b -> b.label().orElse(Integer.toString(b.number())))
            .collect(Collectors.joining(", "));
    int more = bars.size() - NAMED;
    return (bars.size() == 1 ? "bar " : "bars ")
        + names
        + (more > 0 ? " and " + more + " more" : "");
  }

  private void doubt(Bar bar, String code, String text) {
    findings.add(Finding.ofBar(Severity.DOUBT, Stage.FILE, bar, code, text));
  }

  private void info(Bar bar, String code, String text) {
    findings.add(Finding.ofBar(Severity.INFO, Stage.FILE, bar, code, text, List.of(), 0));
  }
}
