package org.barmap.plan.words.bar;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.Place;
import org.barmap.plan.change.term.Numerals;

/**
 * A stretch said by its two ends. A rehearsal mark behind "to" is where one lands, a bar number the
 * last bar (common practice); what players mean differently is left open.
 */
final class Edges {
  private static final String BEGINNING =
      "(?:beginning|start|top|head|downbeat|first\\s+beat|barline)";
  private static final Pattern BARS =
      phrase("^(?:bars?|measures?|mm?\\.?|bb?\\.|msr\\.?)\\s*(?=\\d|\\s\\S)\\s*");
  private static final Pattern TWO =
      phrase(
          "(?:from\\s+)?(.+?),?(?:\\s+((?:right\\s+|all\\s+the\\s+way\\s+|straight\\s+)?"
              + "(?:up\\s+to\\s+and\\s+including|to\\s+and\\s+including|through\\s+and\\s+including"
              + "|up\\s+to\\s+but\\s+not\\s+including|to\\s+but\\s+not\\s+including"
              + "|up\\s+until|up\\s+to|through\\s+to|through|thru|until|till|til|to))\\s+"
              + "|\\s*(-)\\s*|\\s*(\\.\\.+)\\s*)(.+?)(,?\\s+\\(?(?:inclusive|incl\\.?|included)\\)?)?");
  private static final Pattern AFTER =
      phrase(
          "(?:(?:right\\s+|just\\s+)?after|(?:the\\s+)?(?:very\\s+)?(end|last\\s+beat)\\s+of)\\s+(.+)");
  private static final Pattern AT_START =
      phrase("(?:the\\s+)?(?:very\\s+)?" + BEGINNING + "\\s+of\\s+(.+)");
  private static final Pattern TO_START =
      phrase("(?:(?:the\\s+)?(?:very\\s+)?" + BEGINNING + "\\s+of|(?:just\\s+)?before)\\s+(.+)");
  private static final Pattern TO_END =
      phrase("(?:the\\s+)?(?:very\\s+)?(?:end|last\\s+beat)\\s+of\\s+(.+)");
  private static final Pattern PICKUP =
      phrase("(?:the\\s+)?(?:pick-?\\s?ups?|upbeats?)\\s+(?:in)?to\\s+(.+)");
  private static final Pattern ONWARDS =
      phrase("(?:from\\s+)?(.+?)\\s+(?:on|onwards?|forward|and\\s+on)");
  private static final Pattern FROM = phrase("from\\s+(.+)");

  /** "After A": A is a bar, and all that follows it up to the next mark. */
  static final String AFTER_MARK = "After that bar, or after all up to the next mark";

  private static final String THROUGH_MARK =
      "Through that bar, or through all that follows it up to the next mark";

  private static final Pattern BEFORE_MARK =
      phrase(
          "(?:from\\s+)?(\\d{1,2}|\\p{L}+)\\s+(?:bars?\\s+)?before\\s+(?:letter\\s+|mark\\s+)?(?-i:[A-Z]{1,2})");
  private static final Pattern BEATS_OF =
      phrase(
          "(?:the\\s+)?(first|last)\\s+(\\d{1,2}|\\p{L}+)\\s+beats?\\s+(?:of|in)\\s+(?:bar\\s+)?(\\w{1,5})");

  private Edges() {}

  /** Leaves out the word for bars. */
  static String plain(String words) {
    return BARS.matcher(words.strip()).replaceFirst("");
  }

  /** An address without the words around it. */
  static String bare(String words) {
    String text = plain(words).replaceFirst("(?i)^from\\s+", "");
    return plain(
        text.replaceFirst("(?i)^(?:the\\s+)?(?:bar|measure)\\s+(?:at|of)\\s+", "")
            .replaceFirst("(?i)^the\\s+(?:bar|measure)\\s+(?=\\w+\\s+before\\s)", ""));
  }

