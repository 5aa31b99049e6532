package org.barmap.plan.order;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.Severity;
import org.barmap.plan.change.Choices;
import org.barmap.plan.change.Choices.Way;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.Question.Topic;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.piece.BarNames;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.PrintedOpen;
import org.barmap.plan.piece.Span;

/**
 * The repeats of a number as changes say how often they are taken, and what is asked about the bars
 * of such a change.
 */
final class CountedLoops {
  private final WrittenNumber number;
  private final List<Piece> pieces;
  private final List<Loop> loops;
  private final Signs signs;
  private final Choices choices;
  private final Map<Loop, Span> said = new HashMap<>();

  CountedLoops(
      WrittenNumber number, List<Piece> pieces, List<Loop> loops, Signs signs, Choices choices) {
    this.number = number;
    this.pieces = pieces;
    this.loops = loops;
    this.signs = signs;
    this.choices = choices;
  }

  /** Returns the change that says how often a repeat is taken; empty where it is as printed. */
  Optional<Span> said(Loop loop) {
    return Optional.ofNullable(said.get(loop));
  }

  /** Whether two places are the same but for bars that are cut or added. */
  boolean same(int a, int b, boolean atStart) {
    int from = Math.min(a, b);
    int to = Math.max(a, b);
    for (int i = atStart ? from : from + 1; i <= (atStart ? to - 1 : to); i++) {
      if (!pieces.get(i).cut() && pieces.get(i).added().isEmpty()) {
        return false;
      }
    }
    return true;
  }

  /** Tells whether all these pieces are cut. */
  boolean out(int from, int to) {
    return pieces.subList(from, to + 1).stream().allMatch(Piece::cut);
  }

  /** With all its bars a repeat is gone, and with all before its last ending. */
  boolean gone(Loop loop) {
    List<Loop.Ending> parts = loop.parts();
    int to = parts.size() < 2 ? loop.end() + 1 : parts.get(parts.size() - 1).start();
    return same(loop.start(), to, true);
  }

  /** Says how often a repeat is taken. */
  void set(Span span, int l, int times) {
    Loop loop = loops.get(l);
    Optional<Span> before = Optional.ofNullable(said.get(loop));
    if (before.isPresent()) {
      if (twice(span, before.get(), loop.total(), times) == 0) {
        return;
      }
    } else if (loop.total() == times
        && !pieces.get(loop.start()).cut()
        && !pieces.get(loop.end()).endCut()) {
      already(span, loop);
    }
    put(span, l, loop.counted(times));
  }

  /** Puts a repeat in the place of another. */
  void put(Span span, int l, Loop loop) {
    loops.set(l, loop);
    said.put(loop, span);
    signs.counted(loop);
  }

  /** Adds a repeat that is not printed. */
  void add(Span span, Loop loop) {
    loops.add(loop);
    said.put(loop, span);
    signs.counted(loop);
  }

  /** Asks where another change said so before; returns 1 where the later counts. */
  int twice(Span span, Span before, int times, int now) {
    if (times == now) {
      choices.tell(
          finding(
              span,
              Severity.INFO,
              "duplicate",
              "are said to be played " + often(now) + " twice over; it counts once"));
      return 0;
    }
    return ask(
        span,
        "play-twice",
        Topic.DUPLICATE,
        "are played " + often(times) + " by one change and " + often(now) + " by another",
        List.of(new Way(often(times), List.of()), new Way(often(now), List.of())));
  }

  private void already(Span span, Loop loop) {
    choices.tell(
        finding(
            span,
            Severity.INFO,
            "no-effect",
            "are played " + often(loop.total()) + " in print already; this changes nothing"));
  }

  /** Its endings one after the other, each once. */
  static Loop straight(Loop loop) {
    List<Loop.Ending> through =
        loop.parts().stream()
            .map(p -> new Loop.Ending(p.start(), p.end(), Set.of(1), p.closes()))
            .toList();
    return new Loop(loop.start(), loop.end(), 1, through, loop.open());
  }

  /** Tells whether a repeat that is printed once is a vamp or a safety by its words. */
  boolean isOpenInPrint(Loop loop) {
    if (said.containsKey(loop)) {
      return false;
    }
    return PrintedOpen.of(number).stream()
        .anyMatch(
            p ->
                holds(loop, p.slot())
                    // of repeats inside each other the words belong to the inner one
                    && loops.stream()
                        .noneMatch(l -> l.length() < loop.length() && holds(l, p.slot())));
  }

  private boolean holds(Loop loop, int slot) {
    Piece last = pieces.get(loop.end());
    return slot >= pieces.get(loop.start()).slot() && slot < last.slot() + last.count();
  }

  /** Asks what is meant; the number of the way the plan goes by. */
  int ask(Span span, String code, Topic topic, String text, List<Way> ways) {
    PlanFinding finding = finding(span, Severity.DOUBT, code, text);
    return choices.ask(new Choices.Asked(finding, topic, name(span.from()), ways));
  }

  /** A finding about the bars of a change. */
  PlanFinding finding(Span span, Severity severity, String code, String text) {
    boolean one = span.from() == span.to();
    String bars =
        one
            ? "Bar " + number.nameAt(span.from()) + ": these bars "
            : "Bars " + number.nameAt(span.from()) + " to " + number.nameAt(span.to()) + " ";
    Optional<String> at = Optional.of(number.barAt(span.from()).id());
    return PlanFinding.change(severity, at, code, bars + text + ".", span.change());
  }

  /** Returns what a bar is called. */
  String name(int slot) {
    return new BarNames(number).at(slot);
  }

  /** Says how often. */
  static String often(int times) {
    return times == 1 ? "once" : times == 2 ? "twice" : times + " times";
  }
}
