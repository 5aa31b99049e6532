package org.barmap.plan.change;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Severity;
import org.barmap.plan.change.kind.ShowChange;

/**
 * Something the player should know about the form of a number or about a change.
 *
 * @param severity {@code error}: can't be right; {@code doubt}: think about it; {@code info}
 * @param at id of the bar entry it is about
 * @param code a short stable word for the kind of finding
 * @param text what, and the consequence, in plain words
 * @param change id of the change it is about
 * @param candidates what may have been meant; may be empty
 * @param question what is asked, where the finding asks something
 */
public record PlanFinding(
    Severity severity,
    Optional<String> at,
    String code,
    String text,
    Optional<String> change,
    @JsonInclude(JsonInclude.Include.NON_EMPTY) List<String> candidates,
    @JsonInclude(JsonInclude.Include.NON_ABSENT) Optional<Question> question) {

  /** Nobody chooses among more numbers than this. */
  public static final int MOST_NUMBERS = 60;

  /** Takes a defensive copy. */
  public PlanFinding {
    candidates = List.copyOf(candidates);
  }

  /** Returns a finding about the printed form. */
  public static PlanFinding form(Severity severity, String at, String code, String text) {
    return new PlanFinding(
        severity, Optional.of(at), code, text, Optional.empty(), List.of(), Optional.empty());
  }

  /** Returns a finding about a change. */
  public static PlanFinding change(
      Severity severity, Optional<String> at, String code, String text, ShowChange change) {
    return new PlanFinding(
        severity, at, code, text, Optional.of(change.meta().id()), List.of(), Optional.empty());
  }

  /** Returns the same finding with candidates. */
  public PlanFinding withCandidates(List<String> names) {
    return new PlanFinding(severity, at, code, text, change, names, question);
  }

  /** Returns the same finding with what it asks. */
  public PlanFinding asking(Question asked) {
    return new PlanFinding(severity, at, code, text, change, candidates, Optional.of(asked));
  }
}
