package org.barmap.plan.show;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Severity;
import org.barmap.map.rule.BookNumbers;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.kind.ShowChange;

/** Keeps the changes that hold in the version of the show that is planned, on its day. */
public final class Versions {
  private Versions() {}

  /**
   * Returns the changes that hold, in their order; of the others the player is told.
   *
   * @param showing which version, and when
   */
  public static List<ShowChange> holding(
      List<ShowChange> changes, Showing showing, List<PlanFinding> findings) {
    List<ShowChange> held = new ArrayList<>();
    for (ShowChange change : changes) {
      Optional<PlanFinding> other =
          other(change, showing).or(() -> early(change, showing)).or(() -> over(change, showing));
      other.ifPresent(findings::add);
      if (other.isEmpty()) {
        held.add(change);
      }
    }
    List<ShowChange> left = ShowChanges.without(held, held);
    held.stream().filter(c -> !left.contains(c)).map(Versions::replaced).forEach(findings::add);
    return left.stream().filter(c -> !c.takesBack()).toList(); // what is gone for them is gone
  }

  /** Something else is said for this version, or these days. */
  private static PlanFinding replaced(ShowChange change) {
    return told(
        Severity.INFO,
        "replaced",
        says(change) + " doesn't count here: something else was said in its place.",
        change);
  }

  /** The first day counts already; where nobody knows the day it is asked. */
  private static Optional<PlanFinding> early(ShowChange change, Showing showing) {
    Optional<String> since = change.meta().since().filter(Versions::day);
    Optional<String> today = showing.today().filter(Versions::day);
    if (since.isEmpty() || today.filter(t -> t.compareTo(since.get()) >= 0).isPresent()) {
      return Optional.empty();
    }
    String left =
        today.isPresent()
            ? "."
            : ", and nobody has said which day is planned; the plan leaves it out.";
    return Optional.of(
        told(
            today.isPresent() ? Severity.INFO : Severity.DOUBT,
            "early",
            says(change) + " holds from " + since.get() + " on" + left,
            change));
  }

  private static Optional<PlanFinding> other(ShowChange change, Showing showing) {
    Optional<String> version = change.meta().version();
    if (version.isEmpty()) {
      return Optional.empty();
    }
    if (showing.version().isEmpty()) {
      return Optional.of(
          told(
              Severity.DOUBT,
              "version",
              says(change)
                  + " holds in the version \""
                  + version.get()
                  + "\" only, and nobody has said which version is planned; the plan leaves it out.",
              change));
    }
    return showing.version().get().strip().equalsIgnoreCase(version.get().strip())
        ? Optional.empty()
        : Optional.of(
            told(
                Severity.INFO,
                "version",
                says(change)
                    + " holds in the version \""
                    + version.get()
                    + "\" only; the plan is for \""
                    + showing.version().get()
                    + "\".",
                change));
  }

  /** The last day still counts. */
  private static Optional<PlanFinding> over(ShowChange change, Showing showing) {
    Optional<String> until = change.meta().until().filter(Versions::day);
    Optional<String> today = showing.today().filter(Versions::day);
    return until
        .filter(last -> today.filter(t -> t.compareTo(last) > 0).isPresent())
        .map(
            last ->
                told(
                    Severity.INFO,
                    "over",
                    says(change) + " held until " + last + " and is over.",
                    change));
  }

  private static String says(ShowChange change) {
    String number = change.number().isEmpty() ? "" : BookNumbers.spoken(change.number()) + ", ";
    return "\"" + number + change.says() + "\"";
  }

  /** Days are compared as they are written; one that nobody can read ends nothing. */
  private static boolean day(String iso) {
    return iso.matches("\\d{4}-\\d{2}-\\d{2}");
  }

  private static PlanFinding told(Severity severity, String code, String text, ShowChange change) {
    return PlanFinding.change(severity, Optional.empty(), code, text, change);
  }
}
