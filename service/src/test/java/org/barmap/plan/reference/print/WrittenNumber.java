package org.barmap.plan.reference.print;

import java.util.ArrayList;
import java.util.List;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Barline;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Navigation;
import org.barmap.map.Word;

/** One musical number as it stands on the page, bar by bar. */
public record WrittenNumber(String label, List<WrittenBar> bars, boolean tacet) {

  /** Takes a book apart; one without numbers is one number called "1". */
  public static List<WrittenNumber> of(BarMap map) {
    List<WrittenNumber> all = new ArrayList<>();
    for (MusicalNumber number : map.numbers()) {
      all.add(new WrittenNumber(number.label(), single(map.barsOf(number)), number.tacet()));
    }
    if (all.isEmpty()) {
      all.add(new WrittenNumber("1", single(map.bars()), false));
    }
    return List.copyOf(all);
  }

  // Source: oracles.md, Counting and time: multi-bar rests 3+15+1+12 are 31 bars.
  private static List<WrittenBar> single(List<Bar> entries) {
    List<WrittenBar> bars = new ArrayList<>();
    for (Bar entry : entries) {
      for (int k = 0; k < entry.count(); k++) {
        bars.add(new WrittenBar(bars.size(), entry, k));
      }
    }
    return List.copyOf(bars);
  }

  public int size() {
    return bars.size();
  }

  public WrittenBar bar(int at) {
    return bars.get(at);
  }

  // Source: barmap-format.md, Conventions: in mid-line a repeat start is the end of the bar before.
  public boolean repeatStartsAt(int at) {
    WrittenBar bar = bars.get(at);
    if (!bar.first()) {
      return false;
    }
    boolean own = starts(bar.entry().startBarline());
    return own || (at > 0 && starts(bars.get(at - 1).entry().endBarline()));
  }

  private static boolean starts(Barline line) {
    return line == Barline.REPEAT_START || line == Barline.REPEAT_BOTH;
  }

  public boolean repeatEndsAt(int at) {
    WrittenBar bar = bars.get(at);
    Barline line = bar.entry().endBarline();
    return bar.last() && (line == Barline.REPEAT_END || line == Barline.REPEAT_BOTH);
  }

  /** Places of the bars with a sign, in the order of the page. */
  public List<Integer> places(Navigation sign) {
    return bars.stream().filter(b -> b.has(sign)).map(WrittenBar::at).toList();
  }

  public List<Integer> endingAt(int at) {
    return bars.get(at).entry().ending();
  }

  /** A bar as it is asked about: its name, with its place where another has the same name. */
  public String asked(int at) {
    String name = bars.get(at).name();
    boolean alike = bars.stream().filter(b -> b.name().equals(name)).count() > 1;
    return alike ? name + " (" + (at + 1) + " of the number)" : name;
  }

  /** Words that stand over or under the beginning of a bar. */
  public List<String> words(int at) {
    WrittenBar bar = bars.get(at);
    return bar.first() ? bar.entry().words().stream().map(Word::text).toList() : List.of();
  }
}
