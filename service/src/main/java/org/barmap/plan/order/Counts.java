package org.barmap.plan.order;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.map.Severity;
import org.barmap.plan.change.Choices;
import org.barmap.plan.change.Choices.Way;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.Question.Topic;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.effect.Rounds;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.Pieces;
import org.barmap.plan.piece.PrintedOpen;
import org.barmap.plan.piece.Span;

/**
 * Lays "play n times" over the repeats of the printed form.
 *
 * <p>Said of a repeat it is how often that is taken; beside all repeats, or inside one, it is a
 * repeat of its own. What else it can mean is asked.
 */
final class Counts {
  private final WrittenNumber number;
  private final List<Piece> pieces;
  private final List<Loop> loops;
  private final Signs signs;
  private final Choices choices;
  private final CountedLoops counted;
  private final List<Span> once = new ArrayList<>();

  Counts(WrittenNumber number, List<Piece> pieces, List<Loop> loops, Signs signs, Choices choices) {
    this.number = number;
    this.pieces = pieces;
    this.loops = loops;
    this.signs = signs;
    this.choices = choices;
    this.counted = new CountedLoops(number, pieces, loops, signs, choices);
  }

  /** Tells whether a change says how often bars are played. */
  static boolean counts(Span span) {
    return span.effects().rounds().filter(r -> r.until() == Rounds.Until.COUNTED).isPresent();
  }

  /** Longer stretches go first, so that shorter ones lie inside them. */
  void apply(List<Span> spans) {
    List<Span> longestFirst = new ArrayList<>(spans.stream().filter(Counts::counts).toList());
    longestFirst.sort(Comparator.comparingInt(s -> s.from() - s.to()));
    for (Span span : longestFirst) {
      int start = Pieces.first(pieces, span);
      int end = Pieces.last(pieces, span);
      if (start >= 0 && end >= start && !counted.out(start, end)) {
        one(span, span.effects().rounds().map(Rounds::times).orElse(1), start, end);
      }
    }
  }

  private void one(Span span, int times, int start, int end) {
    for (int l = 0; l < loops.size(); l++) {
      Loop loop = loops.get(l);
      if (loop.open().isPresent()
          || counted.gone(loop)
          || !counted.same(start, loop.start(), true)) {
        continue;
      }
      boolean whole = counted.same(end, loop.end(), false);
      if (loop.parts().isEmpty() && whole) {
        counted.set(span, l, times);
        return;
      }
      if (!loop.parts().isEmpty() && withEndings(span, l, times, start, end, whole)) {
        return;
      }
    }
    beside(span, times, start, end);
  }

  /** A stretch that begins with a repeat with endings. */
  private boolean withEndings(Span span, int l, int times, int start, int end, boolean whole) {
    Loop loop = loops.get(l);
    Loop.Ending first = loop.parts().get(0);
    boolean bare = counted.out(loop.start(), first.start() - 1);
    if (start >= first.start() && !bare) {
      return false; // bars are added before the endings
    }
    boolean body = counted.same(end, first.start() - 1, false);
    boolean ending =
        loop.parts().stream().anyMatch(p -> p.closes() && counted.same(end, p.end(), false));
    if (!whole && !body && !ending) {
      return false;
    }
    Optional<Span> before = counted.said(loop);
    if (before.isPresent()) {
      if (counted.twice(span, before.get(), loop.total(), times) == 1) {
        counted.put(span, l, loop.counted(times));
      }
      return true;
    }
    if (bare && ending && (!whole || loop.parts().size() == 1)) {
      // nothing stands before this ending that would be played between its times
      counted.put(span, l, CountedLoops.straight(loop));
      counted.add(span, new Loop(start, end, times, List.of(), Optional.empty()));
      return true;
    }
    if (body && !bare && leftBeforeLast(loop)) {
      // the other endings are out, so this is all that is left to count
      counted.put(span, l, CountedLoops.straight(loop));
      counted.add(span, new Loop(start, end, times, List.of(), Optional.empty()));
      return true;
    }
    if (times == 1 && whole && loop.parts().size() == 1) {
      loneOnce(span, l);
      return true;
    }
    if (times == 1 && whole && bare) {
      endingsOnce(span, l);
      return true;
    }
    if (times == 1) {
      bodyOnce(span, l, !whole);
      return true;
    }
    String repeat = "the repeat is taken " + CountedLoops.often(times) + " in all";
    Loop around = new Loop(start, end, times, List.of(), Optional.empty());
    if (body && !ending && !whole) {
      String text = "stand before the endings of a repeat";
      int way =
          counted.ask(
              span,
              "play-body",
              Topic.REPEAT,
              text,
              List.of(
                  Way.of("these bars " + CountedLoops.often(times) + " each time"),
                  Way.of(repeat)));
      if (way == 0) {
        counted.add(span, around);
      } else {
        counted.put(span, l, loop.counted(times));
      }
      return true;
    }
    Way other =
        Way.of(
            whole
                ? "all of it, with its repeat, " + CountedLoops.often(times)
                : "so often with this ending, then once more with the last");
    int way =
        counted.ask(
            span,
            "play-endings",
            Topic.REPEAT,
            "are a repeat with endings",
            List.of(Way.of(repeat), other));
    if (way == 0 || !whole) {
      counted.put(span, l, loop.counted(way == 0 ? times : times + 1));
    } else {
      counted.add(span, around);
    }
    return true;
  }

