package org.barmap.plan.words.bar;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.term.Numerals;

/** Stretches said as a whole: "the last 4 bars", "the 4 bars before B", "all of B". */
final class Blocks {
  private static final String COUNT = "(" + Numerals.CARDINAL + ")";
  private static final String BARS = "(?:bars?|measures?)";
  private static final Pattern ALL =
      phrase(
          "(?:(?:it\\s+)?all(?:\\s+of\\s+it)?|everything|throughout|the\\s+(?:whole|entire)\\s+(?:thing|number|piece|song)"
              + "|from\\s+top\\s+to\\s+bottom)");
  private static final Pattern HALF =
      phrase(
          "(?:the\\s+)?(first|1st|second|2nd|last)\\s+half\\s+of\\s+(?:(?:bar|measure)\\s+)?(.+)");
  private static final Pattern SECTION =
      phrase(
          "(?:(?:all|the\\s+whole)\\s+of|(?:the\\s+)?section(?:\\s+at)?)\\s+(.+)|(?:the\\s+)?(.+?)\\s+section");
  private static final Pattern LAST =
      phrase(
          "(?:the\\s+)?(last|first|final|opening)\\s+(?:"
              + COUNT
              + "(?:\\s+"
              + BARS
              + ")?|"
              + BARS
              + ")(?:\\s+(?:of|in)\\s+(.+))?");
  private static final Pattern NEAR =
      phrase(
          "(the\\s+)?(?:(?:last|final)\\s+(?=.*\\bbefore\\b)|(?:first|next)\\s+(?=.*\\bafter\\b))?"
              + COUNT
              + "(\\s+"
              + BARS
              + ")?\\s+(before|from|after|at|starting\\s+at|beginning\\s+at)\\s+(.+)");
  private static final Pattern AFTER =
      phrase(
          "(?:everything|all|the\\s+rest|all\\s+bars)?\\s*\\b(after|from|before|until|up\\s+to)\\s+(.+)");
  private static final Pattern ENDING =
      phrase("(?:the\\s+)?(" + Numerals.ORDINAL + ")[\\s-](?:ending|time\\s+bars?)");

  private Blocks() {}

  static Optional<Range> read(Scope scope, String text) {
    if (scope.slots() == 0) {
      return Optional.empty();
    }
    if (ALL.matcher(text).matches()) {
      return Optional.of(slots(scope, 0, scope.slots() - 1));
    }
    Matcher half = HALF.matcher(text);
    if (half.matches()) {
      return Optional.of(half(scope, half));
    }
    Matcher section = SECTION.matcher(text);
    if (section.matches()) {
      return Optional.of(
          section(scope, section.group(1) == null ? section.group(2) : section.group(1)));
    }
    Matcher last = LAST.matcher(text);
    if (last.matches()) {
      return Optional.of(ofEnd(scope, last));
    }
    Matcher near = NEAR.matcher(text);
    if (near.matches()
        && !near.group(5).matches("(?i).*\\s(?:to|through|thru|until|till|-)\\s.*")) {
      return Optional.of(near(scope, near));
    }
    Matcher ending = ENDING.matcher(text);
    if (ending.matches()) {
      return Optional.of(ending(scope, Numerals.value(ending.group(1))));
    }
    Matcher all = AFTER.matcher(text);
    boolean every = all.matches() && text.matches("(?i)(?:everything|all|the\\s+rest)\\b.*");
    boolean bare = all.matches() && !all.group(1).equalsIgnoreCase("from");
    return (every || bare) && !two(text) ? Optional.of(side(scope, all)) : Optional.empty();
  }

  private static Range half(Scope scope, Matcher said) {
    Edge bar = Edge.at(scope, said.group(2));
    if (bar.refused()) {
      return Range.refused(bar.why(), bar.candidates());
    }
    int slot = bar.ats().get(0).place().slot();
    boolean first = said.group(1).matches("(?i)first|1st");
    int end = scope.sectionEnd(slot);
    int many = end - slot + 1;
    if (bar.mark() && many > 1) {
      return many % 2 != 0
          ? Range.refused("That section has no halves; name the bars.", List.of())
          : first ? slots(scope, slot, slot + many / 2 - 1) : slots(scope, slot + many / 2, end);
    }
    int beats = scope.beatsAt(slot);
    if (beats % 2 != 0 || beats == 0) {
      return Range.refused(
          "Bar " + scope.nameAt(slot) + " has no halves that are known; name the beats.",
          List.of());
    }
    return Range.between(
        scope,
        Edge.beat(scope, slot, first ? 1 : beats / 2 + 1),
        Edge.beat(scope, slot, first ? beats / 2 : beats));
  }

