package org.barmap.plan.oracle;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.NumberPlan;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.order.OrderOfPlay;
import org.barmap.plan.order.Orders;
import org.barmap.plan.pace.Keys;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.Span;
import org.barmap.plan.piece.Spans;
import org.barmap.plan.ready.Hands;
import org.barmap.plan.show.Versions;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.MissingNode;
import tools.jackson.databind.node.ObjectNode;

/** What the planner holds to be in force at a bar, read out of its plan. */
final class States {

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
    hands(worked, label, at.place(), node);
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
    List<ShowChange> held =
        Versions.holding(
            worked.changesOf(number.label()),
            worked.plan().settings().showing(),
            new ArrayList<>());
    return Spans.of(number, held, new ArrayList<>());
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

  private static void hands(Worked worked, String label, int place, ObjectNode node) {
    Hands now = null;
    for (NumberPlan.Held held : worked.number(label).hands()) {
      now = held.from() <= place ? held.held() : now;
    }
    if (now == null) {
      return;
    }
    put(node, "instrument", now.instrument());
    put(node, "bow", now.bow());
    put(node, "mute", now.mute());
  }

  private static void put(ObjectNode node, String key, String held) {
    if (!held.isEmpty()) {
      node.put(key, hand(held));
    }
  }

  static String hand(String planners) {
    return planners.replaceFirst("^mute ", "");
  }
}
