package org.barmap.plan.oracle;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.barmap.plan.cases.TradeCase;
import org.barmap.plan.cases.TradeCases;
import org.junit.jupiter.api.Test;

/**
 * The planner's answers to the trade's cases, held to what they were.
 *
 * <p>The cases are expectations written from the trade's texts by people who had not read the
 * planner, and they are not all met yet: {@code cases.txt} says of each whether the planner's
 * answer is right, wrong, or missing ({@code unanswered}). A case that was right must stay right. A
 * case that has come to be right, or to be answered, must be entered, so that the list stays true
 * and what was won is kept. Expectations are never changed to fit the planner.
 */
class CaseRatchetTest {

  private static final String FILE = "cases.txt";

  @Test
  void everyCaseIsAnsweredAsTheListSays() {
    Map<String, String> kept = Kept.read(FILE);
    Map<String, String> now = new LinkedHashMap<>();
    List<String> lost = new ArrayList<>();
    List<String> won = new ArrayList<>();
    List<String> others = new ArrayList<>();
    for (TradeCase row : (Iterable<TradeCase>) TradeCases.all()::iterator) {
      CaseVerdict verdict = CaseVerdict.of(row);
      now.put(row.id(), verdict.word());
      String before = kept.getOrDefault(row.id(), "not listed");
      if (!verdict.word().equals(before)) {
        String says = row.id() + " was " + before + ", is " + verdict.word() + " " + verdict.says();
        boolean isRight = verdict.word().equals(CaseVerdict.RIGHT);
        (isRight ? won : before.equals(CaseVerdict.RIGHT) ? lost : others).add(says);
      }
    }
    if (!now.equals(kept)) {
      String update = Kept.write(FILE, now);
      assertThat(lost).as("cases that were right and are not any more").isEmpty();
      assertThat(won).as("cases that have come right: enter them. %s", update).isEmpty();
      assertThat(others).as("cases that stand otherwise than listed. %s", update).isEmpty();
      assertThat(now.keySet()).as("cases listed. %s", update).isEqualTo(kept.keySet());
    }
  }
}
