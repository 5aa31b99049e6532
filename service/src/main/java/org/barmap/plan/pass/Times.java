package org.barmap.plan.pass;

import java.util.List;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import org.barmap.plan.change.term.Pass;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.PlayedPiece;

/** How often the pieces of a number are played, and whether in a repeat or after a jump. */
final class Times {
  private final int[] total;
  private final int[] last;
  private final boolean[] repeated;
  private final boolean[] again;

  Times(List<Piece> pieces, List<PlayedPiece> walked) {
    this.total = new int[pieces.size()];
    this.last = new int[pieces.size()];
    this.repeated = new boolean[pieces.size()];
    this.again = new boolean[pieces.size()];
    int order = 0;
    for (PlayedPiece step : walked) {
      int at = step.index();
      total[at]++;
      last[at] = order++;
      repeated[at] |= step.round().of() > 1;
      again[at] |= step.round().afterJump();
    }
  }

  int total(int piece) {
    return total[piece];
  }

  boolean repeated(int piece) {
    return repeated[piece];
  }

  boolean again(int piece) {
    return again[piece];
  }

  /** Tells whether a piece is played once, and there is no other time it could have come. */
  boolean once(int piece) {
    return total[piece] == 1 && !repeated[piece];
  }

  /** Returns the first piece of a rule that is played: what is out for good has no times. */
  int begins(PassedBars rule) {
    int begins = rule.first();
    while (begins < rule.last() && total[begins] == 0) {
      begins++;
    }
    return begins;
  }

  /**
   * Tells whether a pass is said of bars that come more than once and of others that come once.
   * "The last time" of bars that lead out of a repeat, or of a D.C., holds on behind it.
   */
  boolean partly(PassedBars rule, Pass pass) {
    int begins = begins(rule);
    boolean often = any(rule, i -> total[i] > 1 || repeated[i]);
    boolean once = any(rule, this::once);
    boolean leadsOut =
        pass.equals(Pass.LAST)
            && !once(begins)
            && !any(rule, i -> once(i) && last[i] < last[begins]);
    return often && once && !leadsOut;
  }

  static boolean any(PassedBars rule, IntPredicate is) {
    return IntStream.rangeClosed(rule.first(), rule.last()).anyMatch(is);
  }
}
