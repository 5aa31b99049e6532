package org.barmap.edit.kind;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.barmap.edit.draft.Aspect;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.draft.Lookup;
import org.barmap.edit.draft.Ruler;
import org.barmap.edit.draft.Systems;
import org.barmap.map.Bar;
import org.barmap.map.Barline;
import org.barmap.map.Content;
import org.barmap.map.Key;
import org.barmap.map.Meter;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Navigation;
import org.barmap.map.Point;
import org.barmap.map.StaffSystem;
import org.barmap.map.Word;

/** Makes bars by adding barlines. */
final class Splitting {

  private static final Set<Aspect> SHAPED = EnumSet.of(Aspect.SHAPE);
  private static final Set<Aspect> COUNTED = EnumSet.of(Aspect.SHAPE, Aspect.COUNT, Aspect.CONTENT);

  /** What belongs to the end of a bar goes to the right half. */
  private static final Set<Navigation> AT_END =
      EnumSet.of(Navigation.FINE, Navigation.DA_CAPO, Navigation.DAL_SEGNO, Navigation.TO_CODA);

  private Splitting() {}

  /**
   * Splits a bar; the left half keeps its id and its start. The bars of a multi-bar rest are shared
   * out: there are as many as before, unless all of them were said to come before the line.
   */
  static Draft split(Draft draft, Bar bar, Ruler.Edge edge, Optional<Integer> before) {
    int first = bar.content() == Content.MULTI_REST ? before.orElse(share(bar, edge)) : 1;
    int after = Math.max(1, bar.count() - first);
    Bar left =
        bar.toBuilder()
            .count(first)
            .content(restOr(bar.content(), bar.content(), first))
            .outline(Ruler.between(Ruler.left(bar.outline()), edge))
            .endBarline(Barline.SINGLE)
            .signs(bar.signs().stream().filter(s -> !AT_END.contains(s)).toList())
            .words(bar.words().stream().filter(w -> !isRight(w, edge)).toList())
            .times(isRepeatEnd(bar.endBarline()) ? Optional.empty() : bar.times())
            .silentEnd(Optional.empty())
            .evidence(Optional.empty())
            .build();
    Bar right =
        bar.toBuilder()
            .id(Lookup.freshId(draft))
            .outline(Ruler.between(edge, Ruler.right(bar.outline())))
            .startBarline(Barline.SINGLE)
            .count(after)
            .label(Optional.empty())
            .rehearsal(Optional.empty())
            .meter(Held.METER.after(bar))
            .key(Held.KEY.after(bar))
            .content(
                first < bar.count() ? restOr(bar.content(), bar.content(), after) : musicOr(bar))
            .signs(bar.signs().stream().filter(AT_END::contains).toList())
            .words(bar.words().stream().filter(w -> isRight(w, edge)).toList())
            .times(isRepeatEnd(bar.endBarline()) ? bar.times() : Optional.empty())
            .silentStart(Optional.empty())
            .evidence(Optional.empty())
            .build();
    Draft shaped = OneBar.put(draft, left, before.isPresent() ? COUNTED : SHAPED);
    Draft put = insert(shaped, OneBar.corrected(right), draft.map().indexOf(bar.id()) + 1);
    return put.withNumbers(lastBarMoves(put.map().numbers(), bar.id(), right.id()));
  }

  /** A rest of one bar is no multi-bar rest. */
  private static Content restOr(Content content, Content other, int count) {
    return content == Content.MULTI_REST && count == 1 ? Content.REST : other;
  }

  private static Content musicOr(Bar bar) {
    return bar.content() == Content.MULTI_REST ? Content.MUSIC : bar.content();
  }

  /**
   * How many bars of a multi-bar rest stand before a line by its place; at least one on each side.
   */
  private static int share(Bar bar, Ruler.Edge edge) {
    Ruler.Edge start = Ruler.left(bar.outline());
    Ruler.Edge end = Ruler.right(bar.outline());
    double left = start.rightOf(edge.middle());
    double width = start.rightOf(end.middle());
    int share = (int) Math.round(bar.count() * left / Math.max(1, width));
    return Math.max(1, Math.min(bar.count() - 1, share));
  }

