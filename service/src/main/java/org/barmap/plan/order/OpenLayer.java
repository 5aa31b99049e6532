package org.barmap.plan.order;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.stream.IntStream;
import org.barmap.map.Navigation;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.effect.Leaving;
import org.barmap.plan.change.effect.Rounds;
import org.barmap.plan.change.term.Pass;
import org.barmap.plan.piece.Given;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.Pieces;
import org.barmap.plan.piece.Span;

/**
 * Lays vamps and safeties over the loops of a number: those of changes, then those in print. What
 * leaves more than one way is asked; the first way is gone.
 */
final class OpenLayer {
  private static final List<Navigation> ENDS =
      List.of(Navigation.DA_CAPO, Navigation.DAL_SEGNO, Navigation.TO_CODA, Navigation.FINE);

  private final Given given;
  private final WrittenNumber number;
  private final List<Piece> pieces;
  private final List<Loop> printed;
  private final List<Loop> loops;
  private final OpenQuestions questions;
  private final List<Held> held = new ArrayList<>();

  OpenLayer(
      Given given,
      List<Piece> pieces,
      List<Loop> printed,
      List<Loop> loops,
      OpenQuestions questions) {
    this.given = given;
    this.number = given.number();
    this.pieces = pieces;
    this.printed = printed;
    this.loops = loops;
    this.questions = questions;
  }

  /** Returns what is held open, in the order in which it was said; changes first. */
  List<Held> held() {
    return held;
  }

  /** A change that holds bars open, with its pieces. */
  private record Said(Span span, OpenStretch stretch, int start, int end) {
    boolean meets(Said other) {
      return start <= other.end && end >= other.start;
    }
  }

  void apply(List<Span> rounds) {
    for (Said said : said(rounds)) {
      if (mayLie(said.span(), said.stretch(), said.start(), said.end(), rounds)) {
        Held.When when = when(said);
        hold(said);
        Held now = held.get(held.size() - 1);
        held.set(held.size() - 1, new Held(now.loop(), now.last(), when));
      }
    }
    new PrintedLayer(this, pieces, printed, loops, questions).apply(given.printed(), rounds);
    held.forEach(h -> questions.inside(h, pieces, given.spans()));
  }

  /** Returns the changes that hold bars open; of those that share bars the one that holds. */
  private List<Said> said(List<Span> rounds) {
    List<Said> kept = new ArrayList<>();
    for (Span span : rounds) {
      Rounds how = span.effects().rounds().orElseThrow();
      int start = Pieces.first(pieces, span);
      int end = Pieces.last(pieces, span);
      if (how.until() == Rounds.Until.COUNTED || start < 0 || end < start) {
        continue;
      }
      OpenStretch.Kind kind =
          how.until() == Rounds.Until.CUE ? OpenStretch.Kind.VAMP : OpenStretch.Kind.SAFETY;
      OpenStretch open = stretch(kind, start, end, how.leaving(), Optional.of(span));
      Said said = new Said(span, open, start, end);
      Optional<Said> other = kept.stream().filter(said::meets).findFirst();
      if (other.isEmpty()) {
        kept.add(said);
      } else if (questions.overlap(span, said.stretch(), other.get().span(), other.get().stretch())
          == 1) {
        kept.set(kept.indexOf(other.get()), said);
      }
    }
    return kept;
  }

  /** A vamp in bars that a repeat plays more than once is one each time, until that is said. */
  private Held.When when(Said said) {
    boolean plain = said.stretch().leaving().exitBar().isEmpty();
    boolean again =
        loops.stream().anyMatch(l -> l.open().isEmpty() && times(l, said.start(), said.end()) > 1);
    Optional<Pass> pass = said.span().effects().rounds().flatMap(r -> r.pass());
    if (pass.isPresent()) {
      if (!plain) {
        questions.oneWay(said.span(), said.stretch());
      }
      return plain ? new Held.When(pass) : Held.When.EVERY_TIME;
    }
    boolean vamp = said.stretch().kind() == OpenStretch.Kind.VAMP;
    return vamp && plain && again
        ? Held.When.ANSWERS.get(questions.passes(said.span(), said.stretch()))
        : Held.When.EVERY_TIME;
  }

