package org.barmap.plan.reference.against;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import org.barmap.map.BarMap;
import org.barmap.plan.reference.Aspect;
import org.barmap.plan.reference.ReferenceWalker;
import org.barmap.plan.reference.Walked;
import org.barmap.plan.reference.Walked.OfNumber;
import org.barmap.plan.reference.Walked.Sounding;
import tools.jackson.databind.JsonNode;

/**
 * The walker in a planner's place, with a fault if wanted: what the comparison itself is tested
 * with.
 */
record WalkerAsPlan(UnaryOperator<PlanUnderTest.PlannedNumber> fault) implements PlanUnderTest {

  @Override
  public Planned plan(BarMap map, List<JsonNode> changes, boolean repeatsAfterJump) {
    Walked walked = ReferenceWalker.walk(map, changes, repeatsAfterJump);
    return new Planned(
        walked.numbers().stream().map(WalkerAsPlan::number).map(fault).toList(),
        !walked.asked().isEmpty());
  }

  @Override
  public Passes passes() {
    return Passes.OF_REPEAT;
  }

  private static PlannedNumber number(OfNumber number) {
    return new PlannedNumber(
        number.label(),
        number.playing(),
        number.order().stream().map(WalkerAsPlan::bar).toList(),
        Optional.of(number.open().stream().map(WalkerAsPlan::open).toList()),
        !number.asked().isEmpty(),
        List.of(),
        Total.NONE);
  }

  private static PlannedBar bar(Sounding bar) {
    Map<Aspect, String> state =
        bar.state().entrySet().stream()
            .collect(Collectors.toMap(Map.Entry::getKey, e -> e.getValue().iterator().next()));
    return new PlannedBar(
        bar.bar(),
        bar.offset(),
        bar.inserted() ? Optional.of(bar.name()) : Optional.empty(),
        bar.cut().atStart(),
        bar.cut().inside(),
        bar.cut().atEnd(),
        OptionalInt.of(bar.pass()),
        state);
  }

  private static PlannedOpen open(Walked.Open open) {
    String[] first = open.first().split("/");
    String[] last = open.last().split("/");
    return new PlannedOpen(
        open.kind(), first[0], Integer.parseInt(first[1]), last[0], Integer.parseInt(last[1]));
  }
}
