package org.barmap.plan.mark;

import java.util.ArrayList;
import java.util.Collections;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.Bar;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.piece.PlayedPiece;

/** Which number to go on to, where it is not the next one of the book: "to No. 3, page 3". */
public final class NumberMarks {
  private final List<WrittenNumber> book;
  private final List<WrittenNumber> night = new ArrayList<>();
  private final Map<WrittenNumber, List<PlayedPiece>> played = new IdentityHashMap<>();
  private final Set<WrittenNumber> out = Collections.newSetFromMap(new IdentityHashMap<>());

  /**
   * Knows the book.
   *
   * @param book its numbers as bound
   */
  public NumberMarks(List<WrittenNumber> book) {
    this.book = book;
  }

  /**
   * Takes the next number of the night.
   *
   * @param steps in the order they sound; empty where the player waits
   */
  public void next(WrittenNumber number, List<PlayedPiece> steps) {
    night.add(number);
    played.put(number, steps);
  }

  /** Takes a number that is not in the show: its own mark says that the next one follows. */
  public void leftOut(WrittenNumber number) {
    out.add(number);
  }

  /** Writes the marks. */
  public void mark(Pencil pencil, Optional<String> change) {
    List<WrittenNumber> bound = book.stream().filter(n -> !out.contains(n)).toList();
    for (int i = 0; i + 1 < night.size(); i++) {
      WrittenNumber from = night.get(i);
      WrittenNumber to = night.get(i + 1);
      int at = bound.indexOf(from);
      boolean follows = at + 1 < bound.size() && bound.get(at + 1) == to;
      if (!follows && !from.bars().isEmpty()) {
        one(pencil, from, to, change);
      }
    }
  }

  private void one(Pencil pencil, WrittenNumber from, WrittenNumber to, Optional<String> change) {
    List<PlayedPiece> steps = played.getOrDefault(from, List.of());
    int slot =
        steps.isEmpty()
            ? 0
            : steps.get(steps.size() - 1).piece().slot()
                + steps.get(steps.size() - 1).piece().count()
                - 1;
    int at = Math.min(slot, from.slots() - 1);
    String page = to.bars().stream().findFirst().map(b -> ", page " + b.page()).orElse("");
    Bar bar = from.barAt(at);
    pencil.add(from, at, bar, "to-number", "to " + to.spoken() + page, change);
  }
}
