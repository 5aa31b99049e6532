package org.barmap.plan.order;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.Severity;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.term.Pass;
import org.barmap.plan.pass.Passes;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.PlayedPiece;

/**
 * A loop held open.
 *
 * @param loop the loop
 * @param last index of the last piece of one time round
 * @param when in which of the passes of a repeat around it
 */
record Held(Loop loop, int last, When when) {

  /**
   * In which of the passes of a repeat that it lies in a vamp is one.
   *
   * @param pass which; empty for every one
   */
  record When(Optional<Pass> pass) {
    static final When EVERY_TIME = new When(Optional.empty());

    /** What may be answered where nobody said it. */
    static final List<When> ANSWERS =
        List.of(EVERY_TIME, new When(Optional.of(new Pass("1"))), new When(Optional.of(Pass.LAST)));

    /** Returns the times that are meant, each with the step that begins it. */
    private List<OpenStretch.Place> of(List<Time> times, int[] total) {
      List<Time> those = times;
      if (pass.equals(ANSWERS.get(1).pass())) {
        those = times.subList(0, Math.min(1, times.size()));
      } else if (pass.equals(ANSWERS.get(2).pass())) {
        those = times.subList(Math.max(0, times.size() - 1), times.size());
      } else if (pass.isPresent()) {
        those =
            times.stream()
                .filter(t -> Passes.holds(pass, t.begins(), total[t.begins().index()]))
                .toList();
      }
      return those.stream().map(Time::place).toList();
    }
  }

  /** One of the times it comes, with the step that begins it. */
  private record Time(OpenStretch.Place place, PlayedPiece begins) {}

  OpenStretch open() {
    return loop.open().orElseThrow();
  }

  /** Tells whether pieces of a stretch are among those of one time round. */
  boolean meets(int start, int end) {
    return start <= last && end >= loop.start();
  }

  /**
   * Returns what is held open with the places where it comes in the order, as it is first met; what
   * never sounds is left out.
   *
   * @param pieces how many pieces the number has
   */
  static List<OpenStretch> places(List<Held> held, List<Piece> pieces, List<PlayedPiece> steps) {
    if (held.isEmpty()) {
      return List.of();
    }
    int[] holder = new int[pieces.size()];
    Arrays.fill(holder, -1);
    List<List<Time>> places = new ArrayList<>();
    int[] total = new int[pieces.size()];
    steps.forEach(s -> total[s.index()] = Math.max(total[s.index()], s.pass()));
    for (int h = 0; h < held.size(); h++) {
      places.add(new ArrayList<>());
      Arrays.fill(holder, held.get(h).loop().start(), held.get(h).last() + 1, h);
    }
    int[] ends = new int[held.size()];
    for (PlayedPiece step : steps) {
      int h = holder[step.index()];
      if (h >= 0) {
        ends[h] = Math.max(ends[h], step.index());
      }
    }
    int bar = 0;
    int i = 0;
    while (i < steps.size()) {
      int h = holder[steps.get(i).index()];
      int from = bar;
      int begin = i;
      do {
        bar += steps.get(i).piece().count();
        i++;
      } while (h >= 0
          && i < steps.size()
          && holder[steps.get(i).index()] == h
          // back before its end is a repeat in it, back from its end another time round
          && (steps.get(i).index() > steps.get(i - 1).index()
              || steps.get(i - 1).index() < ends[h]));
      if (h >= 0 && held.get(h).goesRound(steps.subList(begin, i), pieces)) {
        places.get(h).add(new Time(new OpenStretch.Place(from, bar - from), steps.get(begin)));
      }
    }
    List<OpenStretch> found = new ArrayList<>();
    for (int h = 0; h < held.size(); h++) {
      List<OpenStretch.Place> those = held.get(h).when().of(places.get(h), total);
      if (!those.isEmpty()) {
        found.add(held.get(h).open().at(those));
      }
    }
    found.sort(Comparator.comparingInt(o -> o.places().get(0).from()));
    return found;
  }

  /** Tells of what is held open and never sounds: behind the Fine, or jumped over. */
  static List<PlanFinding> silent(List<Held> held, List<Piece> pieces, List<OpenStretch> sounding) {
    List<PlanFinding> findings = new ArrayList<>();
    Set<OpenStretch> heard = new HashSet<>();
    sounding.forEach(s -> heard.add(s.at(List.of())));
    for (Held one : held) {
      boolean cut =
          pieces.subList(one.loop().start(), one.last() + 1).stream().allMatch(Piece::cut);
      boolean sounds = heard.contains(one.open().at(List.of()));
      if (!cut && !sounds) {
        findings.add(
            new PlanFinding(
                Severity.INFO,
                Optional.of(one.open().first()),
                "vamp-silent",
                one.never(),
                one.open().change(),
                List.of(),
                Optional.empty()));
      }
    }
    return findings;
  }

  private String never() {
    return "The "
        + open().named()
        + when.pass()
            .map(p -> " is for the " + p.says() + ", and its bars have no such time.")
            .orElse(" never sounds: the number doesn't come to it.");
  }

  /**
   * The last time round, out before its end, is not held open any more; where that end is cut, all
   * times are alike.
   */
  private boolean goesRound(List<PlayedPiece> run, List<Piece> pieces) {
    if (loop.parts().isEmpty()) {
      return true;
    }
    Loop.Ending end = loop.parts().get(0);
    return run.stream().anyMatch(s -> s.index() >= end.start())
        || pieces.subList(end.start(), end.end() + 1).stream().allMatch(Piece::cut);
  }
}
