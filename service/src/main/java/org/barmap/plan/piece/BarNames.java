package org.barmap.plan.piece;

import java.util.HashMap;
import java.util.Map;
import java.util.regex.Pattern;
import org.barmap.plan.change.WrittenNumber;

/** How the bars of a number are written in a line of bars: 24, 24A, 24/2 in the second ending. */
public final class BarNames {
  private static final Pattern ENDING = Pattern.compile(" in the (\\d+)\\p{L}+( and .*)? ending$");

  private final WrittenNumber number;
  private final Map<Integer, String> names = new HashMap<>();

  /** Names the bars of a number. */
  public BarNames(WrittenNumber number) {
    this.number = number;
  }

  /** Returns how the bar in a slot is written. */
  public String at(int slot) {
    return names.computeIfAbsent(slot, s -> ENDING.matcher(number.nameAt(s)).replaceFirst("/$1"));
  }
}
