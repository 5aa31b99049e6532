package org.barmap.plan.reference.against;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import java.util.function.Consumer;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.MusicalNumber;
import org.barmap.plan.reference.Aspect;
import org.barmap.plan.reference.Walked.Playing;
import org.barmap.plan.reference.against.PlanUnderTest.Planned;
import org.barmap.plan.reference.against.PlanUnderTest.PlannedBar;
import org.barmap.plan.reference.against.PlanUnderTest.PlannedNumber;
import org.barmap.plan.reference.against.PlanUnderTest.PlannedOpen;
import org.barmap.plan.reference.against.PlanUnderTest.Total;
import tools.jackson.databind.JsonNode;

/**
 * Reads a {@code barplan/1} document as a plan to compare, by its schema alone: the order of play,
 * who plays in which pass, the beats and the tempo of {@code pace}, and what {@code hands} hold. An
 * open stretch is told by entries there, so it is compared only where it begins and ends with whole
 * entries; an adapter that knows more says more.
 */
public final class BarplanReader {

  private final BarMap map;
  private final Map<String, Bar> entries;
  private final Map<String, String> numberOfChange = new HashMap<>();
  private final Map<String, List<String>> asked = new HashMap<>();
  private boolean askedOfBook;

  private BarplanReader(BarMap map, List<JsonNode> changes) {
    this.map = map;
    this.entries = map.barsById();
    for (JsonNode change : changes) {
      if (change.get("number") != null) {
        numberOfChange.put(change.get("id").asString(), change.get("number").asString());
      }
    }
  }

  /**
   * Reads a plan.
   *
   * @param plan the {@code barplan/1} document
   * @param changes what it was planned with
   * @param asks tells which entries of {@code findings} ask, refuse or doubt something of the form
   */
  public static Planned read(
      JsonNode plan, BarMap map, List<JsonNode> changes, Predicate<JsonNode> asks) {
    BarplanReader reader = new BarplanReader(map, changes);
    plan.get("findings").forEach(f -> reader.finding(f, asks.test(f)));
    List<PlannedNumber> numbers = new ArrayList<>();
    plan.get("numbers").forEach(n -> numbers.add(reader.number(n)));
    // A change may name a number that is not there; what is asked about it is asked of the book.
    Set<String> labels = numbers.stream().map(PlannedNumber::label).collect(Collectors.toSet());
    boolean elsewhere = !labels.containsAll(reader.asked.keySet());
    return new Planned(numbers, reader.askedOfBook || elsewhere);
  }

  private void finding(JsonNode finding, boolean asks) {
    if (!asks) {
      return;
    }
    Optional<String> label =
        text(finding, "change")
            .flatMap(c -> Optional.ofNullable(numberOfChange.get(c)))
            .or(() -> text(finding, "at").flatMap(this::numberOf));
    if (label.isEmpty()) {
      askedOfBook = true;
    } else {
      String says = finding.get("text").asString();
      asked.computeIfAbsent(label.get(), k -> new ArrayList<>()).add(says);
    }
  }

  private Optional<String> numberOf(String bar) {
    for (MusicalNumber number : map.numbers()) {
      if (map.barsOf(number).stream().anyMatch(b -> b.id().equals(bar))) {
        return Optional.of(number.label());
      }
    }
    return Optional.empty();
  }

  private static Optional<String> text(JsonNode node, String key) {
    return Optional.ofNullable(node.get(key)).map(JsonNode::asString);
  }

  private static double figure(JsonNode node, String key, double otherwise) {
    return node.get(key) == null ? otherwise : node.get(key).asDouble();
  }

  private PlannedNumber number(JsonNode number) {
    String label = number.get("label").asString();
    List<PlannedBar> order = new ArrayList<>();
    JsonNode entries = number.get("order");
    for (int k = 0; k < entries.size(); k++) {
      order.addAll(bars(entries.get(k), entries.path(k - 1), entries.path(k + 1)));
    }
    Playing playing =
        switch (text(number, "state").orElse("played")) {
          case "tacet" -> Playing.TACET;
          case "cut" -> Playing.OUT;
          default -> Playing.PLAYED;
        };
    List<String> says = asked.getOrDefault(label, List.of());
    List<PlannedOpen> open = new ArrayList<>();
    number.get("open").forEach(o -> open.add(open(o)));
    return new PlannedNumber(
        label,
        playing,
        held(paced(order, number.get("pace")), number.get("hands")),
        Optional.of(open),
        !says.isEmpty(),
        says,
        new Total(told(number, "beats"), told(number, "seconds")));
  }

  private static OptionalDouble told(JsonNode number, String key) {
    JsonNode played = number.path("played").path(key);
    return played.isNumber() ? OptionalDouble.of(played.asDouble()) : OptionalDouble.empty();
  }

  private PlannedOpen open(JsonNode open) {
    String last = open.get("last").asString();
    Bar lastEntry = entries.get(last);
    int whole = lastEntry == null ? 1 : lastEntry.count();
    // Schema: firstBar and lastBar are there where it begins or ends inside a multi-bar rest.
    return new PlannedOpen(
        open.get("kind").asString(),
        open.get("first").asString(),
        (int) figure(open, "firstBar", 1) - 1,
        last,
        (int) figure(open, "lastBar", whole) - 1);
  }