  static Range read(Scope scope, String words, boolean landing) {
    String text = beats(scope, words).orElse(words);
    Matcher two = TWO.matcher(text);
    if (two.matches()) {
      Range range = two(scope, two, landing);
      boolean asAddress =
          range.ways().isEmpty() && two.group(3) != null && !Edge.at(scope, text).refused();
      if (!asAddress) {
        return range;
      }
    }
    Matcher on = ONWARDS.matcher(text);
    Edge end = Edge.slot(scope, scope.slots() - 1);
    if (on.matches()) {
      return Range.between(scope, first(scope, on.group(1)), end);
    }
    Matcher from = FROM.matcher(text);
    if (from.matches()) {
      String bar = from.group(1).strip();
      return Range.refused(
          "From " + bar + " to where?", List.of(bar + " to the end", bar + " to 49"));
    }
    return one(scope, text);
  }

  /** One bar; a mark alone may be its bar or its section. */
  private static Range one(Scope scope, String text) {
    Edge edge = Edge.at(scope, text);
    boolean said = text.matches("(?i)(?:the\\s+)?(?:bar|measure)\\s.*");
    if (edge.refused() || !edge.mark() || said) {
      return each(scope, edge);
    }
    int slot = edge.ats().get(0).place().slot();
    Range bar = Range.between(scope, edge, edge);
    Range section = Range.between(scope, edge, Edge.slot(scope, scope.sectionEnd(slot)));
    if (text.matches("(?i)(?:the\\s+)?letter\\s.*")) {
      return section; // nobody calls one bar a letter
    }
    List<Way> ways = new ArrayList<>(section.ways());
    bar.ways().stream().filter(w -> !ways.contains(w)).forEach(ways::add);
    return new Range(ways, "The bar at the mark, or all up to the next mark", List.of());
  }

  /** One bar of several that are called so. */
  private static Range each(Scope scope, Edge edge) {
    if (edge.refused()) {
      return Range.refused(edge.why(), edge.candidates());
    }
    List<Way> ways = new ArrayList<>();
    for (Edge.At at : edge.ats()) {
      ways.addAll(Way.of(scope, at, at));
    }
    return new Range(ways, edge.why(), edge.candidates());
  }

  private static Range two(Scope scope, Matcher two, boolean landing) {
    Matcher lead = BEFORE_MARK.matcher(two.group(1).strip());
    Matcher end = BEFORE_MARK.matcher(two.group(5).strip());
    boolean alike = lead.matches() && end.matches() && lead.group(1).equalsIgnoreCase(end.group(1));
    if (landing && alike && two.group(6) == null) {
      // as far before one mark as before the other: one lands there, as on the mark itself
      Edge back = before(scope, Edge.at(scope, two.group(5).strip()));
      return Range.between(scope, first(scope, two.group(1)), back);
    }
    String by = two.group(2) == null ? "-" : two.group(2).toLowerCase(Locale.ROOT);
    String said = two.group(6) == null ? by : "including";
    Edge first = first(scope, two.group(1));
    return Range.between(scope, first, last(scope, two.group(5).strip(), said, landing));
  }

  private static Edge first(Scope scope, String words) {
    String text = bare(words);
    Matcher pickup = PICKUP.matcher(text);
    if (pickup.matches()) {
      return pickup(scope, pickup.group(1), true);
    }
    Matcher after = AFTER.matcher(text);
    if (after.matches()) {
      Edge edge = Edge.at(scope, after.group(2));
      Edge behind = edge.moved(scope, scope::next);
      if (!edge.mark()) {
        return edge.refused() ? edge : behind;
      }
      Edge section = edge.moved(scope, p -> Place.bar(scope.sectionEnd(p.slot()) + 1));
      return after.group(1) != null ? section : behind.or(section, AFTER_MARK);
    }
    Matcher start = AT_START.matcher(text);
    return Edge.at(scope, start.matches() ? start.group(1) : text);
  }

