package org.barmap.edit;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.draft.Settled;
import org.barmap.edit.kind.Correction;
import org.barmap.map.Bar;
import org.barmap.map.Finding;
import org.barmap.map.Severity;

/**
 * What a correction would change, before it is made.
 *
 * @param renumbered bars whose number would be another one
 * @param first the first bar entry among them, as it is called now and as it would be, "34 → 39";
 *     empty when there are none
 * @param bars how many bars the book would have more; fewer below 0
 * @param left doubts open after it
 * @param gone doubts open now that would not be open then
 * @param raised what would be asked that is not asked now, one sentence each, at most three
 * @param refused why it can't be made, one sentence each; empty when it can
 */
@JsonInclude(JsonInclude.Include.NON_EMPTY)
public record Consequences(
    int renumbered,
    String first,
    int bars,
    int left,
    int gone,
    List<String> raised,
    List<String> refused) {

  /** More than these are not read before a button is pressed. */
  private static final int MOST_RAISED = 3;

  /** Takes defensive copies. */
  public Consequences {
    raised = List.copyOf(raised);
    refused = List.copyOf(refused);
  }

  /** Works them out; nothing is kept. */
  public static Consequences of(Draft before, Correction correction) {
    Outcome outcome = Editing.correct(before, correction);
    if (outcome instanceof Outcome.Refused no) {
      return new Consequences(0, "", 0, 0, 0, List.of(), no.reasons());
    }
    Draft after = ((Outcome.Done) outcome).draft();
    Map<String, Bar> was = before.map().barsById();
    int renumbered = 0;
    String first = "";
    for (Bar bar : after.map().bars()) {
      Bar old = was.getOrDefault(bar.id(), bar);
      if (old.number() != bar.number()) {
        first = first.isEmpty() ? old.number() + " → " + bar.number() : first;
        renumbered += bar.count();
      }
    }
    Set<String> asked = claims(before);
    Set<String> then = claims(after);
    List<String> raised =
        asking(after).stream()
            .filter(f -> !asked.contains(Settled.claim(f, after.map())))
            .map(Finding::text)
            .limit(MOST_RAISED)
            .toList();
    int gone = (int) asked.stream().filter(c -> !then.contains(c)).count();
    int bars = after.map().writtenBars() - before.map().writtenBars();
    return new Consequences(renumbered, first, bars, asking(after).size(), gone, raised, List.of());
  }

  private static List<Finding> asking(Draft draft) {
    return draft.open().stream().filter(f -> f.severity() != Severity.INFO).toList();
  }

  private static Set<String> claims(Draft draft) {
    Set<String> claims = new HashSet<>();
    asking(draft).forEach(f -> claims.add(Settled.claim(f, draft.map())));
    return claims;
  }
}
