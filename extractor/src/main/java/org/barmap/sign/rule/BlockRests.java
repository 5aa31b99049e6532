package org.barmap.sign.rule;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalInt;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.set.RestSettings;
import org.barmap.sign.set.SignSettings;
import org.barmap.sign.strip.StripImage;

/**
 * Adds up the blocks of an old rest of several bars, so that they support one reading of its
 * numeral.
 *
 * <p>Common practice: they hang from the fourth line, and one of half a space is one bar, one down
 * to the third line two, one down to the second line four; they add up.
 */
public final class BlockRests {

  private static final RestSettings.Sums SET = SignSettings.STANDARD.rest().sums();

  private static final int FINE = StripImage.FINE;

  private static final int DARK = SignSettings.STANDARD.ink().dark();

  /** One in so many columns at either side of a block is left out. */
  private static final int SIDES = 5;

  /** Bars of the deepest block. */
  private static final int FOUR = 4;

  private BlockRests() {}

  /** Lets the blocks under each numeral speak for the reading they add up to. */
  public static List<Sign> summed(StripImage strip, List<Sign> signs) {
    List<Sign> all = new ArrayList<>(signs);
    for (int i = 0; i < signs.size(); i++) {
      Sign s = signs.get(i);
      if (s.kind() == SignKind.COUNT || s.kind() == SignKind.BAR_NUMBER) {
        numeral(strip, all, i);
      }
    }
    return all;
  }

  /** Weighs one numeral; a number is only a count where it says what blocks beside it add up to. */
  private static void numeral(StripImage strip, List<Sign> all, int at) {
    Sign numeral = all.get(at);
    boolean count = numeral.kind() == SignKind.COUNT;
    List<Sign> rests =
        all.stream()
            .filter(r -> r.kind() == SignKind.BLOCK_REST && SecondLook.near(numeral, r))
            .toList();
    boolean thick =
        all.stream().anyMatch(r -> r.kind() == SignKind.MULTI_REST && SecondLook.near(numeral, r));
    // what reads like no numeral is none, whatever stands below
    if (thick || numeral.readings().isEmpty() || (rests.isEmpty() && !count)) {
      return;
    }
    double from = rests.stream().mapToDouble(Sign::from).min().orElse(numeral.at() - SET.around());
    double to = rests.stream().mapToDouble(Sign::to).max().orElse(numeral.at() + SET.around());
    OptionalInt sum = sum(strip, from - SET.beside(), to + SET.beside());
    boolean narrower = says(numeral, sum);
    boolean wider = says(numeral, sum(strip, from - SET.farther(), to + SET.farther()));
    if (narrower || wider) {
      all.set(at, surer(numeral.as(SignKind.COUNT)));
      rests.forEach(r -> all.set(all.indexOf(r), surer(r)));
      if (rests.isEmpty()) {
        all.add(numeral.as(SignKind.BLOCK_REST).likely(SET.match()).saying(List.of()));
      }
    } else if (sum.isPresent() && !rests.isEmpty() && count) {
      all.set(at, numeral.saying(saying(numeral.readings(), sum.getAsInt())));
    }
  }

  /** A sum of two bars or more that a numeral says as well. */
  private static boolean says(Sign numeral, OptionalInt sum) {
    return sum.orElse(0) > 1 && numeral.text().equals(Integer.toString(sum.orElse(0)));
  }

  private static Sign surer(Sign s) {
    return s.likely(1 - (1 - s.probability()) * (1 - SET.match()));
  }

  /** The readings as the blocks weigh them; what they add up to may be none of them. */
  private static List<Reading> saying(List<Reading> readings, int sum) {
    String own = Integer.toString(sum);
    double listed = readings.stream().mapToDouble(Reading::probability).sum();
    double left = Math.max(0, 1 - listed) / SET.others();
    double wrong = (1 - SET.right()) / SET.others();
    List<Reading> weighed = new ArrayList<>();
    double whole = Math.max(0, 1 - listed) * wrong;
    for (Reading r : readings) {
      double p = r.probability() * (r.text().equals(own) ? SET.right() : wrong);
      weighed.add(new Reading(r.text(), p));
      whole += p;
    }
    if (readings.stream().noneMatch(r -> r.text().equals(own))) {
      weighed.add(new Reading(own, left * SET.right()));
      whole += left * SET.right();
    }
    double all = whole;
    return weighed.stream()
        .map(r -> new Reading(r.text(), r.probability() / all))
        .sorted(Comparator.comparingDouble((Reading r) -> -r.probability()))
        .toList();
  }

  /**
   * How many bars the blocks between two places add up to.
   *
   * @return empty where something else stands there
   */
  static OptionalInt sum(StripImage strip, double from, double to) {
    int left = Math.max(0, (int) (2 * StripImage.column(from)));
    int right = Math.min(2 * strip.width(), (int) (2 * StripImage.column(to)));
    if (right <= left) {
      return OptionalInt.empty();
    }
    int top = 2 * StripImage.MIDDLE - FINE - 2 * SET.off();
    byte[] gray = strip.fine(left, top, right, 2 * (StripImage.MIDDLE + FINE));
    int bars = 0;
    List<Integer> block = new ArrayList<>();
    for (int u = 0; u <= right - left; u++) {
      int deep = u < right - left ? depth(gray, right - left, u) : 0;
      if (deep >= SET.least()) {
        block.add(deep);
      } else if (!block.isEmpty()) {
        int own = bars(block);
        if (own < 0) {
          return OptionalInt.empty();
        }
        bars += own;
        block.clear();
      }
    }
    return bars > 0 ? OptionalInt.of(bars) : OptionalInt.empty();
  }

  /** How far down from the fourth line a column is dark, fine pixels; 0 where it is not. */
  private static int depth(byte[] gray, int width, int u) {
    int line = 2 * SET.off();
    int first = 0;
    while (first <= 2 * line && !isDark(gray, first * width + u)) {
      first++;
    }
    if (first > 2 * line || first == 0) {
      return 0; // nothing hangs there, or it goes on above
    }
    int end = first;
    while (isDark(gray, end * width + u)) {
      end++;
    }
    return end - line;
  }

  private static boolean isDark(byte[] gray, int at) {
    return at < gray.length && (gray[at] & 0xff) < DARK;
  }

  /** Bars of one block by the depths of its columns: 0 for a block's side, below 0 for none. */
  private static int bars(List<Integer> depths) {
    if (depths.size() < SET.narrow()) {
      return 0;
    }
    List<Integer> sorted = depths.stream().sorted().toList();
    int sides = sorted.size() / SIDES;
    int spread = sorted.get(sorted.size() - 1 - sides) - sorted.get(sides);
    int deep = sorted.get(sorted.size() / 2);
    if (depths.size() > SET.wide() || deep >= SET.four() || spread > SET.uneven()) {
      return -1;
    }
    return deep < SET.one() ? 1 : deep < SET.two() ? 2 : FOUR;
  }
}
