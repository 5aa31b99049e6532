package org.barmap.reckon.write;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Key;
import org.barmap.reckon.set.ReckonSettings;
import org.barmap.reckon.set.WriteSettings;
import org.barmap.sign.kind.Sign;

/**
 * Settles the key signatures of a book: a shortest path over the places where one can stand.
 *
 * <p>Common practice: the key in force is drawn again at the beginning of every line, a change is
 * drawn where it happens or as a courtesy at the end of the line before, and no signature at a line
 * means no sharps or flats. Some hands draw it on the first line only, so a missing one is weak
 * evidence, and a key doesn't change where nothing is drawn.
 */
final class KeySequence {

  private static final WriteSettings.KeyOrder SET = ReckonSettings.STANDARD.write().keys();

  /** Where a signature can stand. */
  enum Where {
    /** At the beginning of a musical number: any key may begin. */
    NUMBER,
    /** At the beginning of a line. */
    LINE,
    /** In mid-line, or as a courtesy at a line's end: drawn because it changes. */
    CHANGE
  }

  /**
   * One such place.
   *
   * @param bar index of the bar from which it counts
   * @param sign what was read there; always something at a change
   */
  record Slot(Where where, int bar, Optional<Sign> sign) {}

  private KeySequence() {}

  /**
   * Settles a book's keys.
   *
   * @param slots in reading order, the first one a {@link Where#NUMBER}
   * @param bars how many bars there are
   * @return the key in force at each bar; absent throughout numbers where no signature was read
   */
  static List<Optional<Key>> settle(List<Slot> slots, int bars) {
    List<Optional<Key>> out = new ArrayList<>();
    int[] path = path(slots);
    int next = 0;
    boolean known = false;
    Optional<Key> key = Optional.empty();
    for (int i = 0; i < bars; i++) {
      Optional<Key> before = key;
      boolean begins = false;
      for (; next < slots.size() && slots.get(next).bar() <= i; next++) {
        if (slots.get(next).where() == Where.NUMBER) {
          known = anyRead(slots, next);
          begins = true;
        }
        key = known ? Optional.of(new Key(path[next] - Key.MOST, false)) : Optional.empty();
      }
      boolean sounds = begins || !key.map(k -> before.filter(k::sameAs).isPresent()).orElse(true);
      out.add(key.map(k -> k.withPrinted(sounds)));
    }
    return out;
  }

  /** Tells whether a signature was read anywhere in the number that begins at a slot. */
  private static boolean anyRead(List<Slot> slots, int from) {
    for (int i = from; i < slots.size(); i++) {
      if (i > from && slots.get(i).where() == Where.NUMBER) {
        return false;
      }
      if (slots.get(i).sign().filter(s -> s.probability() >= SET.there()).isPresent()) {
        return true;
      }
    }
    return false;
  }

  /** The most likely key at each slot, by the usual forward pass and trace back. */
  private static int[] path(List<Slot> slots) {
    int n = slots.size();
    double[] best = new double[Keys.STATES];
    int[][] from = new int[n][Keys.STATES];
    for (int t = 0; t < n; t++) {
      double[] now = new double[Keys.STATES];
      Arrays.fill(now, Double.NEGATIVE_INFINITY);
      double[] seen = seen(slots.get(t));
      for (int k = 0; k < Keys.STATES; k++) {
        for (int j = 0; j < Keys.STATES; j++) {
          double cost = best[j] + Math.log(step(slots.get(t), j, k, seen));
          if (cost > now[k]) {
            now[k] = cost;
            from[t][k] = j;
          }
        }
      }
      best = now;
    }
    int[] path = new int[n];
    int at = 0;
    for (int k = 1; k < Keys.STATES; k++) {
      at = best[k] > best[at] ? k : at;
    }
    for (int t = n - 1; t >= 0; t--) {
      path[t] = at;
      at = from[t][at];
    }
    return path;
  }

  /** How likely a slot looks as it does, when it leads from one key to another. */
  private static double step(Slot slot, int before, int now, double[] seen) {
    double other = 1.0 / (Keys.STATES - 1);
    return switch (slot.where()) {
      case NUMBER -> (before == now ? SET.sameKey() : (1 - SET.sameKey()) * other) * seen[now];
      case LINE -> (before == now ? 1 - SET.unannounced() : SET.unannounced() * other) * seen[now];
      case CHANGE -> before == now ? notThere(slot) / Keys.STATES : other * seen[now];
    };
  }

  private static double notThere(Slot slot) {
    double there = slot.sign().map(Sign::probability).orElse(0.0);
    return Math.max(SET.invented(), 1 - there);
  }

  /** How likely what was read at a slot is, for each key. */
  private static double[] seen(Slot slot) {
    double[] seen = new double[Keys.STATES];
    if (slot.sign().isEmpty()) {
      Arrays.fill(seen, SET.missed());
      seen[Key.MOST] = 1 - SET.invented();
      return seen;
    }
    double there = slot.sign().get().probability();
    double[] read = Keys.weights(slot.sign().get());
    boolean change = slot.where() == Where.CHANGE;
    for (int k = 0; k < Keys.STATES; k++) {
      boolean drawn = change || k != Key.MOST;
      double absent = change ? 0 : k == Key.MOST ? 1 : SET.missed();
      seen[k] = there * (drawn ? 1 : SET.invented()) * read[k] + (1 - there) * absent / Keys.STATES;
    }
    return seen;
  }
}
