package org.barmap.plan;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.barmap.plan.mark.PencilMark;
import org.barmap.plan.turn.Turn;

/**
 * What differs between two plans of one book: "what changed since Tuesday".
 *
 * @param numbers numbers that are played differently
 * @param turns turns that came, went, or got another verdict
 * @param write marks to write now
 * @param erase marks to erase now
 */
public record PlanDiff(
    List<NumberChange> numbers,
    List<TurnChange> turns,
    List<PencilMark> write,
    List<PencilMark> erase) {

  /** Takes defensive copies. */
  public PlanDiff {
    numbers = List.copyOf(numbers);
    turns = List.copyOf(turns);
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

  /** Compares two plans. */
  public static PlanDiff between(Plan before, Plan now) {
    return new PlanDiff(
        numbers(before, now),
        turns(before, now),
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
        says.add(Math.abs(bars) + (bars < 0 ? " bars fewer" : " bars more"));
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
      if (was.isEmpty() || was.get().verdict() != turn.verdict()) {
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
