package org.barmap.plan.words.earlier;

import java.util.ArrayList;
import java.util.List;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.change.say.Meta;
import tools.jackson.databind.node.ObjectNode;

/** Puts what was heard in the place of an earlier change. */
final class Instead {
  private Instead() {}

  static Heard<ShowChange> of(ShowChange earlier, Heard<ShowChange> heard) {
    String old = " In place of \"" + earlier.says() + earlier.meta().holds() + "\".";
    if (heard instanceof Heard.Understood<ShowChange> understood) {
      return new Heard.Understood<>(
          understood.said(),
          of(earlier, understood.change()),
          understood.sentence() + old + still(earlier, understood.change()));
    }
    Heard.AskedBack<ShowChange> asked = (Heard.AskedBack<ShowChange>) heard;
    List<Heard.Reading<ShowChange>> readings =
        asked.readings().stream().map(r -> of(earlier, r, old)).toList();
    return new Heard.AskedBack<>(
        asked.said(), asked.question(), asked.candidates(), readings, asked.keep());
  }

  /** The same, in some shows or on some days only. */
  static Heard<ShowChange> when(Heard<ShowChange> heard, Meta when) {
    if (heard instanceof Heard.Understood<ShowChange> understood) {
      Heard.Reading<ShowChange> held =
          when(new Heard.Reading<>(understood.sentence(), List.of(understood.change())), when);
      return new Heard.Understood<>(understood.said(), held.changes().get(0), held.says());
    }
    Heard.AskedBack<ShowChange> asked = (Heard.AskedBack<ShowChange>) heard;
    return new Heard.AskedBack<>(
        asked.said(),
        asked.question(),
        asked.candidates(),
        asked.readings().stream().map(r -> when(r, when)).toList(),
        asked.keep());
  }

  private static Heard.Reading<ShowChange> when(Heard.Reading<ShowChange> reading, Meta when) {
    if (reading.changes().stream().allMatch(c -> c.kept().isPresent())) {
      return reading;
    }
    List<ShowChange> held = new ArrayList<>();
    for (ShowChange change : reading.changes()) {
      ObjectNode tree = ChangesJson.tree(change);
      when.version().ifPresent(v -> tree.put("version", v));
      when.since().ifPresent(d -> tree.put("since", d));
      when.until().ifPresent(d -> tree.put("until", d));
      held.add(ChangesJson.readOne(tree));
    }
    String says = reading.says().replaceFirst("\\.$", "");
    return new Heard.Reading<>(says + when.holds() + ".", held);
  }

  private static Heard.Reading<ShowChange> of(
      ShowChange earlier, Heard.Reading<ShowChange> reading, String old) {
    boolean changes = reading.changes().stream().anyMatch(c -> c.kept().isEmpty());
    if (!changes) {
      return reading;
    }
    List<ShowChange> all = new ArrayList<>(reading.changes());
    all.set(0, of(earlier, all.get(0)));
    String still = still(earlier, reading.changes().get(0));
    return new Heard.Reading<>(reading.says() + old + still, all);
  }

  /** Where nothing else is said it holds in the same version, and on the same days. */
  private static String still(ShowChange earlier, ShowChange change) {
    boolean same = change.meta().always() && !earlier.meta().always();
    return same ? " It holds as that did" + earlier.meta().holds() + "." : "";
  }

  private static ShowChange of(ShowChange earlier, ShowChange change) {
    ObjectNode tree = ChangesJson.tree(change).put("replaces", earlier.meta().id());
    if (change.meta().always()) {
      earlier.meta().version().ifPresent(v -> tree.put("version", v));
      earlier.meta().since().ifPresent(d -> tree.put("since", d));
      earlier.meta().until().ifPresent(d -> tree.put("until", d));
    }
    return ChangesJson.readOne(tree);
  }
}
