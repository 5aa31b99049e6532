package org.barmap.plan.reference;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.Meter;
import org.barmap.plan.reference.Jumps.Jump;
import org.barmap.plan.reference.print.WrittenNumber;

/** A finger on the page: bar after bar, doing what the signs at the end of each bar say. */
final class Walk {

  /** A walk longer than this is going round in circles. */
  private static final int LONGEST = 100_000;

  /**
   * The finger on one bar, sounding or not.
   *
   * @param inserted what an inserted bar is called, empty for a written one
   * @param pass of the innermost repeat it lies in, 1 outside
   * @param times how many passes that repeat has
   * @param sounds false where the bar is cut
   * @param ahead an inserted bar that comes before the bar of the book
   * @param left what is out of a bar that sounds
   * @param afterJump whether a D.C. or D.S. was taken before
   * @param meter of a bar that is added, its own
   */
  record Step(
      int at,
      String inserted,
      boolean ahead,
      int pass,
      int times,
      boolean sounds,
      Cuts.Left left,
      boolean afterJump,
      Optional<Meter> meter) {}

  private final WrittenNumber number;
  private final List<Repeat> repeats;
  private final Jumps jumps;
  private final Cuts cuts;
  private final List<Insertion> insertions;
  private final int[] pass;
  private final List<Step> steps = new ArrayList<>();
  private final Set<Jump> taken = new HashSet<>();
  private boolean jumped;
  private boolean inCoda;
  private int reached = -1;
  private int reachedAtJump = -1;

  Walk(
      WrittenNumber number,
      List<Repeat> repeats,
      Jumps jumps,
      Cuts cuts,
      List<Insertion> insertions) {
    this.number = number;
    this.repeats = repeats;
    this.jumps = jumps;
    this.cuts = cuts;
    this.insertions = insertions;
    this.pass = new int[repeats.size()];
  }

  List<Step> walk(Questions questions) {
    int at = 0;
    startRepeats(0, -1);
    ahead(0);
    while (at < number.size()) {
      if (steps.size() > LONGEST) {
        questions.ask("endless", number.label(), "the walk does not end", "cut short");
        break;
      }
      reached = Math.max(reached, at);
      step(at);
      insert(at, false);
      int next = next(at);
      if (next == at + 1) {
        insert(at, true);
      }
      if (next > at) {
        ahead(next);
      }
      at = next;
    }
    return steps;
  }

  private void step(int at) {
    int[] now = passAt(at);
    boolean sounds = !cuts.gone(at, now[0], now[1]);
    Cuts.Left left = sounds ? cuts.left(at, now[0], now[1]) : Cuts.Left.NOTHING;
    int times = times(at, now[1]);
    steps.add(new Step(at, "", false, now[0], times, sounds, left, jumped, Optional.empty()));
  }

  private void insert(int at, boolean behindSign) {
    int[] now = passAt(at);
    for (Insertion insertion : insertions) {
      boolean behind = insertion.host() == insertion.after();
      if (behind && insertion.after() == at && insertion.behindSign() == behindSign) {
        add(insertion, now);
      }
    }
  }

  /** Bars added before a bar sound wherever one goes on into it. */
  private void ahead(int next) {
    for (Insertion insertion : insertions) {
      if (insertion.host() == next && insertion.after() < next) {
        add(insertion, passAt(next - 1));
      }
    }
  }

  private void add(Insertion insertion, int[] now) {
    int host = insertion.host();
    boolean ahead = host > insertion.after();
    for (String name : insertion.names()) {
      Cuts.Left whole = Cuts.Left.NOTHING;
      Optional<Meter> own = insertion.meter();
      steps.add(new Step(host, name, ahead, now[0], now[1], true, whole, jumped, own));
    }
  }

  private int[] passAt(int at) {
    Repeat inner = Cuts.innermost(repeats, at);
    if (inner == null) {
      return jumps.twice(at) ? new int[] {jumped ? 2 : 1, 2} : new int[] {1, 1};
    }
    return new int[] {pass[repeats.indexOf(inner)], inner.lastPass()};
  }

