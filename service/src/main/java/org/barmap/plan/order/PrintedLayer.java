package org.barmap.plan.order;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import org.barmap.plan.change.effect.Rounds;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.PrintedOpen;
import org.barmap.plan.piece.Span;

/**
 * Finds the bars that a printed "Vamp" or "Safety" holds open: its own repeat, one that begins
 * under it, or the bars it names. All else is asked.
 */
final class PrintedLayer {
  /** A word stands for a longer repeat only where a person says so. */
  private static final int LONGEST = 16;

  /** Inside a repeat no longer than this, a word is rather meant for all of it than for one bar. */
  private static final int SHORT = 8;

  private final OpenLayer layer;
  private final List<Piece> pieces;
  private final List<Loop> loops;
  private final OpenQuestions questions;
  private final Map<Integer, List<Loop>> printed = new HashMap<>();
  private final Map<Integer, List<Integer>> starts = new HashMap<>();
  private int indexed;

  /** Takes the repeats as they stand in print; of those of changes none belongs to a word. */
  PrintedLayer(
      OpenLayer layer,
      List<Piece> pieces,
      List<Loop> printed,
      List<Loop> loops,
      OpenQuestions questions) {
    for (Loop loop : printed) {
      this.printed.computeIfAbsent(loop.start(), k -> new ArrayList<>(1)).add(loop);
    }
    this.layer = layer;
    this.pieces = pieces;
    this.loops = loops;
    this.questions = questions;
  }

  /** What a change says of the bar under a word, the word doesn't undo. */
  void apply(List<PrintedOpen> words, List<Span> rounds) {
    for (PrintedOpen printed : words) {
      int slot = printed.slot();
      int at = layer.pieceAt(slot);
      Optional<Loop> own = printed.to().isPresent() ? Optional.empty() : own(at);
      Optional<Span> said =
          rounds.stream()
              .filter(s -> open(s) && s.from() <= slot && s.to() >= slot)
              .filter(s -> own.isEmpty() || over(s, own.get()))
              .findFirst();
      if (said.isPresent() && own.isEmpty() && safety(said.get()) != printed.word().safety()) {
        questions.otherKind(printed, said.get());
      } else if (said.isEmpty() && !out(printed, at, own)) {
        one(printed, at, rounds);
      }
    }
  }

  /** Tells whether all is cut that a word may be said of; what is left of it is still held open. */
  private boolean out(PrintedOpen printed, int at, Optional<Loop> own) {
    int last =
        printed.to().isPresent()
            ? layer.lastAt(printed.to().getAsInt())
            : own.map(l -> l.parts().isEmpty() ? l.end() : l.parts().get(0).end()).orElse(at);
    return pieces.get(at).cut()
        && pieces.subList(at, Math.max(at, last) + 1).stream().allMatch(Piece::cut);
  }

  private static boolean safety(Span span) {
    return span.effects().rounds().filter(r -> r.until() == Rounds.Until.DIRECTOR).isPresent();
  }

  private static boolean open(Span span) {
    return span.effects().rounds().filter(r -> r.until() != Rounds.Until.COUNTED).isPresent();
  }

  private void one(PrintedOpen printed, int at, List<Span> rounds) {
    Optional<Loop> own = own(at);
    int to = printed.to().isPresent() ? layer.lastAt(printed.to().getAsInt()) : -1;
    if (to >= 0) {
      named(printed, layer.firstAt(printed.from()), to);
    } else if (own.isPresent()) {
      Optional<Span> counted =
          rounds.stream().filter(s -> !open(s) && over(s, own.get())).findFirst();
      own(printed, own.get(), counted);
    } else if (rounds.stream().noneMatch(s -> saidOf(s, printed.slot()))) {
      asked(printed, at);
    }
  }

  /**
   * A count leaves the word in its bars, which may be meant so or not; "once" from it on does not.
   */
  private static boolean saidOf(Span span, int slot) {
    boolean inside = span.from() <= slot && span.to() >= slot;
    boolean once = span.effects().rounds().filter(r -> r.times() == 1).isPresent();
    return inside && (open(span) || (span.from() == slot && once));
  }

  /** Tells whether a count is said of just these bars. */
  private boolean over(Span counted, Loop loop) {
    Piece last = pieces.get(loop.end());
    return counted.from() == pieces.get(loop.start()).slot()
        && counted.to() == last.slot() + last.count() - 1;
  }

