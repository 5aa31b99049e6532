package org.barmap.sign.rule;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;

/**
 * Puts the signs of the staves of one system together.
 *
 * <p>A barline counts as likely as the staves agree on it; a rest counts where every staff has one;
 * what stands over or under the system counts once.
 */
public final class JoinedStaves {

  /** Signs of two staves at most this far apart may be one; staff spaces. */
  private static final double NEAR = 1.2;

  private static final double NEAR_REST = 4;

  private JoinedStaves() {}

  /** Returns the signs of a system with those that are the same on several staves joined. */
  public static List<Sign> join(List<List<Sign>> staves) {
    if (staves.size() == 1) {
      return staves.get(0);
    }
    List<Sign> joined = new ArrayList<>();
    for (int i = 0; i < staves.size(); i++) {
      for (Sign sign : staves.get(i)) {
        if (joined.stream().noneMatch(j -> same(j, sign))) {
          joined(sign, staves, i).ifPresent(joined::add);
        }
      }
    }
    joined.sort(Comparator.comparingDouble(Sign::at));
    return List.copyOf(joined);
  }

  private static boolean same(Sign a, Sign b) {
    return a.kind() == b.kind() && Math.abs(a.at() - b.at()) < reach(a.kind());
  }

  private static double reach(SignKind kind) {
    return switch (kind) {
      case REST, MULTI_REST, BLOCK_REST, BAR_REPEAT, BAR_REPEAT_2 -> NEAR_REST;
      default -> NEAR;
    };
  }

  private static Optional<Sign> joined(Sign sign, List<List<Sign>> staves, int own) {
    boolean needsAll =
        switch (sign.kind()) {
          case REST, MULTI_REST, BLOCK_REST, BAR_REPEAT, BAR_REPEAT_2 -> true;
          default -> false;
        };
    if (!needsAll && sign.kind() != SignKind.BARLINE) {
      return Optional.of(sign);
    }
    double sum = 0;
    double least = 1;
    Sign best = sign;
    for (int i = 0; i < staves.size(); i++) {
      double p = 0;
      for (Sign other : staves.get(i)) {
        if (same(sign, other) && other.probability() > p) {
          p = other.probability();
          best = p > best.probability() ? other : best;
        }
      }
      sum += i == own ? sign.probability() : p;
      least = Math.min(least, i == own ? sign.probability() : p);
    }
    double probability = needsAll ? least : sum / staves.size();
    return probability < 0.1
        ? Optional.empty()
        : Optional.of(
            new Sign(
                best.kind(),
                best.from(),
                best.to(),
                best.top(),
                best.bottom(),
                best.outline(),
                probability,
                best.readings(),
                best.enclosure()));
  }
}
