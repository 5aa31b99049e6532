package org.barmap.edit.between;

import java.util.Optional;
import org.barmap.edit.kind.Correction;
import org.barmap.map.Bar;

/**
 * One thing that is different between two maps.
 *
 * @param says one line for a person
 * @param page index of the page it is on, in the later map; where it is on one
 * @param bar id of the bar entry it is about, where it is about one
 * @param correction what makes the earlier map so, made after all that stand before it; empty where
 *     no correction can say it
 * @param before the bar entry as it was, where no correction says it; empty where there was none
 * @param after the bar entry as it is, where no correction says it; empty where there is none
 */
public record MapChange(
    String says,
    Optional<Integer> page,
    Optional<String> bar,
    Optional<Correction> correction,
    Optional<Bar> before,
    Optional<Bar> after) {

  static MapChange ofMap(String says, Optional<Integer> page) {
    return new MapChange(
        says, page, Optional.empty(), Optional.empty(), Optional.empty(), Optional.empty());
  }

  static MapChange ofBar(String says, Optional<Bar> before, Optional<Bar> after) {
    Bar bar = after.or(() -> before).orElseThrow();
    Optional<Integer> page = after.map(Bar::page);
    return new MapChange(says, page, Optional.of(bar.id()), Optional.empty(), before, after);
  }

  static MapChange said(String says, Optional<Bar> bar, Correction correction) {
    return new MapChange(
        says,
        bar.map(Bar::page),
        bar.map(Bar::id),
        Optional.of(correction),
        Optional.empty(),
        Optional.empty());
  }
}
