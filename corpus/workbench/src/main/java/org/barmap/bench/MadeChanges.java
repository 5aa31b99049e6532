package org.barmap.bench;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.MusicalNumber;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.kind.Cut;
import org.barmap.plan.change.kind.Safety;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.kind.Tempo;
import org.barmap.plan.change.kind.Vamp;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.change.term.Leave;

/** Changes all over a made book, for measuring. */
final class MadeChanges {

  private MadeChanges() {}

  /** Returns so many cuts, vamps, safeties and tempi, the same ones every time. */
  static ShowChanges of(BarMap map, int count) {
    Random random = new Random(11);
    List<ShowChange> changes = new ArrayList<>();
    while (changes.size() < count) {
      MusicalNumber number = map.numbers().get(random.nextInt(map.numbers().size()));
      List<Bar> bars = map.barsOf(number);
      int first = 1 + random.nextInt(Math.max(1, bars.get(bars.size() - 1).number() - 4));
      String from = Integer.toString(first);
      String to = Integer.toString(first + random.nextInt(3));
      Meta meta = Meta.of("c" + changes.size());
      changes.add(
          switch (random.nextInt(4)) {
            case 0 -> new Cut(meta, number.label(), from, to);
            case 1 -> new Vamp(meta, number.label(), from, to, Leave.END_OF_PASS);
            case 2 -> new Safety(meta, number.label(), from, to);
            default -> new Tempo(meta, number.label(), from, "1/4", 120);
          });
    }
    return new ShowChanges(changes);
  }
}
