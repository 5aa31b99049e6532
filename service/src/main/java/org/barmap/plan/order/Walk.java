package org.barmap.plan.order;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.barmap.map.Navigation;
import org.barmap.map.Severity;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.PlayedPiece;
import org.barmap.plan.piece.Round;

/** Goes through the pieces as a player does, one after the other, and notes what sounds. */
final class Walk {

  /** No number is longer than this; a form that goes on is broken off with a finding. */
  static final int MOST_STEPS = 100_000;

  private static final int[] NO_LOOPS = {};

  private final List<Piece> pieces;
  private final List<Loop> loops;
  private final Map<Integer, Jumps.Jump> jumps;
  private final Signs signs;
  private final boolean repeatsAfterJump;
  private boolean again;
  private final int[][] startsAt;
  private final int[][] closesAt;
  private final Map<Integer, List<int[]>> partsAt = new HashMap<>();
  private final int[] pass;
  private final List<Integer> active = new ArrayList<>();
  private final int[] heard;
  private final Set<Integer> jumped = new HashSet<>();
  private final List<PlayedPiece> steps = new ArrayList<>();
  private final List<Piece> passed = new ArrayList<>();
  private int replayedUpTo = -1;
  private int toCoda = -1;
  private int coda = -1;
  private boolean fine;
  private boolean outOfCut;

  Walk(
      List<Piece> pieces,
      List<Loop> loops,
      Map<Integer, Jumps.Jump> jumps,
      Signs signs,
      boolean repeatsAfterJump) {
    this.pieces = pieces;
    this.loops = loops.stream().sorted((a, b) -> a.length() - b.length()).toList();
    this.jumps = jumps;
    this.signs = signs;
    this.repeatsAfterJump = repeatsAfterJump;
    this.again = repeatsAfterJump;
    this.pass = new int[loops.size()];
    this.heard = new int[pieces.size()];
    this.startsAt = index(true);
    this.closesAt = index(false);
    for (int l = 0; l < this.loops.size(); l++) {
      for (int p = 0; p < this.loops.get(l).parts().size(); p++) {
        int start = this.loops.get(l).parts().get(p).start();
        partsAt.computeIfAbsent(start, k -> new ArrayList<>(1)).add(new int[] {l, p});
      }
    }
  }

  private void setPass(int loop, int now) {
    if (pass[loop] == 0 && now > 0) {
      active.add(loop);
    }
    pass[loop] = now;
  }

  /** For each piece the loops that start, or may go back, there; inner ones first. */
  private int[][] index(boolean starts) {
    int[][] lists = new int[pieces.size()][];
    Arrays.fill(lists, NO_LOOPS);
    for (int l = 0; l < loops.size(); l++) {
      Loop loop = loops.get(l);
      if (starts) {
        append(lists, loop.start(), l);
      } else if (loop.parts().isEmpty()) {
        append(lists, loop.end(), l);
      } else {
        for (Loop.Ending part : loop.parts()) {
          if (part.closes()) {
            append(lists, part.end(), l);
          }
        }
      }
    }
    return lists;
  }

  private static void append(int[][] lists, int at, int loop) {
    int[] longer = Arrays.copyOf(lists[at], lists[at].length + 1);
    longer[longer.length - 1] = loop;
    lists[at] = longer;
  }

  List<PlayedPiece> steps() {
    return steps;
  }

  List<Piece> passed() {
    return passed;
  }

  void run(List<PlanFinding> findings) {
    int at = 0;
    int visits = 0;
    while (at >= 0 && at < pieces.size()) {
      if (++visits > MOST_STEPS) {
        findings.add(
            PlanFinding.form(
                Severity.ERROR,
                pieces.get(at).bar().id(),
                "too-long",
                "With its repeats this number is longer than "
                    + MOST_STEPS
                    + " entries; the order stops here"));
        return;
      }
      enter(at);
      int skip = skipEnding(at);
      if (skip > at) {
        outOfCut = outOfCut && allCut(at, skip);
        at = go(at, skip);
      } else {
        at = sound(at);
      }
    }
  }

  private boolean allCut(int from, int to) {
    return pieces.subList(from, to).stream().allMatch(Piece::cut);
  }

  private void enter(int at) {
    for (int l : startsAt[at]) {
      if (pass[l] == 0) {
        setPass(l, firstPass(l, at));
      }
    }
  }

  private int firstPass(int loop, int at) {
    Loop entered = loops.get(loop);
    // a vamp goes on till its cue after a jump as well, whatever repeats do
    boolean replayed =
        at <= replayedUpTo && entered.open().isEmpty() && !signs.again(entered, again);
    boolean plain =
        signs.plainAgain().stream()
            .anyMatch(s -> s.holds(entered.start()) && s.holds(entered.end()) && inLaterPass(s));
    return replayed || plain ? entered.total() : 1;
  }

  /** A printed repeat that a change has put another in the place of is not walked. */
  private boolean inLaterPass(Loop loop) {
    int at = placeOf(loop);
    return at >= 0 && pass[at] > 1;
  }

  /** Returns the place of a loop among those walked; -1 where it is none of them. */
  private int placeOf(Loop loop) {
    for (int l : startsAt[loop.start()]) {
      if (loops.get(l).equals(loop)) {
        return l;
      }
    }
    return -1;
  }

