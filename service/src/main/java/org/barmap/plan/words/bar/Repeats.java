package org.barmap.plan.words.bar;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.map.Bar;
import org.barmap.map.Barline;
import org.barmap.map.Navigation;
import org.barmap.map.Word;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.effect.Stretch;
import org.barmap.plan.change.say.Told.PrintedRepeat;

/** Finds the repeats that words like "no repeat" are about. */
public final class Repeats {
  private static final Pattern OPEN =
      Pattern.compile("\\b(vamp|safety)\\b", Pattern.CASE_INSENSITIVE);

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
          bar.startBarline().startsRepeat()
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
      if (bar.endBarline().endsRepeat()) {
        closes = i;
      }
    }
    if (closes >= 0) {
      found.add(one(number, start, closes, endings));
    }
    return List.copyOf(found);
  }

  /** Finds the bars under a "Vamp" or a "Safety" that have no repeat signs. */
  public static List<PrintedRepeat> unsigned(WrittenNumber number, String word) {
    List<PrintedRepeat> found = new ArrayList<>();
    for (int i = 0; i < number.bars().size(); i++) {
      if (open(number.bars().get(i)).equals(word)) {
        found.add(one(number, i, i, 0));
      }
    }
    return List.copyOf(found);
  }

  /** Returns "vamp" or "safety" where a word at a bar is one; else nothing. */
  private static String open(Bar bar) {
    String open = "";
    for (Word word : bar.words()) {
      Matcher matcher = OPEN.matcher(word.text());
      if (matcher.find() && !open.equals("safety")) {
        open = word.text().toLowerCase(Locale.ROOT).contains("safety") ? "safety" : "vamp";
      }
    }
    return open;
  }

  private static PrintedRepeat one(WrittenNumber number, int first, int last, int endings) {
    String from = number.nameAt(number.starts()[first]);
    String to = number.nameAt(number.starts()[last] + number.bars().get(last).count() - 1);
    String says = from.equals(to) ? "bar " + from : "bars " + from + " to " + to;
    String open =
        number.bars().subList(first, last + 1).stream()
            .map(Repeats::open)
            .filter(w -> !w.isEmpty())
            .findFirst()
            .orElse("");
    return new PrintedRepeat(new Stretch(from, to), endings, open, says);
  }

  /** Whether a D.C. or a D.S. is printed. */
  public static boolean jumpsBack(WrittenNumber number) {
    return number.bars().stream()
        .anyMatch(b -> b.has(Navigation.DA_CAPO) || b.has(Navigation.DAL_SEGNO));
  }
}
