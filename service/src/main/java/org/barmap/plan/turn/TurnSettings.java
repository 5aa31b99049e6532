package org.barmap.plan.turn;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonProperty;
import java.util.Map;
import java.util.Optional;
import org.barmap.plan.page.FirstPage;
import org.barmap.plan.page.Leaf;

/**
 * What the player says about turning pages.
 *
 * @param firstPage how the first page lies; empty until the player says it
 * @param leaves pages that are not bound as the others, by page index; usually none
 * @param turnSeconds how long a quiet turn takes, 0.5 to 20
 * @param quickSeconds how long a quick turn takes, 0.2 to {@code turnSeconds}
 * @param memoryBars how many bars with notes the player trusts to memory, 0 to 32
 */
@JsonInclude(JsonInclude.Include.NON_EMPTY)
public record TurnSettings(
    Optional<FirstPage> firstPage,
    Map<Integer, Leaf> leaves,
    @JsonInclude(JsonInclude.Include.ALWAYS) double turnSeconds,
    @JsonInclude(JsonInclude.Include.ALWAYS) double quickSeconds,
    @JsonInclude(JsonInclude.Include.ALWAYS) int memoryBars) {

  /** Assumptions to start with, not measured: 2 s, 1 s, 4 bars. Nothing is said of the pages. */
  public static final TurnSettings USUAL =
      new TurnSettings(Optional.empty(), Map.of(), 2.0, 1.0, 4);

  /** Checks the ranges. */
  public TurnSettings {
    leaves = Map.copyOf(leaves);
    if (!(turnSeconds >= 0.5 && turnSeconds <= 20)) {
      throw new IllegalArgumentException("a turn takes 0.5 to 20 s, not " + turnSeconds);
    }
    if (!(quickSeconds >= 0.2 && quickSeconds <= turnSeconds)) {
      throw new IllegalArgumentException(
          "a quick turn takes 0.2 s to the time of a turn, not " + quickSeconds);
    }
    if (memoryBars < 0 || memoryBars > 32) {
      throw new IllegalArgumentException("0 to 32 bars can be remembered, not " + memoryBars);
    }
  }

  /** Returns the first page in the words that plans had for it before. */
  @JsonProperty("binding")
  public Optional<String> binding() {
    return firstPage.map(FirstPage::binding);
  }

  /** Returns the same settings with the pages lying in another way. */
  public TurnSettings lying(Optional<FirstPage> first, Map<Integer, Leaf> kinds) {
    return new TurnSettings(first, kinds, turnSeconds, quickSeconds, memoryBars);
  }
}
