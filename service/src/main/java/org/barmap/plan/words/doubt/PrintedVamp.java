package org.barmap.plan.words.doubt;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.words.grammar.Bars;

/** "The vamp is the first four bars now", where a vamp is printed: that one is played once then. */
final class PrintedVamp {
  private PrintedVamp() {}

  /** Puts first, in a question about such a vamp, that it is in the place of the printed one. */
  static Heard<ShowChange> instead(
      Heard<ShowChange> heard, List<ShowChange> changes, Bars bars, ShowChange note) {
    Optional<Bars.Ends> printed = bars.open("vamp").flatMap(bars::ends);
    boolean one = changes.size() == 1 && changes.get(0).kind().equals("vamp");
    if (!(heard instanceof Heard.AskedBack<ShowChange> asked) || !one || printed.isEmpty()) {
      return heard;
    }
    Bars.Ends old = printed.get();
    ShowChange once =
        ChangesJson.readOne(
            BarMapJson.mapper()
                .createObjectNode()
                .put("id", note.meta().id())
                .put("number", changes.get(0).number())
                .put("kind", "play")
                .put("first", old.first())
                .put("last", old.last())
                .put("times", 1));
    List<Heard.Reading<ShowChange>> readings = new ArrayList<>();
    for (Heard.Reading<ShowChange> reading : asked.readings()) {
      if (reading.changes().equals(changes)) {
        String says = reading.says() + " The printed one, " + old.first() + " to " + old.last();
        readings.add(
            new Heard.Reading<>(says + ", is played once.", List.of(once, changes.get(0))));
        readings.add(new Heard.Reading<>(reading.says() + " The printed one stays.", changes));
      } else {
        readings.add(reading);
      }
    }
    return new Heard.AskedBack<>(
        asked.said(), asked.question(), asked.candidates(), readings, asked.keep());
  }
}
