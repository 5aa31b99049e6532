package org.barmap.plan.words;

import java.util.ArrayList;
import java.util.List;
import org.barmap.map.Bar;
import org.barmap.map.Barline;
import org.barmap.map.Navigation;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.effect.Stretch;
import org.barmap.plan.change.say.Told.PrintedRepeat;

/** Finds the repeats that words like "no repeat" are about. */
final class Repeats {
  private Repeats() {}

  /** A repeat begins at its sign, or where the last one ended, or with the number. */
  static List<PrintedRepeat> of(WrittenNumber number) {
    List<PrintedRepeat> found = new ArrayList<>();
    int start = 0;
    int closes = -1;
    int endings = 0;
    for (int i = 0; i < number.bars().size(); i++) {
      Bar bar = number.bars().get(i);
      Bar before = number.bars().get(Math.max(0, i - 1));
      boolean opens =
          bar.startBarline() == Barline.REPEAT_START
              || bar.startBarline() == Barline.REPEAT_BOTH
              || (i > 0 && before.endBarline() == Barline.REPEAT_START)
              || (i > 0 && before.endBarline() == Barline.REPEAT_BOTH);
      boolean over = closes >= 0 && (bar.ending().isEmpty() || bar.ending().contains(1));
      if (closes >= 0 && (opens || over)) {
        found.add(one(number, start, closes, endings));
        start = i;
        closes = -1;
        endings = 0;
      } else if (opens) {
        start = i;
        endings = 0;
      }
      endings = bar.ending().stream().reduce(endings, Math::max);
      if (bar.endBarline() == Barline.REPEAT_END || bar.endBarline() == Barline.REPEAT_BOTH) {
        closes = i;
      }
    }
    if (closes >= 0) {
      found.add(one(number, start, closes, endings));
    }
    return List.copyOf(found);
  }

  private static PrintedRepeat one(WrittenNumber number, int first, int last, int endings) {
    String from = number.nameAt(number.starts()[first]);
    String to = number.nameAt(number.starts()[last] + number.bars().get(last).count() - 1);
    String says = from.equals(to) ? "bar " + from : "bars " + from + " to " + to;
    return new PrintedRepeat(new Stretch(from, to), endings, says);
  }

  static boolean jumpsBack(WrittenNumber number) {
    return number.bars().stream()
        .anyMatch(b -> b.has(Navigation.DA_CAPO) || b.has(Navigation.DAL_SEGNO));
  }
}
