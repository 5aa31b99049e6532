package org.barmap.plan.order;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.barmap.map.Bar;
import org.barmap.map.Barline;
import org.barmap.map.Navigation;
import org.barmap.map.Severity;
import org.barmap.plan.change.Choices;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.Question;
import org.barmap.plan.piece.Given;
import org.barmap.plan.piece.Piece;

/** Finds the loops of a number: which backward repeat belongs to which forward repeat. */
final class FormReader {
  private final List<Piece> pieces;
  private final List<Loop> loops = new ArrayList<>();
  private final List<PlanFinding> findings;
  private final Choices choices;
  private final PrintedCounts counts;
  private final Deque<Integer> open = new ArrayDeque<>();
  private int fallback;
  private int section;

  private FormReader(Given given, List<Piece> pieces, List<PlanFinding> findings, Choices choices) {
    this.pieces = pieces;
    this.findings = findings;
    this.choices = choices;
    this.counts = new PrintedCounts(given, pieces, choices);
  }

  /** Returns the loops of the pieces, inner ones before those around them; adds what is wrong. */
  static List<Loop> read(
      Given given, List<Piece> pieces, List<PlanFinding> findings, Choices choices) {
    FormReader reader = new FormReader(given, pieces, findings, choices);
    reader.run();
    return reader.loops;
  }

  private void run() {
    int i = 0;
    while (i < pieces.size()) {
      Piece piece = pieces.get(i);
      if (piece.startsWith(Navigation.CODA)) {
        section = i;
        fallback = i; // a backward repeat in the coda doesn't lead out of it
      }
      if (startsRepeat(i)) {
        open.push(i);
      }
      if (!piece.bar().ending().isEmpty()) {
        i = endings(i);
      } else {
        if (endsRepeat(i)) {
          close(i);
        }
        i++;
      }
    }
    playedTimes();
    counts.elsewhere(loops);
    open.descendingIterator().forEachRemaining(this::neverClosed);
  }

  /** A repeat that begins and never ends: played once, to the next double bar, or to the end. */
  private void neverClosed(int at) {
    int end = pieces.size() - 1;
    int section = at;
    while (section < end && !endsSection(section)) {
      section++;
    }
    int way =
        ask(
            at,
            Severity.ERROR,
            "repeat-not-closed",
            "A repeat begins here and is never closed; it is played once",
            "played once",
            "repeated up to the next double bar",
            "repeated up to the end");
    if (way > 0) {
      loops.add(new Loop(at, way == 1 ? section : end, 2, List.of(), Optional.empty()));
    }
  }

  private int ask(int at, Severity severity, String code, String text, String... ways) {
    Bar bar = pieces.get(at).bar();
    PlanFinding finding = PlanFinding.form(severity, bar.id(), code, text);
    String about = bar.label().orElse(String.valueOf(bar.number()));
    List<Choices.Way> readings = Stream.of(ways).map(Choices.Way::of).toList();
    return choices.ask(new Choices.Asked(finding, Question.Topic.REPEAT, about, readings));
  }

  private boolean endsSection(int i) {
    Barline line = pieces.get(i).signBar().endBarline();
    return pieces.get(i).endSigns() && (line == Barline.DOUBLE || line == Barline.FINAL);
  }

  /** A bar marked "3X" that no repeat sign encloses is played so often by itself. */
  private void playedTimes() {
    Set<Integer> edges = new HashSet<>();
    for (Loop loop : loops) {
      edges.add(loop.start());
      edges.add(loop.end());
      loop.parts().forEach(p -> edges.add(p.end()));
    }
    for (int i = 0; i < pieces.size(); i++) {
      int times = pieces.get(i).signBar().times().orElse(1);
      int at = i;
      if (times > 1
          && !edges.contains(i)
          && pieces.get(i).startSigns()
          && pieces.get(i).endSigns()
          && loops.stream().noneMatch(l -> l.holds(at))) {
        loops.add(new Loop(i, i, times, List.of(), Optional.empty()));
      }
    }
  }