  /** How often a loop plays bars that lie in it; 0 for others and for the loop's own bars. */
  private static int times(Loop loop, int start, int end) {
    if (!within(loop, start, end) || start == loop.start() && end == loop.end()) {
      return 0;
    }
    return loop.parts().stream()
        .filter(p -> start >= p.start() && end <= p.end())
        .findFirst()
        .map(p -> Math.min(p.passes().size(), loop.total()))
        .orElse(loop.total());
  }

  private void hold(Said said) {
    Leaving leaving = said.stretch().leaving();
    OptionalInt exit = given.exit(said.span());
    if (leaving.exitBar().isPresent() && exit.isEmpty()) {
      questions.exit(said.span(), said.stretch());
    }
    if (exit.isPresent() && leavesBeforeSign(lastAt(exit.getAsInt()), said.end())) {
      questions.exitBeforeSign(said.span(), said.stretch());
    }
    // out on a beat of a bar, nobody knows whether a whole pass comes before
    boolean whole = exit.isEmpty() || leaving.exitBeat().isPresent();
    hold(said.start(), said.end(), whole ? said.end() : lastAt(exit.getAsInt()), said.stretch());
  }

  /** Tells whether a repeat around it, or a jump, would be taken behind the way out of a vamp. */
  private boolean leavesBeforeSign(int exit, int end) {
    boolean repeat =
        loops.stream()
            .filter(l -> l.total() > 1 && l.open().isEmpty() && l.holds(exit))
            .flatMapToInt(OpenLayer::waysBack)
            .anyMatch(back -> back > exit && back <= end);
    boolean sign = false;
    for (int i = exit + 1; i <= end; i++) {
      sign |= ENDS.stream().anyMatch(pieces.get(i)::endsWith);
    }
    return repeat || sign;
  }

  private static IntStream waysBack(Loop loop) {
    return loop.parts().isEmpty()
        ? IntStream.of(loop.end())
        : loop.parts().stream().filter(Loop.Ending::closes).mapToInt(Loop.Ending::end);
  }

  /** Tells whether the bars fit the repeats that are there; where they don't, that is asked. */
  private boolean mayLie(Span span, OpenStretch stretch, int start, int end, List<Span> rounds) {
    for (Loop loop : List.copyOf(loops)) {
      boolean apart = end < loop.start() || start > loop.end() || loop.gone();
      boolean same = loop.parts().isEmpty() && start == loop.start() && end == loop.end();
      if (apart || within(loop, start, end) && !same) {
        continue;
      }
      if (same) {
        Optional<Span> counted =
            rounds.stream()
                .filter(
                    r ->
                        r.effects().rounds().orElseThrow().until() == Rounds.Until.COUNTED
                            && r.from() == span.from()
                            && r.to() == span.to())
                .findFirst();
        if (counted.isPresent()
            && questions.counted(span, stretch, counted.get(), loop.total()) == 1) {
          return false;
        }
      } else if (start == loop.start() && endsRound(loop, end)) {
        if (questions.endings(span, stretch) == 0) {
          holdEndings(loop, stretch);
        }
        return false;
      } else if (start <= loop.start() && end >= loop.end()) {
        if (questions.around(span, stretch, named(loop)) == 1) {
          loops.set(loops.indexOf(loop), loop.once());
        }
      } else {
        questions.crosses(span, stretch, named(loop));
        return false;
      }
    }
    return true;
  }

  /** Tells whether all of it lies in one block: in the body, or in one of the endings. */
  private static boolean within(Loop loop, int start, int end) {
    if (loop.parts().isEmpty()) {
      return start >= loop.start() && end <= loop.end();
    }
    int body = loop.parts().get(0).start();
    boolean inBody = start >= loop.start() && end < body;
    return inBody || loop.parts().stream().anyMatch(p -> start >= p.start() && end <= p.end());
  }

