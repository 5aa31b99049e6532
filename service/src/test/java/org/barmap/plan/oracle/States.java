package org.barmap.plan.oracle;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.NumberPlan;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.order.OrderOfPlay;
import org.barmap.plan.order.Orders;
import org.barmap.plan.pace.Keys;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.Span;
import org.barmap.plan.piece.Spans;
import org.barmap.plan.ready.GetReady;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.MissingNode;
import tools.jackson.databind.node.ObjectNode;

/** What the planner holds to be in force at a bar, read out of its plan. */
final class States {

  private static final Map<GetReady.Kind, String> HANDS =
      Map.of(
          GetReady.Kind.INSTRUMENT,
          "instrument",
          GetReady.Kind.BOW,
          "bow",
          GetReady.Kind.MUTE,
          "mute");

  private States() {}

  static JsonNode at(Worked worked, String label, String bar, int pass) {
    Optional<Worked.Sounding> found =
        worked.sounding(label).stream()
            .filter(b -> b.name().equals(bar) && b.entry().pass() == pass)
            .findFirst();
    if (found.isEmpty()) {
      return MissingNode.getInstance();
    }
    Worked.Sounding at = found.get();
    ObjectNode node = BarMapJson.mapper().createObjectNode();
    NumberPlan.Stretch pace = pace(worked, label, at.place());
    node.put("beats", pace.beats());
    pace.perMinute()
        .ifPresentOrElse(
            t -> node.put("tempo", t), () -> node.put("tempo", PlannerAnswers.UNKNOWN));
    WrittenNumber number = worked.written(label);
    OrderOfPlay order = order(worked, number);
    place(order, at.slot())
        .flatMap(i -> order.pieces().get(i).bar().meter())
        .ifPresent(m -> node.put("meter", m.beats() + "/" + m.unit()));
    place(order, at.slot())
        .flatMap(i -> Keys.read(order.pieces(), spans(worked, number)).get(i))
        .ifPresent(k -> node.put("key", k.fifths()));
    hands(worked, label, at.place()).forEach((kind, to) -> node.put(HANDS.get(kind), hand(to)));
    return node;
  }

  static NumberPlan.Stretch pace(Worked worked, String label, int place) {
    NumberPlan.Stretch now = new NumberPlan.Stretch(0, 0, Optional.empty(), Optional.empty());
    for (NumberPlan.Stretch stretch : worked.number(label).pace()) {
      now = stretch.from() <= place ? stretch : now;
    }
    return now;
  }

  /** The planner keeps meters and keys to itself; they are read where it reads them. */
  private static OrderOfPlay order(Worked worked, WrittenNumber number) {
    boolean again = worked.plan().settings().repeatsAfterJump();
    return Orders.of(number, spans(worked, number), again);
  }

  private static List<Span> spans(Worked worked, WrittenNumber number) {
    return Spans.of(number, worked.changesOf(number.label()), new ArrayList<>());
  }

  private static Optional<Integer> place(OrderOfPlay order, int slot) {
    for (int i = 0; i < order.pieces().size(); i++) {
      Piece piece = order.pieces().get(i);
      if (piece.inserted().isEmpty()
          && slot >= piece.slot()
          && slot < piece.slot() + piece.count()) {
        return Optional.of(i);
      }
    }
    return Optional.empty();
  }

  /**
   * What is held, from the changes on the plan's list; before the first, what that one puts away.
   */
  private static Map<GetReady.Kind, String> hands(Worked worked, String label, int place) {
    Map<GetReady.Kind, String> hands = new EnumMap<>(GetReady.Kind.class);
    List<GetReady> changes =
        worked.plan().instruments().stream().filter(r -> HANDS.containsKey(r.kind())).toList();
    for (GetReady change : changes) {
      if (!hands.containsKey(change.kind())) {
        change.from().ifPresent(f -> hands.put(change.kind(), f));
      }
    }
    int next = 0;
    for (NumberPlan number : worked.plan().numbers()) {
      for (Worked.Sounding bar : worked.sounding(number.label())) {
        while (next < changes.size() && starts(changes.get(next), number, bar)) {
          hands.put(changes.get(next).kind(), changes.get(next).to());
          next++;
        }
        if (number.label().equals(label) && bar.place() == place) {
          return hands;
        }
      }
    }
    return hands;
  }

  private static boolean starts(GetReady change, NumberPlan number, Worked.Sounding bar) {
    return change.number().equals(number.label())
        && change.at().equals(bar.entry().bar())
        && change.pass() == bar.entry().pass();
  }

  static String hand(String planners) {
    return planners.replaceFirst("^mute ", "");
  }
}
