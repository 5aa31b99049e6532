package org.barmap.exchange.table;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.barmap.map.BarMap;
import org.barmap.plan.NumberPlan;
import org.barmap.plan.Plan;
import org.barmap.plan.RunSheet;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.mark.PencilMark;
import org.barmap.plan.rest.LongRest;
import org.barmap.plan.turn.Advice;
import org.barmap.plan.turn.Turn;
import org.barmap.plan.turn.TurnMark;

/** What a plan says, as tables; seconds are empty where no tempo is known. */
final class PlanTables {
  private final Plan plan;
  private final Map<String, String> firsts = new HashMap<>();
  private final Map<String, String> lasts = new HashMap<>();

  PlanTables(BarMap map, Plan plan) {
    this.plan = plan;
    map.bars()
        .forEach(
            b -> {
              firsts.put(b.id(), Integer.toString(b.number()));
              lasts.put(b.id(), Integer.toString(b.nextNumber() - 1));
            });
    for (WrittenNumber number : WrittenNumber.all(map)) {
      for (int i = 0; i < number.bars().size(); i++) {
        int start = number.starts()[i];
        String id = number.bars().get(i).id();
        firsts.put(id, number.nameAt(start));
        lasts.put(id, number.nameAt(start + number.bars().get(i).count() - 1));
      }
    }
  }

  Table numbers() {
    List<String> head =
        List.of(
            "musical number",
            "title",
            "tonight",
            "page",
            "bars written",
            "bars played",
            "seconds",
            "on top of that",
            "first entrance",
            "key",
            "left out",
            "followed by",
            "not checked");
    Map<String, NumberPlan> byLabel = new HashMap<>();
    plan.numbers().forEach(n -> byLabel.putIfAbsent(n.label(), n));
    List<List<Cell>> rows = new ArrayList<>();
    for (RunSheet line : plan.runSheet()) {
      Optional<NumberPlan> number = Optional.ofNullable(byLabel.get(line.number()));
      rows.add(
          List.of(
              Cell.of(line.number()),
              Cell.of(line.title()),
              Cell.of(line.state().word()),
              Cell.whole(line.page()),
              Cell.whole(number.map(NumberPlan::written)),
              Cell.whole(number.map(n -> n.played().bars())),
              Cell.tenths(line.seconds()),
              Cell.of(joined(line.plus())),
              Cell.words(line.entrance()),
              Cell.words(line.key()),
              Cell.of(joined(line.cuts())),
              Cell.of(line.link().says()),
              Cell.of(joined(line.unsure()))));
    }
    return new Table("Numbers", head, rows);
  }

  Table turns() {
    List<String> head =
        List.of(
            "musical number",
            "pass",
            "from page",
            "to page",
            "last bar before",
            "first bar after",
            "time for it",
            "bars free",
            "beats free",
            "seconds free",
            "write",
            "what to do",
            "not known");
    List<List<Cell>> rows = new ArrayList<>();
    for (Turn turn : plan.turns()) {
      rows.add(
          List.of(
              Cell.of(turn.number()),
              Cell.of(turn.pass()),
              Cell.of(turn.fromPage()),
              Cell.of(turn.toPage()),
              Cell.of(last(turn.leaves())),
              Cell.of(first(turn.arrives())),
              Cell.of(turn.verdict().word()),
              Cell.of(turn.gap().bars()),
              Cell.tenths(turn.gap().beats()),
              Cell.tenths(turn.gap().seconds()),
              Cell.words(turn.mark().map(TurnMark::word)),
              Cell.words(
                  turn.advice().stream().filter(Advice::chosen).map(Advice::says).findFirst()),
              Cell.words(turn.because())));
    }
    return new Table("Turns", head, rows);
  }

  Table rests() {
    List<String> head =
        List.of(
            "musical number",
            "page",
            "first bar",
            "last bar",
            "bars",
            "beats",
            "seconds",
            "entrance at",
            "passes",
            "how to count",
            "not checked");
    List<List<Cell>> rows = new ArrayList<>();
    for (LongRest rest : plan.rests()) {
      rows.add(
          List.of(
              Cell.of(rest.number()),
              Cell.of(rest.page()),
              Cell.of(first(rest.first())),
              Cell.of(last(rest.last())),
              Cell.of(rest.bars()),
              Cell.tenths(rest.beats()),
              Cell.tenths(rest.seconds()),
              Cell.words(rest.entrance().map(this::first)),
              Cell.of(rest.passes().stream().map(String::valueOf).collect(Collectors.joining(" "))),
              Cell.of(rest.text()),
              Cell.of(joined(rest.unsure()))));
    }
    return new Table("Rests", head, rows);
  }

  Table marks() {
    List<String> head =
        List.of("page", "line", "musical number", "bar", "write", "kind", "not checked");
    List<List<Cell>> rows = new ArrayList<>();
    for (PencilMark mark : plan.pencil()) {
      rows.add(
          List.of(
              Cell.of(mark.page()),
              Cell.of(mark.system()),
              Cell.of(mark.number()),
              Cell.of(mark.where()),
              Cell.of(mark.sign()),
              Cell.of(mark.mark()),
              Cell.of(joined(mark.unsure()))));
    }
    return new Table("Marks", head, rows);
  }

  private String first(String bar) {
    return firsts.getOrDefault(bar, "");
  }

  private String last(String bar) {
    return lasts.getOrDefault(bar, "");
  }

  private static String joined(List<String> texts) {
    return String.join("; ", texts);
  }
}
