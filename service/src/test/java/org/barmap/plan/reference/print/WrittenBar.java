package org.barmap.plan.reference.print;

import org.barmap.map.Bar;
import org.barmap.map.Navigation;

/**
 * One single bar on the page; a multi-bar rest of eight is eight of them.
 *
 * @param at its place in the musical number, 0 for the first
 * @param entry the entry of the map it is drawn in
 * @param offset how many bars of that entry come before it
 */
public record WrittenBar(int at, Bar entry, int offset) {

  public boolean first() {
    return offset == 0;
  }

  public boolean last() {
    return offset == entry.count() - 1;
  }

  public int number() {
    return entry.number() + offset;
  }

  /** What a player calls it. */
  public String name() {
    return first() && entry.label().isPresent() ? entry.label().get() : Integer.toString(number());
  }

  // Source: barmap-format.md, Conventions: segno and coda at the start of their bar, the others at
  // its end.
  public boolean has(Navigation sign) {
    boolean atStart = sign == Navigation.SEGNO || sign == Navigation.CODA;
    return entry.has(sign) && (atStart ? first() : last());
  }
}
