package org.barmap.plan.page;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Which of the printed page numbers of a book are believed: the most that rise from page to page,
 * by one at least for every page in between. What is left out of them was misread, or stands on a
 * page that was taken twice.
 */
final class Folios {
  private Folios() {}

  /** A page number at the place of its page among those that are bound. */
  record Printed(int place, int page, int folio) {
    int ahead() {
      return folio - place;
    }
  }

  /** Returns those that are believed, in order: a longest row in which none falls back. */
  static List<Printed> believed(List<Printed> all) {
    int[] best = new int[all.size()];
    int[] before = new int[all.size()];
    int length = 0;
    for (int i = 0; i < all.size(); i++) {
      int low = 0;
      int high = length;
      while (low < high) {
        int middle = (low + high) / 2;
        if (all.get(best[middle]).ahead() <= all.get(i).ahead()) {
          low = middle + 1;
        } else {
          high = middle;
        }
      }
      best[low] = i;
      before[i] = low == 0 ? -1 : best[low - 1];
      length = Math.max(length, low + 1);
    }
    Printed[] row = new Printed[length];
    int at = length == 0 ? -1 : best[length - 1];
    for (int k = length - 1; k >= 0; k--) {
      row[k] = all.get(at);
      at = before[at];
    }
    return new ArrayList<>(Arrays.asList(row));
  }
}
