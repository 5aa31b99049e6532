package org.barmap.plan.oracle;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.barmap.map.Bar;
import org.barmap.plan.NumberPlan;
import org.barmap.plan.Plan;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.cases.Situation;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.order.OpenStretch;
import org.barmap.plan.page.FirstPage;
import org.barmap.plan.page.Leaf;
import org.barmap.plan.ready.Chair;
import org.barmap.plan.ready.ReadyTimes;
import org.barmap.plan.show.Showing;
import org.barmap.plan.turn.TurnSettings;
import tools.jackson.databind.JsonNode;

/**
 * A situation of the trade's cases, planned.
 *
 * @param written the numbers of the book
 * @param given what the changes came to
 * @param plan what the planner made of it
 */
record Worked(List<WrittenNumber> written, Meaning.Given given, Plan plan) {

  private static final Set<String> SETTINGS =
      Set.of("firstPage", "repeatsAfterJump", "seconds", "inHand", "doublings", "version", "today");
  private static final Set<String> SECONDS =
      Set.of("take-up", "put-down", "turn", "bow", "mute", "retune");

  /** One bar that sounds. */
  record Sounding(
      String name, NumberPlan.Entry entry, int slot, boolean inserted, String beats, int place) {
    /** How the bar is written in the cases. */
    String text() {
      return name + beats;
    }
  }

  static Worked of(Situation s) {
    Meaning.Given given =
        Meaning.given(s.book().map(), s.changes(), s.settings().path("today").asStringOpt());
    Plan plan = Planner.plan(s.book().map(), new ShowChanges(given.changes()), settings(s));
    return new Worked(WrittenNumber.all(s.book().map()), given, plan);
  }

  private static PlanSettings settings(Situation s) {
    JsonNode said = s.settings();
    if (!SETTINGS.containsAll(said.propertyNames())
        || !SECONDS.containsAll(said.path("seconds").propertyNames())) {
      throw new NoAnswer("no such setting: " + said);
    }
    Map<Integer, Leaf> leaves =
        s.book().pages().stream()
            .filter(p -> !p.leaf().equals("bound"))
            .collect(Collectors.toMap(p -> p.index(), p -> Leaf.of(p.leaf()).orElseThrow()));
    TurnSettings usual = PlanSettings.USUAL.turns();
    double turn = said.path("seconds").path("turn").asDouble(usual.turnSeconds());
    TurnSettings turns =
        new TurnSettings(
            FirstPage.of(said.path("firstPage").asString("")),
            leaves,
            turn,
            Math.min(turn, usual.quickSeconds()),
            usual.memoryBars());
    double takeUp =
        said.path("seconds").path("take-up").asDouble(PlanSettings.USUAL.readySeconds());
    // Shorter rests are asked about than a player usually lists.
    Showing showing =
        new Showing(said.path("version").asStringOpt(), said.path("today").asStringOpt());
    return new PlanSettings(
        said.path("repeatsAfterJump").asBoolean(false), turns, 2, takeUp, showing, chair(said));
  }

  private static Chair chair(JsonNode said) {
    JsonNode seconds = said.path("seconds");
    ReadyTimes times =
        new ReadyTimes(
            figure(seconds, "bow"),
            figure(seconds, "mute"),
            Optional.empty(),
            figure(seconds, "retune"),
            figure(seconds, "put-down"));
    List<String> doublings = new ArrayList<>();
    said.path("doublings").forEach(d -> doublings.add(d.asString()));
    Optional<String> inHand =
        Optional.of(said.path("inHand").asString("")).filter(i -> !i.isEmpty());
    return new Chair(inHand, doublings, times);
  }

  private static Optional<Double> figure(JsonNode node, String key) {
    return node.has(key) ? Optional.of(node.get(key).asDouble()) : Optional.empty();
  }

  NumberPlan number(String label) {
    return plan.numbers().stream().filter(n -> n.label().equals(label)).findFirst().orElseThrow();
  }

  WrittenNumber written(String label) {
    return written.stream().filter(n -> n.label().equals(label)).findFirst().orElseThrow();
  }

  List<ShowChange> changesOf(String label) {
    return given.changes().stream().filter(c -> c.number().equals(label)).toList();
  }

  /** Returns how a player calls the first bar of an entry. */
  String first(String id) {
    return name(id, false);
  }

  /** Returns how a player calls the last bar of an entry. */
  String last(String id) {
    return name(id, true);
  }

  private String name(String id, boolean last) {
    for (WrittenNumber number : written) {
      for (int i = 0; i < number.bars().size(); i++) {
        Bar bar = number.bars().get(i);
        if (bar.id().equals(id)) {
          return name(number, number.starts()[i] + (last ? bar.count() - 1 : 0));
        }
      }
    }
    throw new IllegalStateException("no entry " + id);
  }

  /** Returns the name of a bar as the cases write it, "24/2" in the second of two endings. */
  static String name(WrittenNumber number, int slot) {
    return number.nameAt(slot).replaceFirst(" in the (\\d+)\\p{L}+( and .*)? ending$", "/$1");
  }

  /** Returns the bars of a number as they sound, one by one. */
  List<Sounding> sounding(String label) {
    WrittenNumber number = written(label);
    Map<String, Integer> starts =
        IntStream.range(0, number.bars().size())
            .boxed()
            .collect(Collectors.toMap(i -> number.bars().get(i).id(), i -> number.starts()[i]));
    List<Sounding> all = new ArrayList<>();
    for (NumberPlan.Entry entry : number(label).order()) {
      int start = Objects.requireNonNull(starts.get(entry.bar()));
      Bar bar = number.barAt(start);
      int from = entry.from().orElse(1) - 1;
      boolean inserted = entry.inserted().isPresent();
      int many = entry.bars().orElse(inserted ? 1 : bar.count() - from);
      for (int k = 0; k < many; k++) {
        int slot = inserted ? start + bar.count() - 1 : start + from + k;
        String name = inserted ? entry.added().orElseThrow().names().get(k) : name(number, slot);
        all.add(new Sounding(name, entry, slot, inserted, beats(entry, bar), all.size()));
      }
    }
    return all;
  }

  private static String beats(NumberPlan.Entry entry, Bar bar) {
    double cut = entry.beatsCut().orElse(0.0);
    if (cut == 0) {
      return "";
    }
    double start = entry.beatsCutStart().orElse(0.0);
    double end = entry.beatsCutEnd().orElse(0.0);
    int beats = bar.meter().map(m -> m.beats()).orElse(0);
    // Beats out of the middle have no place in the plan.
    return start + end < cut ? "[?]" : "[" + figure(start + 1) + "-" + figure(beats - end) + "]";
  }

  static String figure(double value) {
    return value == Math.rint(value) ? Integer.toString((int) value) : Double.toString(value);
  }

  /** Writes something of each bar that sounds, open stretches in brackets. */
  String inOrder(String label, java.util.function.Function<Sounding, String> text) {
    Map<Integer, String> opens = new HashMap<>();
    Map<Integer, String> closes = new HashMap<>();
    for (OpenStretch open : number(label).open()) {
      for (OpenStretch.Place place : open.places()) {
        opens.put(place.from(), "(");
        String kind = open.kind() == OpenStretch.Kind.VAMP ? ")v" : ")s";
        closes.put(place.from() + place.bars() - 1, kind);
      }
    }
    return sounding(label).stream()
        .map(
            b ->
                opens.getOrDefault(b.place(), "")
                    + text.apply(b)
                    + closes.getOrDefault(b.place(), ""))
        .collect(Collectors.joining(" "));
  }
}
