package org.barmap.edit;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.barmap.edit.draft.Change;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.draft.Recount;
import org.barmap.edit.draft.Resettling;
import org.barmap.edit.draft.Settled;
import org.barmap.edit.draft.Steps;
import org.barmap.edit.kind.AddBarline;
import org.barmap.edit.kind.BarCorrection;
import org.barmap.edit.kind.Correction;
import org.barmap.edit.kind.Held;
import org.barmap.edit.kind.ReadLine;
import org.barmap.map.Bar;
import org.barmap.map.Finding;
import org.barmap.map.json.BarMapJson;
import org.barmap.map.rule.BarMapRules;
import org.barmap.reckon.write.FindingWriter;
import tools.jackson.databind.JsonNode;

/** Makes corrections, and takes them back. */
public final class Editing {

  private Editing() {}

  /** Makes a correction: checks it, computes its change, numbers the bars again. */
  public static Outcome correct(Draft draft, Correction correction) {
    List<String> problems = correction.validate(draft);
    if (!problems.isEmpty()) {
      return new Outcome.Refused(problems);
    }
    String text = correction.says(draft);
    Draft applied =
        Held.KEY.fitted(Steps.startsOf(draft.map()), correction.applyTo(draft), Set.of());
    Draft counted = Recount.numbered(draft, answer(applied, draft, correction));
    Draft made = withoutAsking(Resettling.settled(counted), draft, correction);
    return checked(draft, made, Change.between(draft, made), text);
  }

  /** Adds a line of music with what was read in its frame; all else people said stays. */
  public static Outcome readLine(Draft draft, ReadLine line) {
    List<String> problems = line.drawn().validate(draft);
    if (!problems.isEmpty()) {
      return new Outcome.Refused(problems);
    }
    Draft applied = Held.KEY.fitted(Steps.startsOf(draft.map()), line.applyTo(draft), Set.of());
    Draft made = Resettling.settled(Recount.numbered(draft, applied));
    return checked(draft, made, Change.between(draft, made), line.says(draft));
  }

  /** Takes a change back. */
  public static Outcome undo(Draft draft, Change change, String text) {
    return checked(draft, Resettling.judged(change.revert(draft)), change, text);
  }

  /** Makes a change again that was taken back. */
  public static Outcome redo(Draft draft, Change change, String text) {
    return checked(draft, Resettling.judged(change.apply(draft)), change, text);
  }

  private static Outcome checked(Draft before, Draft after, Change change, String text) {
    List<String> wrong = BarMapRules.check(after.map());
    if (!wrong.isEmpty()) {
      return new Outcome.Refused(
          List.of("The page was read again since; this no longer fits: " + wrong.get(0)));
    }
    boolean nothing = after.equals(before);
    return new Outcome.Done(after, change, nothing ? text + " (as it was)" : text);
  }

  /** Answers the doubts at the same bar that offered a correction of this kind. */
  private static Draft answer(Draft made, Draft before, Correction correction) {
    JsonNode json = BarMapJson.mapper().valueToTree(correction);
    String kind = json.path("kind").asString("");
    String bar = json.path("bar").asString(json.path("before").asString(""));
    if (correction instanceof AddBarline added) {
      bar = added.inside(before).map(Bar::id).orElse("");
    }
    Set<String> keys = new HashSet<>();
    for (Finding finding : asked(before)) {
      if (!bar.isEmpty() && offers(finding, kind, bar)) {
        keys.add(Settled.claim(finding, before.map()));
      }
    }
    return keys.isEmpty() ? made : made.with(made.settled().withDismissed(keys));
  }

  /** What is open, and what the reading asked that is not open on a verified page. */
  private static List<Finding> asked(Draft draft) {
    return Stream.concat(draft.open().stream(), draft.map().findings().stream()).toList();
  }

  /**
   * A number that an open doubt offered has been looked at: that the print says another one is not
   * asked again.
   */
  private static Draft withoutAsking(Draft made, Draft before, Correction correction) {
    if (!(correction instanceof BarCorrection.SetNumber set)) {
      return made;
    }
    JsonNode json = BarMapJson.mapper().valueToTree(correction);
    boolean offered =
        before.open().stream()
            .flatMap(f -> f.answers().stream())
            .anyMatch(
                a ->
                    !a.correction().isEmpty()
                        && a.correction().entrySet().stream()
                            .allMatch(
                                e -> json.path(e.getKey()).asString("").equals(e.getValue())));
    List<Finding> again =
        made.open().stream()
            .filter(f -> f.code().equals(FindingWriter.MISREAD))
            .filter(f -> f.bar().filter(set.bar()::equals).isPresent())
            .toList();
    return offered && !again.isEmpty() ? made.answered(again) : made;
  }

  /** Kinds of corrections that say the same thing of a bar in different words. */
  private static String alike(String kind) {
    return switch (kind) {
      case "set-content" -> "set-count";
      case "set-label" -> "set-number";
      case "remove-rehearsal", "move-rehearsal" -> "set-rehearsal";
      case "remove-number", "add-tacet-number" -> "start-number";
      case "remove-meter" -> "set-meter";
      default -> kind;
    };
  }

  /** Tells whether an answer of a finding is a correction of this kind at this bar. */
  private static boolean offers(Finding finding, String kind, String bar) {
    return finding.answers().stream()
        .map(Finding.Answer::correction)
        .filter(c -> alike(kind).equals(alike(c.getOrDefault("kind", ""))))
        .map(c -> c.getOrDefault("bar", c.getOrDefault("before", finding.bar().orElse(""))))
        .anyMatch(bar::equals);
  }
}
