package org.barmap.plan.change.effect;

import com.fasterxml.jackson.annotation.JsonIgnore;
import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.Optional;
import org.barmap.plan.change.term.Figures;
import org.barmap.plan.change.term.Leave;

/**
 * How bars held open are left; a component is empty where nobody said.
 *
 * @param leave at once, or at the end of a pass
 * @param cue what they wait for, as it was said: "the cart stops"
 * @param exitBar the bar behind which, or in which, they are left the last time round, as it was
 *     said
 * @param exitBeat the beat of that bar on which they are left; the beat is played no more
 */
@JsonInclude(JsonInclude.Include.NON_ABSENT)
public record Leaving(
    Optional<Leave> leave,
    Optional<String> cue,
    Optional<String> exitBar,
    Optional<Double> exitBeat) {

  /** For bars of which nobody said how they are left. */
  public static final Leaving UNSAID =
      new Leaving(Optional.empty(), Optional.empty(), Optional.empty(), Optional.empty());

  /** Returns it in words, without the cue: "out after bar 10"; empty where nobody said. */
  @JsonIgnore
  public Optional<String> out() {
    Optional<String> exit =
        exitBar.map(
            bar ->
                exitBeat
                    .map(b -> "out on beat " + Figures.plain(b) + " of bar " + bar)
                    .orElse("out after bar " + bar));
    return exit.or(
        () -> leave.map(l -> l == Leave.ANY_TIME ? "out any time" : "out at the end of a pass"));
  }
}
