package org.barmap.plan;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Severity;
import org.barmap.plan.change.Addresses;
import org.barmap.plan.change.Found;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.effect.KeptWords;
import org.barmap.plan.change.kind.ShowChange;

/**
 * Words kept as they were said; nothing follows from them.
 *
 * @param number label of the number they are about; empty for the whole show
 * @param at id of the bar entry they are about
 * @param bar the same as a player calls it
 * @param text the words
 * @param when the moment they were kept, ISO 8601
 * @param change id of the change that keeps them
 * @param errata whether they tell of a misprint, which is for the hirer to know
 */
@JsonInclude(JsonInclude.Include.NON_ABSENT)
public record KeptNote(
    String number,
    Optional<String> at,
    Optional<String> bar,
    String text,
    Optional<String> when,
    String change,
    @JsonInclude(JsonInclude.Include.NON_DEFAULT) boolean errata) {

  /** Returns the notes among the changes, in the order they were made. */
  static List<KeptNote> of(
      List<WrittenNumber> numbers, List<ShowChange> changes, List<PlanFinding> findings) {
    List<KeptNote> notes = new ArrayList<>();
    for (ShowChange change : changes) {
      change.kept().ifPresent(k -> notes.add(one(numbers, change, k, findings)));
    }
    return List.copyOf(notes);
  }

  private static KeptNote one(
      List<WrittenNumber> numbers, ShowChange note, KeptWords words, List<PlanFinding> findings) {
    Optional<WrittenNumber> number =
        note.number().isEmpty()
            ? numbers.stream().filter(n -> numbers.size() == 1).findFirst()
            : NumberOrder.of(numbers, note, findings);
    Optional<Integer> slot =
        number.flatMap(n -> words.first().flatMap(f -> slot(n, f, note, findings)));
    return new KeptNote(
        note.number(),
        slot.flatMap(s -> number.map(n -> n.barAt(s).id())),
        slot.flatMap(s -> number.map(n -> n.nameAt(s))).or(words::first),
        words.text(),
        note.meta().when(),
        note.meta().id(),
        words.errata());
  }

  private static Optional<Integer> slot(
      WrittenNumber number, String said, ShowChange note, List<PlanFinding> findings) {
    Found found = new Addresses(number).find(said);
    if (found instanceof Found.At at) {
      return Optional.of(at.place().slot());
    }
    Found.Refused refused = (Found.Refused) found;
    findings.add(
        PlanFinding.change(
                Severity.INFO,
                Optional.empty(),
                "address",
                "A note stays with its number: " + refused.text(),
                note)
            .withCandidates(refused.candidates()));
    return Optional.empty();
  }
}
