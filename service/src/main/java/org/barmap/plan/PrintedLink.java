package org.barmap.plan;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.Bar;
import org.barmap.map.Navigation;
import org.barmap.map.Word;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.term.LinkWords;
import org.barmap.plan.order.OrderOfPlay;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.PlayedPiece;

/**
 * What the print says of how the next number follows: in the last line and the last bars of a
 * number, at its Fine too where it goes back; in the heading and over the first bars of the next.
 *
 * @param words what is said
 * @param at the bar it stands at; empty for a heading
 * @param leftOut it stands in bars that are left out
 */
record PrintedLink(LinkWords words, Optional<Bar> at, boolean leftOut) {
  /** Where the last line has fewer bars than this, the bars before it count too. */
  private static final int LAST_BARS = 3;

  /** Bars of the next number over which "segue from No. 3" may stand. */
  private static final int FIRST_BARS = 2;

  /** Returns all that the print says, the number's own end first; may be empty. */
  static List<PrintedLink> read(OrderOfPlay order, Optional<WrittenNumber> next) {
    List<PrintedLink> found = new ArrayList<>();
    WrittenNumber number = order.number();
    Set<Bar> out = new HashSet<>();
    order.pieces().stream().filter(Piece::cut).filter(Piece::first).forEach(p -> out.add(p.bar()));
    Set<Integer> read = new HashSet<>();
    for (int end : ends(order)) {
      for (int i = firstOfEnd(number.bars(), end); i <= end; i++) {
        if (read.add(i)) {
          said(number.bars().get(i), out, found);
        }
      }
    }
    next.ifPresent(n -> ahead(n, found));
    return List.copyOf(found);
  }

  private static void said(Bar bar, Set<Bar> out, List<PrintedLink> found) {
    for (Word word : bar.words()) {
      LinkWords.read(word.text())
          .filter(w -> !w.back())
          .ifPresent(w -> found.add(new PrintedLink(w, Optional.of(bar), out.contains(bar))));
    }
  }

  private static void ahead(WrittenNumber next, List<PrintedLink> found) {
    LinkWords.read(next.title())
        .map(w -> new PrintedLink(w, Optional.empty(), false))
        .ifPresent(found::add);
    for (Bar bar : next.bars().subList(0, Math.min(FIRST_BARS, next.bars().size()))) {
      for (Word word : bar.words()) {
        LinkWords.read(word.text())
            .filter(LinkWords::back)
            .map(w -> new PrintedLink(w, Optional.of(bar), false))
            .ifPresent(found::add);
      }
    }
  }

  /** Where the number may end: its last bar that sounds, its last one written, its Fine. */
  private static List<Integer> ends(OrderOfPlay order) {
    List<Bar> bars = order.number().bars();
    List<Integer> ends = new ArrayList<>();
    if (bars.isEmpty()) {
      return ends;
    }
    List<PlayedPiece> steps = order.steps();
    if (!steps.isEmpty()) {
      Piece last = steps.get(steps.size() - 1).piece();
      ends.add(order.number().entryAt(Math.min(last.slot(), order.number().slots() - 1)));
    }
    ends.add(bars.size() - 1);
    boolean goesBack =
        bars.stream().anyMatch(b -> b.has(Navigation.DA_CAPO) || b.has(Navigation.DAL_SEGNO));
    for (int i = 0; goesBack && i < bars.size(); i++) {
      if (bars.get(i).has(Navigation.FINE)) {
        ends.add(i);
      }
    }
    return ends;
  }

  private static int firstOfEnd(List<Bar> bars, int end) {
    int first = end;
    Bar last = bars.get(end);
    while (first > 0
        && (end - first + 1 < LAST_BARS
            || (bars.get(first - 1).page() == last.page()
                && bars.get(first - 1).system() == last.system()))) {
      first--;
    }
    return first;
  }
}
