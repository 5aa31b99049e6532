package org.barmap.plan.reference;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.barmap.plan.reference.Repeat.Kind;
import org.barmap.plan.reference.Resolved.At;
import org.barmap.plan.reference.print.Address;
import org.barmap.plan.reference.print.WrittenNumber;

/** Play times, vamps and safeties that a change adds to the printed form. */
final class Additions {

  private final WrittenNumber number;
  private final Questions questions;
  private final List<Repeat> repeats;
  private final List<Repeat.Open> opens;
  private final List<At> played = new ArrayList<>();
  private final Set<Integer> cut = new HashSet<>();

  /** Stretches that a change holds open; over a repeat it is held open in place of it. */
  private final List<At> willBeOpen = new ArrayList<>();

  Additions(
      WrittenNumber number, List<Repeat> repeats, List<Repeat.Open> printed, Questions questions) {
    this.number = number;
    this.questions = questions;
    this.repeats = new ArrayList<>(repeats);
    this.opens = new ArrayList<>(printed);
  }

  List<Repeat> repeats() {
    return repeats;
  }

  List<Repeat.Open> opens() {
    return opens;
  }

  /** Source: common practice: a repeat that begins or ends with bars that are cut is the rest. */
  void cut(List<At> cuts) {
    for (At one : cuts) {
      for (int at = one.from(); at <= one.to(); at++) {
        boolean beats =
            (at == one.from() && one.fromBeat().isPresent())
                || (at == one.to() && one.toBeat().isPresent());
        if (!beats && !one.change().has(Change.PASS)) {
          cut.add(at);
        }
      }
    }
  }

  /** Whether two bars are the same place but for bars between them that are cut. */
  private boolean alike(int one, int other, boolean atStart) {
    int from = Math.min(one, other);
    int to = Math.max(one, other);
    for (int at = atStart ? from : from + 1; at <= (atStart ? to - 1 : to); at++) {
      if (!cut.contains(at)) {
        return false;
      }
    }
    return true;
  }

  void plays(List<At> plays, List<At> heldOpen) {
    willBeOpen.addAll(heldOpen);
    List<At> longestFirst = new ArrayList<>(plays);
    longestFirst.sort(Comparator.comparingInt(p -> p.from() - p.to()));
    for (At play : longestFirst) {
      boolean twice = played.stream().anyMatch(d -> same(d, play));
      if (!twice) {
        play(play);
      }
      played.add(play);
    }
    repeats.sort(Comparator.comparingInt(Repeat::from).thenComparingInt(r -> -r.to()));
  }

  private static boolean same(At one, At two) {
    return one.from() == two.from()
        && one.to() == two.to()
        && one.change().whole("times", 0) == two.change().whole("times", 0);
  }

  private void play(At play) {
    if (alike(play.from(), play.to() + 1, true)) {
      return; // Source: common practice: bars that are out are not counted.
    }
    int times = play.change().whole("times", 1);
    for (At other : played) {
      boolean all = alike(other.from(), play.from(), true) && alike(other.to(), play.to(), false);
      if (all && times == 1 && other.change().whole("times", 0) == 1) {
        // "Once" of the repeat and "once" of all its bars say the same.
        return;
      }
      if (all) {
        ask("play-twice", play, "two counts for one stretch", "the first");
        return;
      }
    }
    for (Repeat repeat : repeats) {
      boolean round = play.from() <= repeat.from() && repeat.closesAt(play.to());
      if (repeat.kind() == Kind.OPEN && !repeat.endings().isEmpty() && round) {
        // Source: common practice: one goes round with the first ending till the cue, and the way
        // out is not in the stretch that is counted.
        ask("play-over-vamp", play, "a count over a vamp with endings", "the vamp stays");
        return;
      }
    }
    for (int k = 0; k < repeats.size(); k++) {
      Repeat repeat = repeats.get(k);
      boolean all = alike(play.from(), repeat.from(), true) && alike(play.to(), repeat.to(), false);
      if (all && repeat.kind() != Kind.OPEN && loneEndingLeft(repeat)) {
        // Source: common practice: what cuts leave of a repeat with one bracket is a plain stretch
        // when all before the bracket is out, and what the director says of it is its count.
        repeats.set(
            k, new Repeat(repeat.from(), repeat.to(), List.of(), times, Kind.PLAY_ONCE_AFTER_JUMP));
        return;
      }
      if (repeat.kind() != Kind.OPEN && leftBeforeLastEnding(repeat, play)) {
        // Source: common practice: with its other endings out, what is left before the last one is
        // a plain stretch as well, and the director has said how often it is played.
        repeats.set(
            k, new Repeat(repeat.from(), play.to(), List.of(), times, Kind.PLAY_ONCE_AFTER_JUMP));
        return;
      }
      if (repeat.endings().isEmpty() && all) {
        if (repeat.kind() == Kind.OPEN && saidInside(repeat)) {
          // Source: common practice: who counts the repeat and holds some of its bars open has said
          // all that is played there.
          opens.removeIf(o -> o.from() == repeat.from() && o.to() == repeat.to());
          repeats.set(k, repeat.times(times).kind(Kind.COUNTED));
        } else if (repeat.kind() == Kind.OPEN) {
          ask("play-over-vamp", play, "a count over a vamp", "the vamp stays");
        } else if (repeat.kind() == Kind.COUNTED && times == 1 && repeat.times() == 1) {
          // "Once" of the repeat and "once" of all its bars say the same.
          return;
        } else if (repeat.kind() == Kind.COUNTED) {
          // Source: common practice: "once" said of more bars, and a count said of the repeat.
          ask("play-twice", play, "two counts for one repeat", "the first");
        } else {
          // Source: trade.md, 3X; decided: "once" takes the repeat away. A count that the director
          // says himself is said of what he leaves in, so a cut at its edge does not question it.
          repeats.set(k, repeat.times(times).kind(Kind.COUNTED));
        }
        return;
      }
    }
    if (times == 1) {
      once(play);
    } else if (mayAdd(play, "play-over-repeat")) {
      // Source: trade.md, "3X": play three times.
      repeats.add(new Repeat(play.from(), play.to(), List.of(), times, Kind.PLAY_ONCE_AFTER_JUMP));
    }
  }