  private void own(PrintedOpen printed, Loop loop, Optional<Span> counted) {
    boolean plain = loop.parts().isEmpty();
    int end = plain ? loop.end() : loop.parts().get(0).end();
    OpenStretch stretch = stretch(printed, loop.start(), end);
    if (counted.isPresent()) {
      Span span = counted.get();
      int said = span.effects().rounds().orElseThrow().times();
      if (questions.countedPrinted(span, stretch, said) == 0) {
        return;
      }
    }
    boolean taken = layer.held().stream().anyMatch(h -> h.meets(loop.start(), end));
    if (taken && !plain) {
      hold(loop.start(), end, stretch);
      return;
    }
    boolean sign = counted.isEmpty() && loop.total() > 2;
    OptionalInt times = sign ? OptionalInt.of(loop.total()) : printed.word().times();
    if (plain && times.isPresent() && questions.times(printed, stretch, times.getAsInt()) == 1) {
      loops.set(loops.indexOf(loop), loop.played(times.getAsInt()));
    } else if (plain) {
      hold(loop.start(), end, stretch);
    } else {
      layer.holdEndings(loop, stretch);
    }
  }

  /** Returns the repeat that begins at a piece and that its word is meant for. */
  private Optional<Loop> own(int at) {
    List<Loop> here = printed.getOrDefault(at, List.of());
    return here.isEmpty()
        ? Optional.empty()
        : startingAt(at).stream()
            .filter(l -> l.open().isEmpty())
            .filter(l -> here.stream().anyMatch(p -> p.end() == l.end()))
            .filter(l -> l.parts().isEmpty() || OpenLayer.twoEndings(l))
            .filter(l -> bars(l) <= LONGEST)
            .min((a, b) -> a.length() - b.length());
  }

  /** Loops become others in their place, and more are added; where one starts stays. */
  private List<Loop> startingAt(int at) {
    for (; indexed < loops.size(); indexed++) {
      starts.computeIfAbsent(loops.get(indexed).start(), k -> new ArrayList<>(1)).add(indexed);
    }
    return starts.getOrDefault(at, List.of()).stream().map(loops::get).toList();
  }

  private int bars(Loop loop) {
    int end = loop.parts().isEmpty() ? loop.end() : loop.parts().get(0).end();
    return pieces.get(end).slot() + pieces.get(end).count() - pieces.get(loop.start()).slot();
  }

  /** The word names its bars: they are asked only where a repeat there says otherwise. */
  private void named(PrintedOpen printed, int start, int end) {
    OpenStretch stretch = stretch(printed, start, end);
    boolean fits =
        loops.stream()
            .allMatch(
                l ->
                    end < l.start()
                        || start > l.end()
                        || (l.parts().isEmpty() && start >= l.start() && end <= l.end()));
    if (fits || questions.printed(printed, List.of(stretch)) == 0) {
      hold(start, end, stretch);
    }
  }

  private void asked(PrintedOpen printed, int at) {
    Optional<Loop> around =
        loops.stream()
            .filter(l -> l.holds(at) && l.open().isEmpty() && l.parts().isEmpty())
            .min((a, b) -> a.length() - b.length());
    List<int[]> ways = new ArrayList<>(List.of(new int[] {at, at}));
    around.ifPresent(l -> ways.add(bars(l) <= SHORT ? 0 : 1, new int[] {l.start(), l.end()}));
    List<OpenStretch> stretches =
        ways.stream().map(w -> stretch(printed, w[0], w[1])).distinct().toList();
    int way = questions.printed(printed, stretches);
    if (way < stretches.size()) {
      hold(ways.get(way)[0], ways.get(way)[1], stretches.get(way));
    }
  }

  private void hold(int start, int end, OpenStretch stretch) {
    for (Held other : layer.held()) {
      if (other.meets(start, end)) {
        questions.overlapPrinted(stretch, other.open());
        return;
      }
    }
    layer.hold(start, end, end, stretch);
  }

  private OpenStretch stretch(PrintedOpen printed, int start, int end) {
    OpenStretch.Kind kind =
        printed.word().safety() ? OpenStretch.Kind.SAFETY : OpenStretch.Kind.VAMP;
    return layer.stretch(kind, start, end, printed.word().leaving(), Optional.empty());
  }
}
