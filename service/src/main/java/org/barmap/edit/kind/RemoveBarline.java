package org.barmap.edit.kind;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.barmap.edit.draft.Aspect;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.draft.Ruler;
import org.barmap.map.Bar;
import org.barmap.map.Content;

/**
 * There is no barline: the two bars beside it are one.
 *
 * @param bar id of the bar entry
 * @param side which side of it; absent means its end
 */
public record RemoveBarline(String bar, Side side) implements Correction {

  /** What is said about the beginning of the right bar says nothing about the joined one. */
  private static final Set<Aspect> OF_THE_START =
      EnumSet.of(
          Aspect.NUMBER,
          Aspect.NUMBER_START,
          Aspect.METER,
          Aspect.KEY,
          Aspect.SILENT_START,
          Aspect.LABEL,
          Aspect.START_BARLINE);

  /** Reads absent keys as an unknown bar and its end. */
  public RemoveBarline {
    bar = OneBar.id(bar);
    side = Side.orEnd(side);
  }

  @Override
  public List<String> validate(Draft draft) {
    return OneBar.refusals(draft, bar, b -> problems(draft, b));
  }

  private List<String> problems(Draft draft, Bar b) {
    Optional<Pair> pair = pair(draft, b);
    if (pair.isEmpty()) {
      return List.of("There is no bar on the other side of that barline in the same system");
    }
    String right = pair.get().right.id();
    boolean starts =
        draft.map().numbers().stream()
            .anyMatch(n -> n.firstBar().filter(right::equals).isPresent());
    return starts
        ? List.of("A musical number starts at that barline; take the number away first")
        : List.of();
  }

  private record Pair(Bar left, Bar right) {}

  private Optional<Pair> pair(Draft draft, Bar b) {
    return side.beside(draft, b).map(n -> side == Side.END ? new Pair(b, n) : new Pair(n, b));
  }

  @Override
  public Draft applyTo(Draft draft) {
    Pair pair = pair(draft, draft.map().bar(bar).orElseThrow()).orElseThrow();
    Bar joined = join(pair.left, pair.right);
    List<Bar> bars = new ArrayList<>(draft.map().bars());
    bars.removeIf(b -> b.id().equals(pair.right.id()));
    Set<Aspect> sets = EnumSet.of(Aspect.SHAPE);
    sets.addAll(draft.settled().of(pair.right.id()));
    sets.removeAll(OF_THE_START);
    Draft less = draft.withBars(bars).with(draft.settled().without(pair.right.id()));
    Draft put = held(held(OneBar.put(less, joined, sets), pair, Held.METER), pair, Held.KEY);
    return put.withNumbers(
        Splitting.lastBarMoves(put.map().numbers(), pair.right.id(), pair.left.id()));
  }

  /** A signature drawn at the barline goes with it: what held before it holds on. */
  private static Draft held(Draft draft, Pair pair, Held<?> held) {
    if (!held.drawnAt(pair.right) && held.after(pair.right).equals(held.after(pair.left))) {
      return draft;
    }
    List<Bar> bars = new ArrayList<>(draft.map().bars());
    int at = draft.map().indexOf(pair.left.id());
    held.carry(bars, at, draft, Set.of());
    return draft.withBars(bars);
  }

  /** Joins two bars; a multi-bar rest keeps its count, for a stray line in it is no bar. */
  private static Bar join(Bar left, Bar right) {
    boolean rest = isMultiRest(left) || isMultiRest(right);
    boolean same = left.content() == right.content();
    return left.toBuilder()
        .outline(Ruler.between(Ruler.left(left.outline()), Ruler.right(right.outline())))
        .endBarline(right.endBarline())
        .count(Math.max(left.count(), right.count()))
        .content(rest ? Content.MULTI_REST : same ? left.content() : Content.MUSIC)
        .rehearsal(left.rehearsal().or(right::rehearsal))
        .signs(both(left.signs(), right.signs()).distinct().sorted().toList())
        .words(both(left.words(), right.words()).distinct().toList())
        .ending(both(left.ending(), right.ending()).distinct().sorted().toList())
        .times(right.times().or(left::times))
        .silentEnd(right.silentEnd())
        .evidence(Optional.empty())
        .build();
  }

  private static boolean isMultiRest(Bar bar) {
    return bar.content() == Content.MULTI_REST;
  }

  private static <T> Stream<T> both(List<T> left, List<T> right) {
    return Stream.concat(left.stream(), right.stream());
  }

  @Override
  public String says(Draft draft) {
    return "Barline removed " + side.of(Saying.bar(draft, bar));
  }
}
