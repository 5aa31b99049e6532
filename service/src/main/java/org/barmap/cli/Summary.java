package org.barmap.cli;

import org.barmap.map.BarMap;

/** Says in one line what a map holds. */
final class Summary {

  private Summary() {}

  static String of(BarMap map) {
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

  static String count(int n, String what) {
    return n + " " + what + (n == 1 ? "" : "s");
  }
}
