package org.barmap.exchange.musicxml.write;

import java.util.List;
import java.util.Set;
import org.barmap.map.Bar;
import org.barmap.map.Navigation;

/**
 * What the jumps and repeats of one musical number have to say.
 *
 * @param coda a D.C. or D.S. leads to a coda
 * @param fine a D.C. or D.S. ends at a fine
 * @param openRepeat its first backward repeat has no forward one: it goes back to the beginning
 */
record Form(boolean coda, boolean fine, boolean openRepeat) {

  /** Reads the number that begins at an entry; the next one begins at one of {@code starts}. */
  static Form of(List<Bar> bars, int from, Set<String> starts) {
    boolean to = false;
    boolean coda = false;
    boolean fine = false;
    boolean opened = false;
    boolean open = false;
    for (int i = from; i < bars.size() && (i == from || !starts.contains(bars.get(i).id())); i++) {
      Bar bar = bars.get(i);
      to |= bar.has(Navigation.TO_CODA);
      coda |= bar.has(Navigation.CODA);
      fine |= bar.has(Navigation.FINE);
      opened |= Lines.opens(bar.startBarline());
      open |= !opened && Lines.sendsBack(bar.endBarline());
      opened |= open || Lines.opens(bar.endBarline());
    }
    return new Form(to && coda, fine, open);
  }

  /** Returns how a jump is worded where the map has no words of its own for it. */
  String worded(String jump) {
    return coda ? jump + " al Coda" : fine ? jump + " al Fine" : jump;
  }
}