  private static boolean two(String text) {
    return text.matches("(?i)(?:after|from).*\\s(?:to|through|thru|until|till|-)\\s.*");
  }

  private static Range slots(Scope scope, int from, int to) {
    return Range.between(scope, Edge.slot(scope, from), Edge.slot(scope, to));
  }

  private static Range section(Scope scope, String words) {
    Edge edge = Edge.at(scope, words);
    if (edge.refused()) {
      return Range.refused(edge.why(), edge.candidates());
    }
    int slot = edge.ats().get(0).place().slot();
    return Range.between(scope, edge, Edge.slot(scope, scope.sectionEnd(slot)));
  }

  private static Range ofEnd(Scope scope, Matcher said) {
    int bars = said.group(2) == null ? 1 : Numerals.value(said.group(2)).orElse(1);
    String which = said.group(1).toLowerCase(Locale.ROOT);
    boolean atEnd = which.equals("last") || which.equals("final");
    int from = 0;
    int to = scope.slots() - 1;
    if (said.group(3) != null) {
      Edge edge = Edge.at(scope, said.group(3));
      if (edge.refused()) {
        return Range.refused(edge.why(), edge.candidates());
      }
      from = edge.ats().get(0).place().slot();
      to = scope.sectionEnd(from);
    }
    int first = atEnd ? scope.moved(to, 1 - bars) : from;
    int last = atEnd ? to : scope.moved(from, bars - 1 + (from == 0 ? scope.pickups() : 0));
    if (said.group(3) == null && atEnd) {
      return Range.between(scope, Edge.slot(scope, first), Edge.at(scope, "end"));
    }
    return slots(scope, first, last);
  }

  private static Range near(Scope scope, Matcher said) {
    int bars = Numerals.value(said.group(2)).orElse(1);
    Edge edge = Edge.at(scope, said.group(5));
    if (edge.refused()) {
      return Range.refused(edge.why(), edge.candidates());
    }
    int slot = edge.ats().get(0).place().slot();
    String where = said.group(4).toLowerCase(Locale.ROOT);
    boolean before = where.equals("before");
    boolean after = where.equals("after");
    int from = before ? scope.moved(slot, -bars) : after ? scope.moved(slot, 1) : slot;
    Range block = slots(scope, from, scope.moved(from, bars - 1));
    boolean plain = said.group(1) == null && said.group(3) == null && bars > 1;
    if (plain && (before || after)) {
      int at = before ? scope.moved(slot, -bars) : scope.moved(slot, bars);
      return or(block, slots(scope, at, at), "That one bar, or so many bars");
    }
    if (after && edge.mark() && bars > 1) {
      return or(
          block,
          slots(scope, slot, scope.moved(slot, bars - 1)),
          "Some count the bar at the mark as the first, some don't");
    }
    return block;
  }

  private static Range or(Range one, Range other, String why) {
    if (one.ways().isEmpty() || other.ways().isEmpty()) {
      return one.ways().isEmpty() ? other : one;
    }
    List<Way> ways = new ArrayList<>(one.ways());
    ways.addAll(other.ways());
    return new Range(ways, why, List.of());
  }

  private static Range ending(Scope scope, OptionalInt nth) {
    int from = -1;
    int to = -1;
    for (int slot = 0; slot < scope.slots(); slot++) {
      if (scope.number().barAt(slot).ending().contains(nth.orElse(0))) {
        from = from < 0 ? slot : from;
        to = slot;
      } else if (from >= 0) {
        break;
      }
    }
    return from < 0 ? Range.refused("There is no such ending.", List.of()) : slots(scope, from, to);
  }

  private static Range side(Scope scope, Matcher said) {
    Edge edge = Edge.at(scope, said.group(2).replaceFirst("(?i)\\s+(?:on|onwards?)$", ""));
    if (edge.refused()) {
      return Range.refused(edge.why(), edge.candidates());
    }
    String where = said.group(1).toLowerCase(Locale.ROOT);
    if (where.equals("after") || where.equals("from")) {
      Edge first = where.equals("after") ? edge.moved(scope, scope::next) : edge;
      return Range.between(scope, first, Edge.slot(scope, scope.slots() - 1));
    }
    return Range.between(scope, Edge.slot(scope, 0), edge.moved(scope, scope::before));
  }
}
