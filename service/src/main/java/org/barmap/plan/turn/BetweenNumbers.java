package org.barmap.plan.turn;

import java.util.Optional;
import org.barmap.plan.change.term.Figures;
import org.barmap.plan.order.Following;
import org.barmap.plan.order.Timeline;
import org.barmap.plan.pace.Gap;
import org.barmap.plan.pace.Length;

/**
 * The time from the last note of a number to the first of the next: the rest the one ends with,
 * what lies between them, the rest the other begins with.
 *
 * @param out the rest at the end of the one before
 * @param in the rest at the start of the one that follows
 * @param following what lies between
 */
public record BetweenNumbers(Length out, Length in, Following following) {

  /** Returns the time between two stretches that are not joined. */
  public static BetweenNumbers of(Timeline before, Timeline after, Following following) {
    int end = before.events().size();
    Optional<Gap> tail =
        before.gaps().stream()
            .filter(g -> g.to() >= before.end(end - 1) - Figures.SAME)
            .findFirst();
    Optional<Gap> head = after.gaps().stream().filter(g -> g.from() <= Figures.SAME).findFirst();
    return new BetweenNumbers(
        tail.map(g -> before.partOf(g, end, true)).orElse(Length.none()),
        head.map(g -> after.partOf(g, 0, false)).orElse(Length.none()),
        following);
  }

  /** Returns bars and beats without notes; seconds only where all of it is known. */
  public Length length() {
    Length counted = out.plus(in);
    Optional<Double> seconds =
        following.tacet() > 0
            ? Optional.empty()
            : following.seconds().flatMap(s -> counted.seconds().map(c -> c + s));
    return new Length(counted.bars(), counted.beats(), seconds);
  }

  /** Returns whether there is time for what needs so many seconds, and a quick way so many. */
  public Verdict verdict(double needed, double quick) {
    double known =
        out.seconds().orElse(0.0) + in.seconds().orElse(0.0) + following.seconds().orElse(0.0);
    if (following.apart() || known + Figures.SAME >= needed) {
      return Verdict.TIME;
    }
    if (length().seconds().isEmpty()) {
      return Verdict.UNKNOWN;
    }
    return known + Figures.SAME >= quick ? Verdict.QUICK : Verdict.NONE;
  }

  /** Returns why it is not known whether there is time; empty where it is. */
  Optional<String> unknown(Verdict verdict) {
    return verdict == Verdict.UNKNOWN ? Optional.of(following.says()) : Optional.empty();
  }
}