  private static Edge last(Scope scope, String words, String by, boolean landing) {
    Matcher pickup = PICKUP.matcher(words);
    if (pickup.matches()) {
      return pickup(scope, pickup.group(1), false);
    }
    Matcher end = TO_END.matcher(words);
    if (end.matches()) {
      Edge edge = Edge.at(scope, end.group(1));
      return edge.mark() ? section(scope, edge) : edge;
    }
    Optional<Edge> whole = Optional.of(Edge.at(scope, words)).filter(e -> !e.refused());
    Matcher start = TO_START.matcher(words);
    if (start.matches() && whole.isEmpty()) {
      return before(scope, Edge.at(scope, start.group(1)));
    }
    Edge edge = whole.orElseGet(() -> Edge.at(scope, words));
    if (edge.refused() || by.endsWith("not including")) {
      return edge.refused() ? edge : before(scope, edge);
    }
    if (by.endsWith("including")) {
      return edge;
    }
    if (by.contains("thr")) {
      return edge.mark() ? edge.or(section(scope, edge), THROUGH_MARK) : edge;
    }
    if (edge.mark() && landing) {
      return before(scope, edge);
    }

    boolean until = by.contains("til") || by.contains("up");
    boolean bar = edge.ats().get(0).place().beat().isEmpty();
    return until && bar && !edge.mark() && !words.matches("(?i)(?:the\\s+)?end")
        ? edge.or(
            before(scope, edge), "Is bar " + words + " the last of them, or do you land on it")
        : edge;
  }

  private static Edge before(Scope scope, Edge edge) {
    return edge.refused() ? edge : edge.moved(scope, scope::before);
  }

  private static Edge section(Scope scope, Edge edge) {
    return edge.moved(scope, p -> Place.bar(scope.sectionEnd(p.slot())));
  }

  /** What is counted in the lower figure is what the director shows. */
  private static boolean quarters(Scope scope, int slot) {
    return scope.meterAt(slot).filter(m -> m.unit() <= 4).isPresent();
  }

  /** "The last two beats of 40", where the meter says which those are. */
  private static Optional<String> beats(Scope scope, String text) {
    Matcher m = BEATS_OF.matcher(text);
    if (!m.matches()) {
      return Optional.empty();
    }
    Scope.Looked bar = scope.find(m.group(3));
    int many = Numerals.value(m.group(2)).orElse(0);
    if (bar.places().size() != 1 || !quarters(scope, bar.places().get(0).slot())) {
      return Optional.empty();
    }
    int all = scope.meterAt(bar.places().get(0).slot()).orElseThrow().beats();
    if (many < 1 || many >= all) {
      return Optional.empty();
    }
    boolean last = m.group(1).equalsIgnoreCase("last");
    String at = m.group(3) + " beat ";
    return Optional.of(at + (last ? all - many + 1 : 1) + " to " + at + (last ? all : many));
  }

  /** A pickup is the end of the bar before; how long it is the words don't say. */
  private static Edge pickup(Scope scope, String words, boolean first) {
    Edge target = Edge.at(scope, words);
    if (target.refused()) {
      return target;
    }
    int slot = scope.moved(target.ats().get(0).place().slot(), -1);
    double silent = slot < 0 ? 0 : scope.number().barAt(slot).silentStart().orElse(0.0);
    boolean whole = silent > 0 && silent == Math.rint(silent) && quarters(scope, slot);
    if (whole) {
      double beat = first ? silent + 1 : silent;
      Place place = new Place(slot, OptionalDouble.of(beat));
      return new Edge(
          List.of(new Edge.At(place, scope.nameAt(slot) + " beat " + (int) beat, false)),
          false,
          "",
          List.of());
    }
    int beats = slot < 0 ? 0 : scope.beatsAt(slot);
    if (beats < 2) {
      String bar = slot < 0 ? "before the number begins" : "in bar " + scope.nameAt(slot);
      return new Edge(
          List.of(),
          false,
          "The pickup lies " + bar + ", and how long it is isn't known; name the beat.",
          List.of());
    }
    List<Edge.At> ats = new ArrayList<>();
    for (int length = 1; length <= Math.min(2, beats - 1); length++) {
      int beat = first ? beats - length + 1 : beats - length;
      Place place = new Place(slot, OptionalDouble.of(beat));
      ats.add(new Edge.At(place, scope.nameAt(slot) + " beat " + beat, false));
    }
    return new Edge(ats, false, "How long is the pickup", List.of());
  }
}