  private boolean saidInside(Repeat repeat) {
    return willBeOpen.stream().anyMatch(o -> o.from() >= repeat.from() && o.to() <= repeat.to());
  }

  private boolean loneEndingLeft(Repeat repeat) {
    return repeat.endings().size() == 1
        && alike(repeat.from(), repeat.endings().get(0).from(), true);
  }

  /** Whether a count is said of all that cuts leave of a repeat before its last ending. */
  private boolean leftBeforeLastEnding(Repeat repeat, At play) {
    if (repeat.endings().isEmpty()) {
      return false;
    }
    // Between the times of an ending nothing is played only where all before it is out.
    boolean bare = alike(repeat.from(), repeat.endings().get(0).from(), true);
    if (play.to() > repeat.bodyTo() && !bare) {
      return false;
    }
    Repeat.Ending last = repeat.endings().get(repeat.endings().size() - 1);
    boolean lone = repeat.endings().size() == 1;
    boolean goesOn = lone || (last.passes().size() == 1 && !last.back());
    int before = lone ? repeat.to() : last.from() - 1;
    return goesOn && alike(play.from(), repeat.from(), true) && alike(play.to(), before, false);
  }

  /**
   * Source: common practice (cases repeats-10, repeats-15): played once, the repeat is gone. Said
   * of more than the repeat, or of its bars before the endings only, that may be meant of it or
   * not.
   */
  private void once(At play) {
    for (int k = 0; k < repeats.size(); k++) {
      Repeat repeat = repeats.get(k);
      // Source: common practice: a repeat that begins or ends with bars that are cut is the rest.
      boolean begins = alike(play.from(), repeat.from(), true);
      boolean exactly = begins && alike(play.to(), repeat.to(), false);
      boolean around = exactly || (play.from() <= repeat.from() && play.to() >= repeat.to());
      // or with the first ending: without the repeat, one would go on from there or from the last
      boolean body =
          begins
              && (alike(play.to(), repeat.bodyTo(), false)
                  || repeat.endings().stream()
                      .anyMatch(e -> e.back() && alike(play.to(), e.to(), false)));
      if (!(around || body) || repeat.times() < 2) {
        continue;
      }
      if (exactly
          || ask("play-once-over", play, "once, with a repeat in it", "without it", "with it")
              == 0) {
        repeats.set(k, repeat.times(1).kind(repeat.kind() == Kind.OPEN ? Kind.OPEN : Kind.COUNTED));
      }
    }
  }

  /** Source: common practice: with all before its last ending out a repeat is gone as well. */
  private boolean lastEndingLeft(Repeat repeat) {
    int endings = repeat.endings().size();
    return endings > 1
        && repeat.endings().get(endings - 1).passes().size() == 1
        && alike(repeat.from(), repeat.endings().get(endings - 1).from(), true);
  }