  /** Tells whether all endings of a repeat are out but the last, behind which one goes on. */
  private boolean leftBeforeLast(Loop loop) {
    int last = loop.parts().size() - 1;
    Loop.Ending way = loop.parts().get(last);
    boolean on = last == 0 || way.passes().size() == 1 && !way.closes();
    return on && counted.out(loop.parts().get(0).start(), last == 0 ? loop.end() : way.start() - 1);
  }

  /** Behind a first ending alone the last time goes on, so once may be with it or without it. */
  private void loneOnce(Span span, int l) {
    Loop loop = loops.get(l);
    List<Way> ways =
        List.of(
            Way.of("no repeat, without the first ending"),
            Way.of("straight through, the first ending too"));
    if (counted.ask(
            span, "play-lone-ending", Topic.REPEAT, "are a repeat with a first ending alone", ways)
        == 0) {
      counted.put(span, l, loop.counted(1));
    } else {
      counted.put(span, l, CountedLoops.straight(loop));
    }
  }

  /** All before the endings is cut, so once may be said of what is left of them, in a row. */
  private void endingsOnce(Span span, int l) {
    Loop loop = loops.get(l);
    List<Way> ways =
        List.of(Way.of("no repeat, the last ending alone"), Way.of("straight through all of them"));
    if (counted.ask(
            span,
            "play-endings",
            Topic.REPEAT,
            "are endings, and nothing before them is left",
            ways)
        == 0) {
      counted.put(span, l, loop.counted(1));
    } else {
      counted.put(span, l, CountedLoops.straight(loop));
    }
  }

  private void bodyOnce(Span span, int l, boolean bodyAlone) {
    List<Way> ways = List.of(Way.of("no repeat"), Way.of("as printed"));
    String text = "stand before the endings of a repeat";
    if (!bodyAlone || counted.ask(span, "play-body", Topic.REPEAT, text, ways) == 0) {
      counted.put(span, l, loops.get(l).counted(1));
    }
  }

  /** A stretch that is no repeat. */
  private void beside(Span span, int times, int start, int end) {
    boolean around = false;
    for (int l = 0; l < loops.size(); l++) {
      Loop loop = loops.get(l);
      boolean once = loop.gone() && !counted.isOpenInPrint(loop);
      boolean apart = end < loop.start() || start > loop.end() || once || counted.gone(loop);
      if (apart || inOneBlock(loop, start, end)) {
        continue;
      }
      // the last time one goes on before a first ending that stands alone
      boolean leftBefore = times > 1 && loop.parts().size() == 1 && end == loop.end();
      if (start > loop.start() || end < loop.end() || leftBefore) {
        if (crossing(span, times, start, end) && leftBefore) {
          counted.put(span, l, CountedLoops.straight(loop));
        }
        return;
      }
      around |= loop.total() > 1;
    }
    if (times == 1) {
      once(span, start, end, around);
      return;
    }
    Optional<Span> before =
        once.stream().filter(s -> s.from() == span.from() && s.to() == span.to()).findFirst();
    if (before.isPresent() && counted.twice(span, before.get(), 1, times) == 0) {
      return;
    }
    Loop added = new Loop(start, end, times, List.of(), Optional.empty());
    if (around) {
      int way = around(span, "with the repeat each time", "with the repeat the first time only");
      if (way == 1) {
        signs.plainAgain(added);
      }
    }
    counted.add(span, added);
  }

