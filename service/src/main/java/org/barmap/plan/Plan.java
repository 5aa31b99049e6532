package org.barmap.plan;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonProperty;
import java.util.List;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.mark.PencilMark;
import org.barmap.plan.page.CheckedPages;
import org.barmap.plan.page.PagePlace;
import org.barmap.plan.ready.GetReady;
import org.barmap.plan.rest.LongRest;
import org.barmap.plan.trap.Trap;
import org.barmap.plan.turn.Turn;

/**
 * Everything computed from a map and the show's changes, format {@code barplan/1}.
 *
 * @param format always {@link #FORMAT}
 * @param settings what it was computed with
 * @param numbers in the order of the night
 * @param turns page turns in the order they come
 * @param rests long rests in the order they come
 * @param instruments changes of instrument, bow, mute and extension in the order they come
 * @param pencil marks to write, by page and system
 * @param lookAhead what the next page starts with, and traps
 * @param runSheet the night in order
 * @param notes words kept as they were said, in the order they were made
 * @param traps what trips a player who doesn't know the show, number by number in the order of the
 *     night, in each the grave ones first
 * @param findings what can't be right, what to think about, what follows from a change
 * @param pages on which side each page lies, in the order of the book
 * @param checked how much of the book a person has looked at
 * @param night how long the whole night is
 */
public record Plan(
    @JsonProperty("format") String format,
    PlanSettings settings,
    List<NumberPlan> numbers,
    List<Turn> turns,
    List<LongRest> rests,
    List<GetReady> instruments,
    List<PencilMark> pencil,
    List<LookAhead> lookAhead,
    List<RunSheet> runSheet,
    @JsonInclude(JsonInclude.Include.NON_EMPTY) List<KeptNote> notes,
    @JsonInclude(JsonInclude.Include.NON_EMPTY) List<Trap> traps,
    List<PlanFinding> findings,
    List<PagePlace> pages,
    CheckedPages checked,
    Night night) {

  /** The format's name, first key of every document. */
  public static final String FORMAT = "barplan/1";

  /** Takes defensive copies. */
  public Plan {
    numbers = List.copyOf(numbers);
    turns = List.copyOf(turns);
    rests = List.copyOf(rests);
    instruments = List.copyOf(instruments);
    pencil = List.copyOf(pencil);
    lookAhead = List.copyOf(lookAhead);
    runSheet = List.copyOf(runSheet);
    notes = List.copyOf(notes);
    traps = List.copyOf(traps);
    findings = List.copyOf(findings);
    pages = List.copyOf(pages);
  }
}