  /** One entry of the order as single bars. */
  private List<PlannedBar> bars(JsonNode entry, JsonNode before, JsonNode after) {
    String id = entry.get("bar").asString();
    OptionalInt pass = OptionalInt.of(entry.get("pass").asInt());
    int count = entries.containsKey(id) ? entries.get(id).count() : 1;
    List<PlannedBar> bars = new ArrayList<>();
    Optional<String> inserted = text(entry, "inserted");
    if (inserted.isPresent()) {
      int behind = inside(before, id, after).orElse(count) - 1;
      for (int k = 0; k < (int) figure(entry, "bars", 1); k++) {
        Optional<String> name = Optional.of(lettered(inserted.get(), k));
        bars.add(new PlannedBar(id, behind, name, 0, 0, 0, pass, Map.of()));
      }
      return bars;
    }
    // Schema: from is the first bar played of a shortened rest, 1 for its first.
    int from = (int) figure(entry, "from", 1) - 1;
    int many = (int) figure(entry, "bars", (double) count - from);
    // Schema: silent is said of bars with notes; a rest is one in every pass.
    boolean notes = entries.containsKey(id) && !entries.get(id).isRest();
    String plays = entry.get("silent") == null ? "yes" : "no";
    double start = figure(entry, "beatsCutStart", 0);
    double end = figure(entry, "beatsCutEnd", 0);
    double inside = Math.max(0, figure(entry, "beatsCut", 0) - start - end);
    for (int k = 0; k < many; k++) {
      boolean first = k == 0;
      boolean last = k == many - 1;
      bars.add(
          new PlannedBar(
              id,
              from + k,
              Optional.empty(),
              first ? start : 0,
              first ? inside : 0,
              last ? end : 0,
              pass,
              notes ? Map.of(Aspect.PLAYS, plays) : Map.of()));
    }
    return bars;
  }

  /** How many bars of a rest come before bars inserted inside it, where its bars go on behind. */
  private static OptionalInt inside(JsonNode before, String id, JsonNode after) {
    boolean both =
        before.path("bar").asString("").equals(id) && before.path("inserted").isMissingNode();
    int played = before.path("from").asInt(1) - 1 + before.path("bars").asInt(0);
    boolean goesOn =
        after.path("bar").asString("").equals(id) && after.path("from").asInt(0) == played + 1;
    return both && goesOn && played > 0 ? OptionalInt.of(played) : OptionalInt.empty();
  }

  // Source: trade.md, bar: inserted bars may be lettered, 241A to 241H.
  private static String lettered(String label, int by) {
    char letter = label.charAt(label.length() - 1);
    boolean lettered = letter >= 'A' && letter + by <= 'Z';
    return lettered ? label.substring(0, label.length() - 1) + (char) (letter + by) : label;
  }

  private static List<PlannedBar> paced(List<PlannedBar> order, JsonNode pace) {
    if (pace == null) {
      return order;
    }
    List<PlannedBar> paced = new ArrayList<>();
    Set<Integer> begun = new HashSet<>();
    Map<Aspect, String> now = new EnumMap<>(Aspect.class);
    for (int k = 0; k < order.size(); k++) {
      for (JsonNode stretch : pace) {
        if (stretch.get("from").asInt() == k && begun.add(k)) {
          now = new EnumMap<>(Aspect.class);
          int beats = stretch.get("beats").asInt();
          now.put(Aspect.BEATS, beats == 0 ? Aspect.UNKNOWN : Integer.toString(beats));
          if (stretch.get("toPerMinute") == null) {
            double perMinute = figure(stretch, "perMinute", 0);
            now.put(Aspect.TEMPO, perMinute == 0 ? Aspect.UNKNOWN : Aspect.figure(perMinute));
          }
        }
      }
      paced.add(with(order.get(k), now));
    }
    return paced;
  }

  private static PlannedBar with(PlannedBar bar, Map<Aspect, String> now) {
    Map<Aspect, String> all = new EnumMap<>(Aspect.class);
    all.putAll(bar.state());
    all.putAll(now);
    return bar.with(all);
  }

  /** What is held; the schema: from one bar of the order on, absent where it is not known. */
  private static List<PlannedBar> held(List<PlannedBar> order, JsonNode hands) {
    if (hands == null) {
      return order;
    }
    List<PlannedBar> held = new ArrayList<>();
    Map<Aspect, String> now = new EnumMap<>(Aspect.class);
    int next = 0;
    for (int k = 0; k < order.size(); k++) {
      while (next < hands.size() && hands.get(next).get("from").asInt() <= k) {
        JsonNode hand = hands.get(next++);
        now = new EnumMap<>(Aspect.class);
        text(hand, "instrument").ifPresent(put(now, Aspect.INSTRUMENT));
        text(hand, "bow").map(b -> b.equals("pizz") ? "pizz." : b).ifPresent(put(now, Aspect.BOW));
        text(hand, "mute").map(m -> m.replaceFirst("^mute ", "")).ifPresent(put(now, Aspect.MUTE));
      }
      held.add(with(order.get(k), now));
    }
    return held;
  }

  private static Consumer<String> put(Map<Aspect, String> now, Aspect aspect) {
    return value -> now.put(aspect, value);
  }
}
