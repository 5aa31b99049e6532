package org.barmap.map;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import java.util.Optional;

/**
 * Something a person should know about a reading: what could not be read, or where evidence
 * disagreed.
 *
 * @param severity how much it matters
 * @param stage the step it was found in
 * @param page page index, if it concerns one page
 * @param system system index on that page
 * @param bar id of the bar entry it concerns
 * @param outline where it is on the page
 * @param code a short stable word for the kind of finding, for instance {@code number-jump}
 * @param text one plain sentence for the player: what, and what to do
 * @param answers one-click answers, best first; may be empty
 * @param weight how many bars an error here would shift; the list is ordered by it
 */
public record Finding(
    Severity severity,
    Stage stage,
    Optional<Integer> page,
    Optional<Integer> system,
    Optional<String> bar,
    Optional<Outline> outline,
    String code,
    String text,
    @JsonInclude(JsonInclude.Include.NON_EMPTY) List<Answer> answers,
    double weight) {

  /** Reads absent keys as empty. */
  public Finding {
    page = page == null ? Optional.empty() : page;
    system = system == null ? Optional.empty() : system;
    bar = bar == null ? Optional.empty() : bar;
    outline = outline == null ? Optional.empty() : outline;
    answers = answers == null ? List.of() : List.copyOf(answers);
  }

  /**
   * One possible answer to a finding.
   *
   * @param label what the player reads on the button, "This rest is 8"
   * @param correction the correction it stands for, as the service's correction JSON: a flat map of
   *     text to text, numbers in decimal notation; empty means "it is right as it is"
   */
  public record Answer(String label, java.util.Map<String, String> correction) {

    /** Takes a defensive copy. */
    public Answer {
      correction = correction == null ? java.util.Map.of() : java.util.Map.copyOf(correction);
    }
  }

  /** Returns a finding about a whole file or page. */
  public static Finding ofPage(Severity severity, Stage stage, int page, String code, String text) {
    return new Finding(
        severity,
        stage,
        page > 0 ? Optional.of(page) : Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        code,
        text,
        List.of(),
        0);
  }

  /** Returns a finding about one bar entry; an error there would shift one bar. */
  public static Finding ofBar(Severity severity, Stage stage, Bar bar, String code, String text) {
    return ofBar(severity, stage, bar, code, text, List.of(), 1);
  }

  /** Returns a finding about one bar entry, with answers. */
  public static Finding ofBar(
      Severity severity,
      Stage stage,
      Bar bar,
      String code,
      String text,
      List<Answer> answers,
      double weight) {
    return new Finding(
        severity,
        stage,
        Optional.of(bar.page()),
        Optional.of(bar.system()),
        Optional.of(bar.id()),
        Optional.of(bar.outline()),
        code,
        text,
        answers,
        weight);
  }

  /** Returns the same finding, its page under another index. */
  public Finding onPage(int index) {
    return new Finding(
        severity, stage, Optional.of(index), system, bar, outline, code, text, answers, weight);
  }
}
