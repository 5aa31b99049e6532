package org.barmap.exchange.musicxml.write;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import java.util.regex.Pattern;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Key;
import org.barmap.map.Meter;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Navigation;
import org.barmap.plan.NumberPlan;
import org.barmap.plan.Plan;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.change.ShowChanges;

/**
 * A book as MusicXML can say it: single bars, each in one line of text, and the order in which they
 * are played. Two maps of the same book are the same here, however their rests are gathered and
 * wherever their bars lie.
 */
final class SingleBars {
  /** Words that only say what a sign in the map says already. */
  private static final Pattern SAYS_A_SIGN =
      Pattern.compile("To Coda|Fine|D\\.[CS]\\.( al (Coda|Fine))?|\\d+X");

  private final List<String> lines = new ArrayList<>();
  private final List<String> orders = new ArrayList<>();

  private SingleBars() {}

  static SingleBars of(BarMap map) {
    SingleBars all = new SingleBars();
    Map<String, Integer> starts = new HashMap<>();
    Map<String, String> names = new HashMap<>();
    for (MusicalNumber number : map.numbers()) {
      number.firstBar().ifPresent(id -> names.put(id, NumberNames.of(number) + " "));
    }
    boolean opened = false;
    Optional<Key> key = Optional.empty();
    for (Bar bar : map.bars()) {
      starts.put(bar.id(), all.lines.size());
      boolean opens = opened || bar.startBarline().startsRepeat();
      opened = bar.endBarline().startsRepeat();
      // MusicXML has no sign for not knowing a key: the one before goes on
      key = bar.key().isPresent() ? bar.key() : key;
      for (int k = 0; k < bar.count(); k++) {
        String said =
            (k == 0 ? names.getOrDefault(bar.id(), "") : "")
                + (k == 0 && opens ? "|:" : "")
                + (k == 0 ? bar.label().orElse("" + bar.number()) : "" + (bar.number() + k))
                + bar.meter().map((Meter m) -> " " + m.beats() + "/" + m.unit()).orElse("")
                + key.map(f -> " " + f.fifths()).orElse("")
                + (bar.isRest() ? " rest" : " " + bar.content().word())
                + (bar.ending().isEmpty() ? "" : " " + bar.ending())
                + (k == 0 ? start(bar) : "")
                + (k == bar.count() - 1 ? end(bar) : "");
        all.lines.add(said);
      }
    }
    Plan plan = Planner.plan(map, ShowChanges.none(), PlanSettings.USUAL);
    for (NumberPlan number : plan.numbers()) {
      if (!number.order().isEmpty()) {
        all.orders.add(
            number.order().stream().map(e -> played(e, map, starts)).toList().toString());
      }
    }
    return all;
  }

  private static String played(NumberPlan.Entry entry, BarMap map, Map<String, Integer> starts) {
    int from = starts.getOrDefault(entry.bar(), -1) + entry.from().orElse(1) - 1;
    int many = entry.bars().orElseGet(() -> map.bar(entry.bar()).orElseThrow().count());
    List<Integer> bars = new ArrayList<>();
    for (int i = 0; i < many; i++) {
      bars.add(from + i);
    }
    return bars.toString().replaceAll("[\\[\\]]", "");
  }

  private static String start(Bar bar) {
    TreeSet<String> at = new TreeSet<>();
    bar.rehearsal().ifPresent(r -> at.add(r.text() + " " + r.enclosure()));
    bar.words().stream()
        .filter(w -> !Form.ofAJump(bar, w))
        .map(w -> w.text().strip().replaceAll("\\s+", " "))
        .filter(w -> !w.isEmpty() && !SAYS_A_SIGN.matcher(w).matches())
        .forEach(at::add);
    for (Navigation sign : bar.signs()) {
      if (sign == Navigation.SEGNO || sign == Navigation.CODA || sign == Navigation.FERMATA) {
        at.add(sign.word());
      }
    }
    return at.isEmpty() ? "" : " " + at;
  }

  private static String end(Bar bar) {
    TreeSet<String> at = new TreeSet<>();
    for (Navigation sign : bar.signs()) {
      if (sign != Navigation.SEGNO && sign != Navigation.CODA && sign != Navigation.FERMATA) {
        at.add(sign.word());
      }
    }
    bar.words().stream().filter(w -> Form.ofAJump(bar, w)).forEach(w -> at.add(w.text()));
    String line =
        switch (bar.endBarline()) {
          case REPEAT_END, REPEAT_BOTH -> " :|" + bar.times().map(t -> "x" + t).orElse("");
          case DOUBLE -> " ||";
          case FINAL -> " |.";
          case DASHED -> " dashed";
          default -> "";
        };
    return (at.isEmpty() ? "" : " " + at) + line;
  }

  /** Returns every bar in one line. */
  List<String> lines() {
    return lines;
  }

  /** Returns the order of play of every number that has one. */
  List<String> orders() {
    return orders;
  }
}