  private void close(int i) {
    boolean marked = !open.isEmpty();
    int start = marked ? open.pop() : unmarked(i);
    loops.add(
        new Loop(
            start, i, counts.plain(start, i, startsRepeat(start)), List.of(), Optional.empty()));
    if (open.isEmpty()) {
      fallback = i + 1;
    }
  }

  /** Where a repeat leads back to that no sign begins. */
  private int unmarked(int end) {
    int behind = Math.min(fallback, end);
    if (behind == section) {
      return behind;
    }
    int way =
        ask(
            end,
            Severity.DOUBT,
            "repeat-not-begun",
            "No sign begins this repeat, and another one is before it",
            "from behind the repeat before it",
            "from the beginning");
    return way == 0 ? behind : section;
  }

  /** Reads a row of endings that starts at a piece; returns the index after it. */
  private int endings(int from) {
    List<Loop.Ending> parts = new ArrayList<>();
    Set<Integer> seen = new HashSet<>();
    int i = from;
    while (i < pieces.size() && !ending(i).isEmpty()) {
      int start = i;
      List<Integer> list = ending(i);
      if (!parts.isEmpty() && list.contains(1) && startsRepeat(i)) {
        break;
      }
      while (i + 1 < pieces.size() && ending(i + 1).equals(list)) {
        if (endsRepeat(i) || startsRepeat(i + 1)) {
          find(
              Severity.DOUBT,
              i,
              "ending-inside",
              "A repeat sign stands inside an ending here; it is played as if it were not there");
        }
        i++;
      }
      for (int pass : list) {
        if (!seen.add(pass)) {
          find(
              Severity.ERROR,
              start,
              "endings-overlap",
              "Ending " + pass + " is there twice; the first one is played");
        }
      }
      parts.add(new Loop.Ending(start, i, Set.copyOf(list), endsRepeat(i)));
      i++;
    }
    group(parts, seen);
    return i;
  }

  private void group(List<Loop.Ending> parts, Set<Integer> seen) {
    Loop.Ending first = parts.get(0);
    Loop.Ending last = parts.get(parts.size() - 1);
    if (!seen.contains(1)) {
      find(Severity.ERROR, first.start(), "endings-start", "The endings here don't start at 1");
    }
    List<Loop.Ending> inRow = inRow(parts, seen);
    boolean closed = parts.stream().anyMatch(Loop.Ending::closes);
    boolean jumps = endsWithJump(first);
    wayBack(parts, closed);
    int start = open.isEmpty() ? unmarked(first.start()) : open.pop();
    boolean closesOuter = parts.size() > 1 && last.closes() && !open.isEmpty();
    if (start == first.start() && closed) {
      find(
          Severity.DOUBT,
          start,
          "endings-no-body",
          "Nothing stands before the endings here that is repeated; mark where the repeat begins");
    }
    List<Loop.Ending> own = new ArrayList<>(inRow);
    if (closesOuter) {
      own.set(
          own.size() - 1,
          new Loop.Ending(last.start(), last.end(), inRow.get(inRow.size() - 1).passes(), false));
    }
    int total = parts.size() == 1 && first.closes() ? seen.size() + 1 : seen.size();
    if (closed || jumps) {
      Loop loop = new Loop(start, last.end(), total, own, Optional.empty());
      loops.add(counts.withEndings(loop, startsRepeat(start), closesOuter));
    }
    if (closesOuter) {
      close(last.end());
    }
    if (open.isEmpty()) {
      fallback = last.end() + 1;
    }
  }