  /** A stretch beside all repeats, or inside one block of one, is clear; else it is asked. */
  private boolean mayAdd(At stretch, String key) {
    for (Repeat repeat : repeats) {
      // A repeat that is played once is none any more.
      boolean once = repeat.times() < 2 && repeat.kind() != Kind.OPEN;
      // Source: common practice: with all its bars a repeat is gone.
      once |= alike(repeat.from(), repeat.to() + 1, true) || lastEndingLeft(repeat);
      boolean apart = once || stretch.to() < repeat.from() || stretch.from() > repeat.to();
      // Source: common practice: inside a repeat it counts in every pass.
      boolean inside =
          repeat.block(stretch.from()) >= 0
              && repeat.block(stretch.from()) == repeat.block(stretch.to());
      // Source: common practice: the last time one goes on before a first ending that stands alone.
      boolean lone = repeat.endings().size() == 1 && stretch.to() == repeat.to();
      boolean around = stretch.from() <= repeat.from() && stretch.to() >= repeat.to() && !lone;
      // Source: common practice: a vamp in a counted stretch is waited in every time round.
      boolean open =
          repeat.kind() == Kind.OPEN
              || willBeOpen.stream()
                  .anyMatch(o -> o.from() == repeat.from() && o.to() == repeat.to());
      boolean waited = around && open && key.startsWith("play");
      if (!apart && !inside && !waited) {
        // Source: decided: asked, with both readings shown.
        int reading =
            around
                ? ask(
                    key, stretch, "a stretch with a repeat in it", "with the repeat", "without it")
                : ask(key, stretch, "a stretch with half a repeat in it", "without the change");
        if (!around || reading == 1) {
          return false;
        }
      }
    }
    return true;
  }

  void opens(List<At> changes, CutRules rules, Jumps jumps, List<At> inserts) {
    List<Repeat.Open> own = new ArrayList<>();
    for (At change : changes) {
      Repeat.Open open = new Repeat.Open(change.change().kind(), change.from(), change.to());
      // Source: common practice: but for bars that are out they are the same bars.
      if (own.stream()
          .anyMatch(
              o ->
                  o.kind().equals(open.kind())
                      && alike(o.from(), open.from(), true)
                      && alike(o.to(), open.to(), false))) {
        continue;
      }
      if (own.stream().anyMatch(o -> o.from() <= open.to() && open.from() <= o.to())) {
        ask("open-overlap", change, "two open stretches share bars", "the first alone");
        continue;
      }
      if (open(change, open)) {
        own.add(open);
        exit(change, jumps);
        rules.inside(open, jumps, inserts);
      }
    }
    for (Repeat.Open printed : opens) {
      rules.inside(printed, jumps, inserts);
    }
    opens.addAll(own);
  }

  /**
   * Source: changes-1.schema.json, exitBar: the bar behind which a vamp is left the last time
   * round; common practice: one has gone round before.
   */
  private void exit(At change, Jumps jumps) {
    if (!change.change().has("exitBar")) {
      return;
    }
    List<Integer> places =
        Address.find(number, change.change().text("exitBar").orElse("")).places();
    if (places.size() != 1 || places.get(0) < change.from() || places.get(0) > change.to()) {
      ask("vamp-exit", change, "the bar to leave a vamp by is not in it", "at its end");
      return;
    }
    int out = places.get(0);
    if (out == change.to()) {
      return;
    }
    if (repeats.stream().anyMatch(r -> r.closesBetween(out, change.to()))
        || jumps.signBetween(out, change.to())) {
      ask("vamp-exit", change, "a sign stands behind the way out of a vamp", "it is not met");
    }
    repeats.removeIf(r -> r.plain(change.from(), change.to()));
    repeats.add(Repeat.leftBehind(change.from(), out, change.to()));
    repeats.sort(Comparator.comparingInt(Repeat::from).thenComparingInt(r -> -r.to()));
  }

  private boolean open(At change, Repeat.Open open) {
    for (Repeat.Open printed : List.copyOf(opens)) {
      if (printed.from() == open.from() && printed.to() == open.to()) {
        opens.remove(printed);
        return true;
      }
      if (printed.from() <= open.to() && open.from() <= printed.to()) {
        int reading =
            ask(
                "open-overlap",
                change,
                "a printed open stretch shares bars with it",
                "the printed",
                "this one instead",
                "this one instead, and the repeat is taken");
        if (reading > 0) {
          opens.remove(printed);
        }
        if (reading == 2) {
          repeats.replaceAll(
              r -> r.plain(printed.from(), printed.to()) ? r.times(2).kind(Kind.PRINTED) : r);
        }
        return reading > 0;
      }
    }
    for (int k = 0; k < repeats.size(); k++) {
      Repeat repeat = repeats.get(k);
      if (repeat.plain(change.from(), change.to())) {
        boolean counted =
            played.stream().anyMatch(p -> p.from() == change.from() && p.to() == change.to());
        if (counted) {
          ask("open-over-repeat", change, "a count and a vamp over one stretch", "the vamp");
        }
        // Source: plan-format.md: a vamp is listed once; trade.md: a safety is played once.
        repeats.set(k, repeat.open());
        return true;
      }
    }
    return mayAdd(change, "open-over-repeat");
  }

  private int ask(String key, At at, String why, String... readings) {
    return ask(key, at.from(), why, readings);
  }

  private int ask(String key, int at, String why, String... readings) {
    return questions.ask(key, number.asked(at), why, readings);
  }
}