  /** Closes a bar where there was none: from the bar before, to the bar after, or both sides. */
  static Draft close(Draft draft, StaffSystem system, int page, Ruler.Edge edge) {
    List<Bar> bars = draft.barsIn(page, system.index());
    Point middle = edge.middle();
    Optional<Bar> left =
        bars.stream()
            .filter(b -> Ruler.right(b.outline()).rightOf(middle) >= 0)
            .reduce((a, b) -> b);
    if (left.isPresent()) {
      Bar before = left.get();
      Bar made =
          bare(draft, page, system, Ruler.right(before.outline()), edge).toBuilder()
              .startBarline(before.endBarline())
              .meter(Held.METER.after(before))
              .key(Held.KEY.after(before))
              .ending(before.ending())
              .build();
      Draft put = insert(draft, made, draft.map().indexOf(before.id()) + 1);
      return put.withNumbers(lastBarMoves(put.map().numbers(), before.id(), made.id()));
    }
    if (!bars.isEmpty()) {
      Bar after = bars.get(0);
      Bar made = bare(draft, page, system, edge, Ruler.left(after.outline()));
      Draft put = insert(draft, made, draft.map().indexOf(after.id()));
      return put.withNumbers(firstBarMoves(put.map().numbers(), after.id(), made.id()));
    }
    return closeEmpty(draft, system, page, edge);
  }

  private static Draft closeEmpty(Draft draft, StaffSystem system, int page, Ruler.Edge edge) {
    int at = Systems.position(draft, page, system.index());
    Ruler.Edge start = Ruler.left(system.outline());
    Ruler.Edge end = Ruler.right(system.outline());
    Draft now = insert(draft, bare(draft, page, system, start, edge), at);
    boolean roomBehind = -end.rightOf(edge.middle()) > 3 * Lookup.leastWidth(system);
    return roomBehind ? insert(now, bare(now, page, system, edge, end), at + 1) : now;
  }

  private static Bar bare(
      Draft draft, int page, StaffSystem system, Ruler.Edge from, Ruler.Edge to) {
    return OneBar.corrected(
        Bar.builder(Lookup.freshId(draft), page, system.index(), Ruler.between(from, to)).build());
  }

  /** Puts a bar in its place; without a meter or key of its own it takes the one in force there. */
  static Draft insert(Draft draft, Bar bar, int at) {
    List<Bar> bars = new ArrayList<>(draft.map().bars());
    Optional<Meter> meter = at == 0 ? Optional.empty() : Held.METER.after(bars.get(at - 1));
    Optional<Key> key = at == 0 ? Optional.empty() : Held.KEY.after(bars.get(at - 1));
    bars.add(
        at,
        bar.toBuilder()
            .meter(Held.METER.after(bar).or(() -> meter))
            .key(Held.KEY.after(bar).or(() -> key))
            .build());
    return draft.withBars(bars).with(draft.settled().with(bar.id(), SHAPED));
  }

  private static boolean isRight(Word word, Ruler.Edge edge) {
    return word.box().map(b -> edge.rightOf(b.leftMiddle()) > 0).orElse(false);
  }

  private static boolean isRepeatEnd(Barline barline) {
    return barline.endsRepeat();
  }

  /** Lets musical numbers that ended at one bar end at another. */
  static List<MusicalNumber> lastBarMoves(List<MusicalNumber> numbers, String from, String to) {
    return numbers.stream()
        .map(n -> n.withBars(n.firstBar(), n.lastBar().map(id -> id.equals(from) ? to : id)))
        .toList();
  }

  private static List<MusicalNumber> firstBarMoves(
      List<MusicalNumber> numbers, String from, String to) {
    return numbers.stream()
        .map(n -> n.withBars(n.firstBar().map(id -> id.equals(from) ? to : id), n.lastBar()))
        .toList();
  }
}