  /** Says where a sign that leads back is missing. */
  private void wayBack(List<Loop.Ending> parts, boolean repeated) {
    Loop.Ending first = parts.get(0);
    Loop.Ending last = parts.get(parts.size() - 1);
    if (!first.closes() && !endsWithJump(first)) {
      find(
          Severity.ERROR,
          first.end(),
          "ending-not-closed",
          "The first ending has no backward repeat at its end"
              + (repeated ? "" : "; it is played straight on"));
    }
    boolean several = parts.size() > 1 && last.passes().size() > 1 && !last.closes();
    if (several && !endsWithJump(last)) {
      find(
          Severity.DOUBT,
          last.end(),
          "ending-not-closed",
          "The last ending is for several times and has no backward repeat at its end; it is"
              + " played once");
    }
    boolean goesBack = parts.size() > 1 && last.closes() && last.passes().size() == 1;
    if (goesBack && open.size() < 2) {
      find(
          Severity.DOUBT,
          last.end(),
          "ending-goes-back",
          "The last ending has a backward repeat too, and nothing tells where it leads; you go on");
    }
    if (parts.size() == 1 && first.closes() && last.end() == pieces.size() - 1) {
      find(
          Severity.DOUBT,
          last.end(),
          "ending-alone",
          "Nothing stands behind the first ending; the last time ends before it");
    }
    parts.stream()
        .filter(p -> p != first && p != last && !p.closes())
        .forEach(
            p ->
                find(
                    Severity.DOUBT,
                    p.end(),
                    "ending-not-closed",
                    "An ending before the last has no backward repeat at its end"));
  }

  private boolean endsWithJump(Loop.Ending ending) {
    Bar bar = pieces.get(ending.end()).signBar();
    return bar.has(Navigation.DA_CAPO) || bar.has(Navigation.DAL_SEGNO);
  }

  /** Where one is missing between them, the others are played one after the other: none is lost. */
  private List<Loop.Ending> inRow(List<Loop.Ending> parts, Set<Integer> seen) {
    List<Integer> printed = seen.stream().sorted().toList();
    List<Integer> missing =
        IntStream.range(printed.get(0), printed.get(printed.size() - 1))
            .boxed()
            .filter(p -> !seen.contains(p))
            .toList();
    if (!missing.isEmpty()) {
      String which = missing.stream().map(String::valueOf).collect(Collectors.joining(", "));
      find(
          Severity.ERROR,
          parts.get(0).start(),
          "endings-gap",
          "Among the endings here "
              + which
              + " is missing; those that are there are played one after the other");
    }
    return parts.stream()
        .map(
            p ->
                new Loop.Ending(
                    p.start(),
                    p.end(),
                    p.passes().stream()
                        .map(pass -> printed.indexOf(pass) + 1)
                        .collect(Collectors.toSet()),
                    p.closes()))
        .toList();
  }

  private List<Integer> ending(int i) {
    return pieces.get(i).bar().ending();
  }

  private boolean startsRepeat(int i) {
    Piece piece = pieces.get(i);
    if (!piece.startSigns()) {
      return false;
    }
    Barline own = piece.signBar().startBarline();
    return own.startsRepeat() || before(i).filter(Barline::startsRepeat).isPresent();
  }

  private boolean endsRepeat(int i) {
    Piece piece = pieces.get(i);
    if (!piece.endSigns()) {
      return false;
    }
    Barline own = piece.signBar().endBarline();
    if (own.endsRepeat()) {
      return true;
    }
    for (int k = i + 1; k < pieces.size(); k++) {
      if (pieces.get(k).inserted().isEmpty()) {
        Bar next = pieces.get(k).bar();
        return next.startBarline().endsRepeat();
      }
    }
    return false;
  }

  private Optional<Barline> before(int i) {
    for (int k = i - 1; k >= 0; k--) {
      if (pieces.get(k).inserted().isEmpty()) {
        return Optional.of(pieces.get(k).bar().endBarline());
      }
    }
    return Optional.empty();
  }

  private void find(Severity severity, int piece, String code, String text) {
    findings.add(PlanFinding.form(severity, pieces.get(piece).bar().id(), code, text));
  }
}
