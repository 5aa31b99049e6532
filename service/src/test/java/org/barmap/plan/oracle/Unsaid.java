package org.barmap.plan.oracle;

import java.util.Map;
import java.util.Set;
import org.barmap.plan.cases.Ask;
import org.barmap.plan.cases.TradeCase;
import tools.jackson.databind.JsonNode;

/**
 * What the planner never says, so that an expectation of it can neither be met nor missed. Whoever
 * teaches the planner one of these takes it out of here and lets {@link PlannerAnswers} pass it on.
 */
final class Unsaid {

  private static final Map<Ask, Set<String>> KEYS = Map.of();

  private static final Map<Ask, Set<String>> KINDS = Map.of();

  private Unsaid() {}

  /** Tells whether the expectation of a row looks at something the planner never says. */
  static boolean in(TradeCase row) {
    return in(row.ask(), row.expect());
  }

  private static boolean in(Ask ask, JsonNode expected) {
    if (expected.isArray()) {
      return expected.valueStream().anyMatch(e -> in(ask, e));
    }
    return expected.properties().stream()
        .anyMatch(
            e ->
                KEYS.getOrDefault(ask, Set.of()).contains(e.getKey())
                    || ((e.getKey().equals("mark") || e.getKey().equals("kind"))
                        && KINDS.getOrDefault(ask, Set.of()).contains(e.getValue().asString("")))
                    || in(ask, e.getValue()));
  }
}
