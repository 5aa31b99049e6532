package org.barmap.plan;

import com.fasterxml.jackson.annotation.JsonIgnore;
import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.barmap.plan.mark.PencilMark;
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
      if (!was.open().equals(number.open())) {
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

  private static List<TurnChange> turns(Plan before, Plan now) {
    Function<Turn, String> key = t -> t.leaves() + ">" + t.arrives() + "/" + t.pass();
    Map<String, Turn> old = index(before.turns(), key);
    Map<String, Turn> young = index(now.turns(), key);
    List<TurnChange> changes = new ArrayList<>();
    for (Turn turn : now.turns()) {
      Optional<Turn> was = Optional.ofNullable(old.get(key.apply(turn)));
      if (was.filter(w -> same(w, turn)).isEmpty()) {
        changes.add(
            new TurnChange(turn.leaves(), turn.arrives(), turn.pass(), was, Optional.of(turn)));
      }
    }
    for (Turn turn : before.turns()) {
      if (!young.containsKey(key.apply(turn))) {
        changes.add(
            new TurnChange(
                turn.leaves(), turn.arrives(), turn.pass(), Optional.of(turn), Optional.empty()));
      }
    }
    return changes;
  }

  /** Tells whether a turn is made the same way: verdict, gap, and what to do about it. */
  private static boolean same(Turn a, Turn b) {
    return a.verdict() == b.verdict()
        && a.gap().equals(b.gap())
        && a.advice().get(0).text().equals(b.advice().get(0).text());
  }

  private static List<RestChange> rests(Plan before, Plan now) {
    Function<LongRest, String> key = r -> r.number() + "/" + r.first() + "/" + r.passes();
    Map<String, LongRest> old = index(before.rests(), key);
    Map<String, LongRest> young = index(now.rests(), key);
    List<RestChange> changes = new ArrayList<>();
    for (LongRest rest : now.rests()) {
      Optional<LongRest> was = Optional.ofNullable(old.get(key.apply(rest)));
      if (was.filter(w -> w.bars() == rest.bars() && w.text().equals(rest.text())).isEmpty()) {
        changes.add(new RestChange(rest.number(), rest.first(), was, Optional.of(rest)));
      }
    }
    for (LongRest rest : before.rests()) {
      if (!young.containsKey(key.apply(rest))) {
        changes.add(
            new RestChange(rest.number(), rest.first(), Optional.of(rest), Optional.empty()));
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
