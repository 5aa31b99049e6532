package org.barmap.plan.trap;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.plan.change.WrittenNumber;

/** The traps of one number with their places in it. */
final class TrapList {
  /**
   * A trap and where it stands.
   *
   * @param entry which bar entry of the number, from 0
   */
  record Placed(Trap trap, int entry) {}

  private final WrittenNumber number;
  private final Map<String, Integer> entries = new HashMap<>();
  private final List<Placed> placed = new ArrayList<>();

  TrapList(WrittenNumber number) {
    this.number = number;
    for (int i = 0; i < number.bars().size(); i++) {
      entries.putIfAbsent(number.bars().get(i).id(), i);
    }
  }

  List<Placed> placed() {
    return placed;
  }

  /** Returns which entry of the number a bar is; empty where it belongs to another number. */
  Optional<Integer> entry(String bar) {
    return Optional.ofNullable(entries.get(bar));
  }

  /** Returns the first bar of an entry as a player calls it. */
  String name(int entry) {
    return number.nameAt(number.starts()[entry]);
  }

  /** Returns a bar entry. */
  Bar at(int entry) {
    return number.bars().get(entry);
  }

  /** Adds a trap at a bar of this number; one of another number is left to that one. */
  void add(String bar, Trap.Kind kind, boolean grave, String text, List<String> unsure) {
    entry(bar)
        .ifPresent(
            e ->
                placed.add(
                    new Placed(
                        new Trap(number.label(), bar, at(e).page(), kind, grave, text, unsure),
                        e)));
  }
}