  /** Returns where to go on when an ending that starts here isn't for this pass. */
  private int skipEnding(int at) {
    for (int[] here : partsAt.getOrDefault(at, List.of())) {
      int l = here[0];
      Loop.Ending part = loops.get(l).parts().get(here[1]);
      if (!part.passes().contains(pass[l])) {
        boolean landed = outOfCut && here[1] > 0;
        if (!landed) {
          return part.end() + 1;
        }
        setPass(l, part.passes().stream().mapToInt(v -> v).min().orElse(pass[l]));
      }
    }
    return at;
  }

  private int sound(int at) {
    Piece piece = pieces.get(at);
    boolean whole = playedWhole(at);
    if (piece.cut() && !whole) {
      passed.add(piece);
      outOfCut = true;
    } else {
      outOfCut = false;
      heard[at]++;
      steps.add(PlayedPiece.of(whole ? piece.uncut() : piece, at, heard[at], round(at)));
    }
    if (signsCut(at)) {
      return go(at, at + 1); // the signs at its end lie in the cut
    }
    if (signs.isEarly(at) && (fine && Jumps.ends(piece, Navigation.FINE) || at == toCoda)) {
      return leaveBy(at);
    }
    for (int l : closesAt[at]) {
      if (pass[l] > 0 && pass[l] < loops.get(l).total()) {
        pass[l]++;
        leaveAllBut(l);
        return loops.get(l).start();
      }
    }
    if (fine && Jumps.ends(piece, Navigation.FINE)) {
      return -1;
    }
    if (at == toCoda && !goesBackLater(at)) {
      return leaveBy(at);
    }
    Jumps.Jump jump = jumps.get(at);
    boolean now = signs.isEarly(at) || !goesBackLater(at);
    if (jump != null && now && jumped.add(at)) {
      again = jump.repeats().orElse(repeatsAfterJump);
      toCoda = jump.toCoda();
      coda = jump.coda();
      fine = jump.fine() && jump.toCoda() < 0;
      replayedUpTo = at;
      return jumpTo(jump.target());
    }
    return go(at, at + 1);
  }

  /** On to the coda, or the end. */
  private int leaveBy(int at) {
    if (at != toCoda) {
      return -1;
    }
    toCoda = -1;
    replayedUpTo = -1;
    fine = true;
    return jumpTo(coda);
  }

  /** Returns which time through the innermost repeat around a piece it is. */
  private Round round(int at) {
    int inner = -1;
    for (int l : active) {
      boolean around = pass[l] > 0 && loops.get(l).total() > 1 && loops.get(l).holds(at);
      inner = around && (inner < 0 || l < inner) ? l : inner;
    }
    return inner < 0
        ? new Round(0, 0, !jumped.isEmpty())
        : new Round(pass[inner], loops.get(inner).total(), !jumped.isEmpty());
  }

  /** Tells whether a piece is cut in another pass than this. */
  private boolean playedWhole(int at) {
    Loop loop = signs.lastTime().get(at);
    if (loop == null) {
      return false;
    }
    int l = placeOf(loop);
    return l >= 0 && pass[l] > 0 && pass[l] < loop.total();
  }

  private boolean signsCut(int at) {
    return pieces.get(at).endCut() && !signs.kept(at);
  }

  /** Tells whether a repeat around a piece still goes back to before it in this pass. */
  private boolean goesBackLater(int at) {
    for (int l : active) {
      Loop loop = loops.get(l);
      if (!loop.holds(at) || pass[l] == 0 || pass[l] >= loop.total()) {
        continue;
      }
      if (loop.parts().isEmpty()) {
        if (!signsCut(loop.end())) {
          return true;
        }
        continue;
      }
      for (Loop.Ending part : loop.parts()) {
        boolean mine = part.passes().contains(pass[l]) && part.closes() && part.end() > at;
        if (mine && !signsCut(part.end())) {
          return true;
        }
      }
    }
    return false;
  }

  private int go(int from, int to) {
    active.removeIf(l -> left(l, from, to));
    return to;
  }

  private void leaveAllBut(int loop) {
    Loop back = loops.get(loop);
    active.removeIf(
        l -> {
          boolean inside =
              l < loop && loops.get(l).start() >= back.start() && loops.get(l).end() <= back.end();
          pass[l] = inside ? 0 : pass[l];
          return inside;
        });
  }

  private boolean left(int loop, int from, int to) {
    boolean out = loops.get(loop).holds(from) && !loops.get(loop).holds(to);
    pass[loop] = out ? 0 : pass[loop];
    return out;
  }

  /** Who lands in an ending plays it, whatever time that is. */
  private int landing(int loop, int target) {
    int first = firstPass(loop, target);
    for (Loop.Ending part : loops.get(loop).parts()) {
      boolean in = target >= part.start() && target <= part.end();
      if (in && !part.passes().contains(first)) {
        return part.passes().stream().mapToInt(p -> p).min().orElse(first);
      }
    }
    return first;
  }

  private int jumpTo(int target) {
    active.forEach(l -> pass[l] = 0);
    active.clear();
    for (int l = 0; l < loops.size(); l++) {
      if (loops.get(l).holds(target) && loops.get(l).start() < target) {
        setPass(l, landing(l, target));
      }
    }
    outOfCut = false;
    return target;
  }
}
