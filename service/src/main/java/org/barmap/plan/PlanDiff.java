package org.barmap.plan;

import com.fasterxml.jackson.annotation.JsonIgnore;
import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.BiPredicate;
import java.util.function.Function;
import java.util.stream.IntStream;
import org.barmap.plan.mark.PencilMark;
import org.barmap.plan.order.OpenStretch;
import org.barmap.plan.rest.LongRest;
import org.barmap.plan.turn.Turn;

/**
 * What differs between two plans of one book: "what changed since Tuesday".
 *
 * @param numbers numbers that are played differently
 * @param turns turns that came, went, or are made in another way or time
 * @param rests long rests that came, went, or are counted differently
 * @param write marks to write now
 * @param erase marks to erase now
 */
public record PlanDiff(
    List<NumberChange> numbers,
    List<TurnChange> turns,
    List<RestChange> rests,
    List<PencilMark> write,
    List<PencilMark> erase) {

  /** Takes defensive copies. */
  public PlanDiff {
    numbers = List.copyOf(numbers);
    turns = List.copyOf(turns);
    rests = List.copyOf(rests);
    write = List.copyOf(write);
    erase = List.copyOf(erase);
  }

  /**
   * A number before and now.
   *
   * @param label the number
   * @param barsBefore bars played before
   * @param barsNow bars played now
   * @param text the difference in plain words
   */
  public record NumberChange(String label, int barsBefore, int barsNow, String text) {}

  /**
   * A turn before and now; empty where it isn't there.
   *
   * @param leaves id of the bar entry that is left
   * @param arrives id of the bar entry that is come to
   * @param pass how often the bar that is left has been played then
   */
  @JsonInclude(JsonInclude.Include.NON_ABSENT)
  public record TurnChange(
      String leaves, String arrives, int pass, Optional<Turn> before, Optional<Turn> now) {}

  /**
   * A long rest before and now; empty where it isn't there.
   *
   * @param number label of the number
   * @param first id of the bar entry it begins with
   */
  @JsonInclude(JsonInclude.Include.NON_ABSENT)
  public record RestChange(
      String number, String first, Optional<LongRest> before, Optional<LongRest> now) {}

  /** Tells whether nothing differs for the player. */
  @JsonIgnore
  public boolean isEmpty() {
    return numbers.isEmpty()
        && turns.isEmpty()
        && rests.isEmpty()
        && write.isEmpty()
        && erase.isEmpty();
  }

  /** Compares two plans. */
  public static PlanDiff between(Plan before, Plan now) {
    return new PlanDiff(
        numbers(before, now),
        turns(before, now),
        rests(before, now),
        missing(now.pencil(), before.pencil()),
        missing(before.pencil(), now.pencil()));
  }

  private static List<NumberChange> numbers(Plan before, Plan now) {
    Map<String, NumberPlan> old = index(before.numbers(), NumberPlan::label);
    List<NumberChange> changes = new ArrayList<>();
    for (int i = 0; i < now.numbers().size(); i++) {
      NumberPlan number = now.numbers().get(i);
      NumberPlan was = old.get(number.label());
      if (was == null) {
        continue;
      }
      List<String> says = new ArrayList<>();
      int place = before.numbers().indexOf(was);
      if (place != i) {
        says.add("comes " + (i < place ? "earlier" : "later") + " in the night");
      }
      if (was.state() != number.state()) {
        says.add("is " + number.state().word() + ", was " + was.state().word());
      }
      int bars = number.played().bars() - was.played().bars();
      if (bars != 0) {
        says.add(
            Math.abs(bars)
                + (Math.abs(bars) == 1 ? " bar " : " bars ")
                + (bars < 0 ? "fewer" : "more"));
      } else if (!was.order().equals(number.order())) {
        says.add("other bars are played");
      }
      if (!same(was.open(), number.open())) {
        says.add("vamps or safeties differ");
      }
      if (bars == 0 && !was.played().equals(number.played())) {
        says.add("tempo or beats differ");
      }
      if (!says.isEmpty()) {
        changes.add(
            new NumberChange(
                number.label(),
                was.played().bars(),
                number.played().bars(),
                String.join(", ", says)));
      }
    }
    return changes;
  }

  /** Where open stretches come in the order is another matter. */
  private static boolean same(List<OpenStretch> a, List<OpenStretch> b) {
    return a.size() == b.size()
        && IntStream.range(0, a.size()).allMatch(i -> a.get(i).same(b.get(i)));
  }

  private static List<TurnChange> turns(Plan before, Plan now) {
    return differing(
        before.turns(),
        now.turns(),
        t -> t.leaves() + ">" + t.arrives() + "/" + t.pass(),
        PlanDiff::same,
        (t, was, is) -> new TurnChange(t.leaves(), t.arrives(), t.pass(), was, is));
  }

  /** Tells whether a turn is made the same way: verdict, gap, and what to do about it. */
  private static boolean same(Turn a, Turn b) {
    return a.verdict() == b.verdict()
        && a.gap().equals(b.gap())
        && a.advice().get(0).text().equals(b.advice().get(0).text());
  }

  private static List<RestChange> rests(Plan before, Plan now) {
    return differing(
        before.rests(),
        now.rests(),
        r -> r.number() + "/" + r.first() + "/" + r.passes(),
        (a, b) -> a.bars() == b.bars() && a.text().equals(b.text()),
        (r, was, is) -> new RestChange(r.number(), r.first(), was, is));
  }

  /** Makes the change of one thing, from what it was and what it is; one of them may be missing. */
  private interface Change<T, C> {
    C of(T thing, Optional<T> was, Optional<T> is);
  }

  /** Returns what came or is different, as it is met now, then what went. */
  private static <T, C> List<C> differing(
      List<T> before,
      List<T> now,
      Function<T, String> key,
      BiPredicate<T, T> same,
      Change<T, C> change) {
    Map<String, T> old = index(before, key);
    Map<String, T> young = index(now, key);
    List<C> changes = new ArrayList<>();
    for (T thing : now) {
      Optional<T> was = Optional.ofNullable(old.get(key.apply(thing)));
      if (was.filter(w -> same.test(w, thing)).isEmpty()) {
        changes.add(change.of(thing, was, Optional.of(thing)));
      }
    }
    for (T thing : before) {
      if (!young.containsKey(key.apply(thing))) {
        changes.add(change.of(thing, Optional.of(thing), Optional.empty()));
      }
    }
    return changes;
  }

  private static List<PencilMark> missing(List<PencilMark> from, List<PencilMark> in) {
    Function<PencilMark, String> key =
        m -> m.bar() + "|" + m.where() + "|" + m.mark() + "|" + m.sign();
    Map<String, PencilMark> there = index(in, key);
    return from.stream().filter(m -> !there.containsKey(key.apply(m))).toList();
  }

  private static <T> Map<String, T> index(List<T> list, Function<T, String> key) {
    Map<String, T> map = new LinkedHashMap<>();
    list.forEach(v -> map.putIfAbsent(key.apply(v), v));
    return map;
  }
}
