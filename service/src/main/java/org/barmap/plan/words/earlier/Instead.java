package org.barmap.plan.words.earlier;

import java.util.ArrayList;
import java.util.List;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;

/** Puts what was heard in the place of an earlier change. */
final class Instead {
  private Instead() {}

  static Heard<ShowChange> of(ShowChange earlier, Heard<ShowChange> heard) {
    String old = " In place of \"" + earlier.says() + earlier.meta().holds() + "\".";
    if (heard instanceof Heard.Understood<ShowChange> understood) {
      return new Heard.Understood<>(
          understood.said(), of(earlier, understood.change()), understood.sentence() + old);
    }
    Heard.AskedBack<ShowChange> asked = (Heard.AskedBack<ShowChange>) heard;
    List<Heard.Reading<ShowChange>> readings =
        asked.readings().stream().map(r -> of(earlier, r, old)).toList();
    return new Heard.AskedBack<>(
        asked.said(), asked.question(), asked.candidates(), readings, asked.keep());
  }

  private static Heard.Reading<ShowChange> of(
      ShowChange earlier, Heard.Reading<ShowChange> reading, String old) {
    boolean changes = reading.changes().stream().anyMatch(c -> c.kept().isEmpty());
    if (!changes) {
      return reading;
    }
    List<ShowChange> all = new ArrayList<>(reading.changes());
    all.set(0, of(earlier, all.get(0)));
    return new Heard.Reading<>(reading.says() + old, all);
  }

  private static ShowChange of(ShowChange earlier, ShowChange change) {
    return ChangesJson.readOne(ChangesJson.tree(change).put("replaces", earlier.meta().id()));
  }
}
