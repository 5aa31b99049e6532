package org.barmap.exchange.musicxml.write;

import java.util.Optional;
import org.audiveris.proxymusic.Print;
import org.audiveris.proxymusic.YesNo;
import org.barmap.map.Bar;

/** Where the book begins a line or a page. */
final class Layout {
  private Optional<Bar> before = Optional.empty();

  /** Returns the break in front of an entry, where there is one. */
  Optional<Print> at(Bar bar) {
    Optional<Bar> last = before;
    before = Optional.of(bar);
    boolean page = last.filter(b -> b.page() != bar.page()).isPresent();
    boolean line = last.filter(b -> b.system() != bar.system()).isPresent();
    if (!page && !line) {
      return Optional.empty();
    }
    Print print = new Print();
    if (page) {
      print.setNewPage(YesNo.YES);
    } else {
      print.setNewSystem(YesNo.YES);
    }
    return Optional.of(print);
  }
}