  private void once(Span span, int start, int end, boolean around) {
    once.add(span);
    boolean open =
        PrintedOpen.of(number).stream()
            .anyMatch(p -> p.slot() >= span.from() && p.slot() <= span.to());
    if (!around && open) {
      return; // a printed "Vamp" without signs is taken back
    }
    if (!around) {
      choices.tell(
          counted.finding(
              span,
              Severity.INFO,
              "no-effect",
              "are played once in print already; this changes nothing"));
      return;
    }
    int way = around(span, "once, without the repeat", "with the repeat, as printed");
    for (int l = 0; way == 0 && l < loops.size(); l++) {
      Loop loop = loops.get(l);
      if (loop.start() >= start && loop.end() <= end && loop.open().isEmpty()) {
        counted.put(span, l, loop.counted(1));
      }
    }
  }

  /** Asks how bars around a printed repeat are played, and returns which of both ways. */
  private int around(Span span, String first, String other) {
    return counted.ask(
        span,
        "play-around",
        Topic.REPEAT,
        "have a repeat in them",
        List.of(Way.of(first), Way.of(other)));
  }

  private static boolean inOneBlock(Loop loop, int start, int end) {
    if (start < loop.start() || end > loop.end()) {
      return false;
    }
    int a = block(loop, start);
    return a == block(loop, end);
  }

  private static int block(Loop loop, int piece) {
    for (int k = 0; k < loop.parts().size(); k++) {
      Loop.Ending part = loop.parts().get(k);
      if (piece >= part.start() && piece <= part.end()) {
        return k + 1;
      }
    }
    return 0;
  }

  /** Returns whether these bars are played so often all the same. */
  private boolean crossing(Span span, int times, int start, int end) {
    String text =
        "begin inside a repeat and end outside it, or the other way round; until that is put right"
            + " the change does nothing";
    PlanFinding finding = counted.finding(span, Severity.ERROR, "crosses-repeat", text);
    List<Way> ways =
        List.of(
            Way.of("as printed"), Way.of("these bars " + CountedLoops.often(times) + ", then on"));
    int way =
        choices.ask(new Choices.Asked(finding, Topic.REPEAT, counted.name(span.from()), ways));
    if (way == 1 && times > 1) {
      counted.add(span, new Loop(start, end, times, List.of(), Optional.empty()));
    }
    return way == 1;
  }

  /** Asks of every stretch with a count whether that counts again after a jump back. */
  void afterJumps(Map<Integer, Jumps.Jump> jumps, boolean repeatsAfterJump) {
    boolean again = jumps.values().stream().anyMatch(j -> j.repeats().orElse(repeatsAfterJump));
    for (Loop loop : List.copyOf(loops)) {
      Optional<Span> span = counted.said(loop);
      boolean replayed =
          jumps.entrySet().stream()
              .anyMatch(j -> loop.end() >= j.getValue().target() && loop.start() <= j.getKey());
      if (span.isEmpty() || loop.total() < 2 || !replayed) {
        continue;
      }
      PlanFinding finding =
          counted.finding(
              span.get(), Severity.DOUBT, "play-and-jump", "sound again after a D.C. or D.S.");
      Way once = Way.of("once after the jump");
      Way often = Way.of(CountedLoops.often(loop.total()) + " again");
      List<Way> ways = again ? List.of(often, once) : List.of(once, often);
      Choices.Asked asked =
          new Choices.Asked(finding, Topic.REPEAT, counted.name(span.get().from()), ways)
              .onlyIfWaysDiffer();
      signs.afterJump(loop, again == (choices.ask(asked) == 0));
    }
  }
}
