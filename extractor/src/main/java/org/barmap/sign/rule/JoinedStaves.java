package org.barmap.sign.rule;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.set.RestSettings;
import org.barmap.sign.set.SignSettings;

/**
 * Puts the signs of the staves of one system together.
 *
 * <p>A barline counts as likely as the staves agree on it; a rest counts where every staff has one;
 * what stands over or under the system counts once.
 */
public final class JoinedStaves {

  private static final RestSettings.Staves SET = SignSettings.STANDARD.rest().staves();

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
    return NoteInk.isRest(kind) ? SET.nearRest() : SET.near();
  }

  private static Optional<Sign> joined(Sign sign, List<List<Sign>> staves, int own) {
    boolean needsAll = NoteInk.isRest(sign.kind());
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
    return probability < SET.least() ? Optional.empty() : Optional.of(best.likely(probability));
  }
}