  /** Tells whether one time round a loop with two endings ends there: with the first of them. */
  static boolean endsRound(Loop loop, int end) {
    return twoEndings(loop) && end == loop.parts().get(0).end();
  }

  /** Tells whether a loop has an ending to go round with, and one way out. */
  static boolean twoEndings(Loop loop) {
    List<Loop.Ending> parts = loop.parts();
    return !parts.isEmpty()
        && parts.size() <= 2
        && parts.get(0).closes()
        && parts.get(0).passes().equals(Set.of(1))
        && loop.total() == 2;
  }

  /** Holds pieces open, left behind one of them the last time round. */
  void hold(int start, int end, int exit, OpenStretch stretch) {
    Loop open =
        exit == end
            ? new Loop(start, end, 1, List.of(), Optional.of(stretch))
            : new Loop(
                start,
                end,
                2,
                List.of(new Loop.Ending(exit + 1, end, Set.of(1), true)),
                Optional.of(stretch));
    for (int l = 0; l < loops.size(); l++) {
      Loop loop = loops.get(l);
      if (loop.start() == start && loop.end() == end && loop.parts().isEmpty()) {
        loops.set(l, open);
        held.add(new Held(open, end, Held.When.EVERY_TIME));
        return;
      }
    }
    loops.add(open);
    held.add(new Held(open, end, Held.When.EVERY_TIME));
  }

  /** Goes round with the first ending, and out through the second. */
  void holdEndings(Loop loop, OpenStretch stretch) {
    Loop open = loop.heldOpen(stretch);
    loops.set(loops.indexOf(loop), open);
    held.add(new Held(open, loop.parts().get(0).end(), Held.When.EVERY_TIME));
  }

  /** Returns pieces held open, as they are written down. */
  OpenStretch stretch(
      OpenStretch.Kind kind, int start, int end, Leaving leaving, Optional<Span> said) {
    Piece first = pieces.get(start);
    Piece last = pieces.get(end);
    boolean added = last.added().isPresent();
    int from = first.added().isPresent() ? 1 : inEntry(first.slot());
    int whole = added ? 1 : number.barAt(last.slot()).count();
    int to = added ? 1 : inEntry(last.slot() + last.count() - 1);
    return new OpenStretch(
        kind,
        first.bar().id(),
        last.bar().id(),
        from > 1 ? Optional.of(from) : Optional.empty(),
        to < whole ? Optional.of(to) : Optional.empty(),
        named(first.slot(), last.slot() + last.count() - 1),
        leaving,
        said.flatMap(s -> s.effects().rounds()).flatMap(Rounds::pass),
        List.of(),
        said.map(s -> s.change().meta().id()));
  }

  /** Which bar of its entry a slot is, 1 for the first; also where changes took the entry apart. */
  private int inEntry(int slot) {
    return slot - number.starts()[number.entryAt(slot)] + 1;
  }

  private String named(Loop loop) {
    Piece last = pieces.get(loop.end());
    return named(pieces.get(loop.start()).slot(), last.slot() + last.count() - 1);
  }

  private String named(int from, int to) {
    String first = number.nameAt(from);
    return from == to ? first : first + "-" + number.nameAt(to);
  }

  /** Returns the written piece that begins at a slot. */
  int firstAt(int slot) {
    int i = Pieces.firstAt(pieces, slot);
    while (pieces.get(i).inserted().isPresent()) {
      i++;
    }
    return i;
  }

  /** Returns the written piece that ends with a slot. */
  int lastAt(int slot) {
    return pieceAt(slot);
  }

  /** Returns the piece that begins at a slot or holds it. */
  int pieceAt(int slot) {
    int i = Pieces.firstAt(pieces, slot + 1) - 1;
    while (i > 0 && pieces.get(i).inserted().isPresent()) {
      i--;
    }
    return i;
  }
}
