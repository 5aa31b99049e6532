package org.barmap.plan.cases;

import java.util.List;
import tools.jackson.databind.JsonNode;

/** Puts the trade's cases to whoever answers. */
public final class CaseRunner {

  private final Answers answers;

  /** Takes who answers. */
  public CaseRunner(Answers answers) {
    this.answers = answers;
  }

  /** Returns what differs from the expectation of a row, one sentence each; empty when right. */
  public List<String> run(TradeCase row) {
    JsonNode answer = row.ask().put(answers, row);
    return Comparing.differences(row.expect(), answer).stream()
        .map(d -> row.id() + d + " [" + row.source() + "]")
        .toList();
  }
}
