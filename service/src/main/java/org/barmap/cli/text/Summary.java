package org.barmap.cli.text;

import org.barmap.map.BarMap;

/** Says in one line what a map holds. */
public final class Summary {

  private Summary() {}

  /** Returns pages, systems, bars and findings. */
  public static String of(BarMap map) {
    int systems = map.pages().stream().mapToInt(p -> p.systems().size()).sum();
    return count(map.pages().size(), "page")
        + ", "
        + count(systems, "system")
        + ", "
        + count(map.writtenBars(), "bar")
        + " in "
        + (map.bars().size() == 1 ? "1 entry" : map.bars().size() + " entries")
        + ", "
        + count(map.findings().size(), "finding");
  }

  /** Returns "1 bar", "2 bars". */
  public static String count(int n, String what) {
    return n + " " + what + (n == 1 ? "" : "s");
  }
}