  /** How often one goes round in a vamp nobody knows, and a repeat that is played once is none. */
  private int times(int at, int passes) {
    Repeat inner = Cuts.innermost(repeats, at);
    boolean goes = inner == null || (inner.kind() != Repeat.Kind.OPEN && inner.times() > 1);
    return goes ? passes : 1;
  }

  /** Where the finger goes from the end of a bar. */
  private int next(int at) {
    // Source: oracles.md, Order of play: a repeat is done before a D.C. at the same bar.
    for (int k = repeats.size() - 1; k >= 0; k--) {
      Repeat repeat = repeats.get(k);
      if (repeat.closesAt(at) && repeatable(repeat) && pass[k] < repeat.lastPass()) {
        pass[k]++;
        startRepeats(repeat.from(), k);
        return repeat.from();
      }
    }
    // Source: barmap-format.md, Conventions: to-coda and fine count at the end of their bar, after
    // a jump (oracles.md, Order of play).
    if (jumped && !inCoda && at == jumps.toCoda()) {
      inCoda = true;
      restart(jumps.coda());
      return jumps.coda();
    }
    if (jumped && at == jumps.fine()) {
      return number.size();
    }
    for (Jump jump : jumps.jumps()) {
      if (jump.at() == at && !taken.contains(jump) && (jump.early() || lastPasses(at))) {
        // Source: oracles.md, Order of play: a D.C. or D.S. is taken once.
        taken.add(jump);
        jumped = true;
        reachedAtJump = reached;
        restart(jump.target());
        return jump.target();
      }
    }
    int next = intoEnding(at);
    startRepeats(next, -1);
    return next;
  }

  private boolean lastPasses(int at) {
    for (int k = 0; k < repeats.size(); k++) {
      Repeat repeat = repeats.get(k);
      if (repeat.holds(at) && repeatable(repeat) && pass[k] < repeat.lastPass()) {
        return false;
      }
    }
    return true;
  }

  // Source: oracles.md, Order of play: no repeats after a D.C. or D.S. unless "with repeats"
  // (common practice); what sounds for the first time behind the jump is repeated as ever.
  private boolean repeatable(Repeat repeat) {
    boolean old = jumped && repeat.to() <= reachedAtJump;
    // Source: common practice: a vamp goes on till its cue after a jump as well.
    boolean again =
        repeat.kind() == Repeat.Kind.OPEN
            || jumps.withRepeats()
            || repeat.kind() == Repeat.Kind.PLAY_AGAIN_AFTER_JUMP;
    return repeat.times() > 1 && (!old || again);
  }

  // Source: common practice: where repeats are not taken, the last ending is played.
  private int firstPass(Repeat repeat) {
    return repeatable(repeat) ? 1 : repeat.lastPass();
  }

  /**
   * Begins the repeats that start at a bar; going back in one leaves those around it as they are.
   */
  private void startRepeats(int at, int goingBack) {
    for (int k = 0; k < repeats.size(); k++) {
      Repeat repeat = repeats.get(k);
      boolean inside =
          goingBack < 0 || (k > goingBack && repeat.to() <= repeats.get(goingBack).to());
      if (repeat.from() == at && k != goingBack && inside) {
        pass[k] = firstPass(repeat);
      }
    }
  }

  private void restart(int target) {
    for (int k = 0; k < repeats.size(); k++) {
      if (repeats.get(k).to() >= target) {
        pass[k] = firstPass(repeats.get(k));
      }
    }
  }

  // Source: oracles.md, Order of play, first and second endings.
  private int intoEnding(int at) {
    int next = at + 1;
    // Who leaves a repeat inside another comes to the other's endings as by any other way.
    for (int k = repeats.size() - 1; k >= 0; k--) {
      Repeat repeat = repeats.get(k);
      if (!repeat.holds(at) || repeat.endings().isEmpty() || next > number.size()) {
        continue;
      }
      int here = repeat.block(at);
      int there = repeat.block(next);
      if (there > 0 && here == 0) {
        int ending = repeat.endingOf(pass[k]);
        next = ending < 0 ? repeat.to() + 1 : repeat.endings().get(ending).from();
      } else if (there > 0 && here != there) {
        next = repeat.to() + 1;
      }
    }
    return next;
  }
}
