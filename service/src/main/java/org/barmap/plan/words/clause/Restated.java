package org.barmap.plan.words.clause;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.term.Numerals;
import org.barmap.plan.words.grammar.Bars;

/**
 * What says again, in other words, what was ordered in the same breath: "cut 13 to 24, so it's
 * straight to C", "the first eight are out, we start at A". It is left aside only where it comes to
 * the same bars.
 */
final class Restated {
  private static final Pattern AFTER =
      phrase("(?:after|from)\\s+(.+?)\\s+go\\s+to\\s+(?:the\\s+)?(.+)");
  private static final Pattern BEGINS = phrase("start\\s+at\\s+(.+)");
  private static final Pattern STOPS = phrase("stop\\s+(?:on|after)\\s+(.+)");
  private static final Pattern CUT = phrase("cut\\s+(?:from\\s+)?(.+)");
  private static final Pattern ROUND =
      phrase("(?:play|repeat|vamp)\\s+(.+?)(?:\\s+(?:once|twice|\\d+\\s+times))");
  private static final Pattern AT = phrase("(pizz|arco|mute\\s+on|mute\\s+off)\\s+at\\s+(.+)");
  private static final Pattern ONCE =
      phrase(
          "no\\s+(?:vamps?|repeats?|D\\.S\\.|D\\.C\\.).*|.*\\bonce|straight\\s+to\\s+the\\s+second\\s+ending");
  private static final Pattern THROUGH =
      phrase(
          "(?:(?:and|so|then|it|is|we|you|just|only|play|do|take|go|straight|right|the|that|that's|a|simply|all)[,\\s]+)*"
              + "(?:once|one\\s+time|straight|through|once\\s+through|one\\s+time\\s+through|straight\\s+through|through\\s+once|on|out)(?:[,\\s]+(?:and|then|on|only|out|through|we|go))*[.!]*");
  private static final Pattern WAITS_NOT =
      phrase(
          "(?:play|the\\s+vamp|repeat)\\b.*(?:once|twice|times)|no\\s+(?:vamps?|hold|G\\.P\\.|safety).*");
  private static final Pattern NO_WAIT =
      phrase(
          "(?:(?:and|so|then|there|is|with)[,\\s]+)*(?:no|without(?:\\s+any)?|do\\s+not|don't)\\s+(?:waiting|wait|cues?|stopping|stop|hanging\\s+about|messing\\s+about|more|fewer)[.!]*");
  private static final Pattern RIT_AGAIN =
      phrase(
          "(?:(?:and|so|a|an|it's|with|make\\s+it|nice|big|long|huge|proper|slow|real)[,\\s]+)*(?:rit|ritard|rall|rallentando)\\.?(?:\\s+(?:into|to|for|before|on)\\s+(?:the|her|his)\\s+\\p{L}+(?:\\s+\\p{L}+)?)?[.!]*");
  private static final Pattern ENDINGS =
      phrase(
          "(?:(?:and|so|with|that's|the)[,\\s]+)*first\\s+ending\\s+(once|twice|\\w+\\s+times)[,\\s]+(?:and\\s+)?(?:then\\s+)?(?:the\\s+)?second(?:\\s+(?:one|ending))?(?:\\s+(?:on\\s+)?the\\s+last\\s+time)?[.!]*"
              + "|(?:(?:and|so|with|that's|the)[,\\s]+)*first\\s+ending\\s+(twice|\\w+\\s+times)[.!]*");
  private static final Pattern STAYS =
      phrase(
          "(?:(?:and|but|so|then|we|you|please|just)[,\\s]+)*(?:(?:keep|leave)\\s+[^,.;]+?(?:\\s+(?:in|alone))?|[^,.;]+?\\s+(?:is\\s+|are\\s+)?(?:still\\s+)?(?:in|stays?(?:\\s+in)?))[.!]*");
  private static final Pattern SECOND_ONLY =
      phrase(
          "(?:(?:and|so|then|but|we|you|just|only|play|do|not|take|bother\\s+with|skip|cut|no|don't|never)[,\\s]+)*the\\s+first\\s+(?:one|ending|time\\s+bars?)(?:\\s+(?:is\\s+)?(?:out|gone|cut))?(?:\\s+(?:now|any\\s?more|at\\s+all))*[.!]*");
  private static final Pattern SECOND_TIME =
      phrase(
          "(?:(?:and|so|then|but|you|are|come|play|back|just|only|it)[,\\s]+)*(?:in\\s+)?(?:(?:on|for)\\s+)?(?:the\\s+)?(?:second|2nd|repeat)(?:\\s+(?:time|pass|one))?(?:[,\\s]+(?:round|around|through|only))*[.!]*");

  private Restated() {}

  /** Whether an instruction takes out, or leaves, the bars that another did already. */
  static boolean same(String one, String other, Bars bars) {
    Matcher at = AT.matcher(one);
    Matcher again = AT.matcher(other);
    if (at.matches() && again.matches()) {
      return at.group(1).equals(again.group(1))
          && bars.slot(at.group(2)).isPresent()
          && bars.slot(at.group(2)).equals(bars.slot(again.group(2)));
    }
    Optional<int[]> first = out(one, bars);
    Optional<int[]> second = out(other, bars);
    return first.isPresent()
        && second.isPresent()
        && first.get()[0] == second.get()[0]
        && first.get()[1] == second.get()[1];
  }

  /** Whether a clause says of an order what it comes to anyway. */
  static boolean follows(List<String> orders, List<Token> clause, Bars bars) {
    String said = Clause.said(clause);
    boolean once = orders.stream().anyMatch(o -> ONCE.matcher(o).matches());
    if (once && THROUGH.matcher(said).matches()) {
      return true;
    }
    if (orders.stream().anyMatch(o -> o.startsWith("rit.")) && RIT_AGAIN.matcher(said).matches()) {
      return clause.stream().noneMatch(t -> t.is(Token.Kind.PLACE));
    }
    if (ENDINGS.matcher(said).matches()) {
      return orders.stream().anyMatch(o -> o.endsWith(" " + Goings.often(endings(said) + 1)));
    }
    boolean ending = orders.stream().anyMatch(o -> o.startsWith("straight to the second"));
    if (ending && SECOND_ONLY.matcher(said).matches()) {
      return true;
    }
    if (orders.stream().anyMatch(o -> WAITS_NOT.matcher(o).matches())
        && NO_WAIT.matcher(said).matches()) {
      return true;
    }
    if (orders.stream().anyMatch(o -> o.matches("no D\\.[SC]\\.")) && onwards(clause, bars)) {
      return true;
    }
    if (stays(clause)) {
      return orders.stream().noneMatch(o -> touches(o, clause, bars));
    }
    boolean first = orders.stream().anyMatch(o -> o.matches("tacet .*1st time"));
    return first && SECOND_TIME.matcher(said).matches()
        || lands(orders, clause, bars)
        || goesOn(orders, clause, bars)
        || fromTo(orders, clause, bars);
  }

  /** "So from 16 to C", where one goes on at C behind 16. */
  private static boolean fromTo(List<String> orders, List<Token> clause, Bars bars) {
    List<Token> places = places(clause);
    List<String> preps =
        clause.stream().filter(t -> t.is(Token.Kind.PREP)).map(Token::value).toList();
    if (!preps.equals(List.of("from", "to"))
        || places.size() != 2
        || !saysNoMoreThan(Set.of("go", "land"), clause)) {
      return false;
    }
    OptionalInt from = bars.slot(places.get(0).value());
    OptionalInt to = bars.slot(bare(places.get(1).value()));
    return both(from, 1, to, -1)
        .filter(
            mine ->
                orders.stream()
                    .flatMap(o -> out(o, bars).stream())
                    .anyMatch(o -> o[0] == mine[0] && o[1] == mine[1]))
        .isPresent();
  }

  /** "A goes twice, then on into B", where B comes right behind it. */
  private static boolean goesOn(List<String> orders, List<Token> clause, Bars bars) {
    List<Token> places = places(clause);
    if (places.size() != 1 || !saysNoMoreThan(Set.of("go", "land", "play"), clause)) {
      return false;
    }
    OptionalInt at = bars.slot(bare(places.get(0).value()));
    return at.isPresent()
        && orders.stream()
            .map(ROUND::matcher)
            .filter(Matcher::matches)
            .flatMap(m -> bars.ends(m.group(1)).stream())
            .anyMatch(e -> bars.slot(e.last()).orElse(-2) + 1 == at.getAsInt());
  }

  /** "13 in", "keep 13", "leave 13 in": bars that are not out, beside others that are. */
  static boolean stays(List<Token> clause) {
    boolean small =
        clause.stream()
            .allMatch(
                t ->
                    t.is(Token.Kind.PLACE)
                        || t.free()
                        || t.text().matches("(?i)in|stays?(?: in)?|alone|still"));
    String said = Clause.said(clause);
    return small && !places(clause).isEmpty() && STAYS.matcher(said).matches();
  }

  /** "Keep 13", "13 in": of some of these bars somebody says that they are not out. */
  static boolean keeps(List<Token> all) {
    for (int i = 0; i < all.size(); i++) {
      boolean ends =
          i + 1 == all.size()
              || all.get(i + 1).is(Token.Kind.COMMA)
              || all.get(i + 1).is(Token.Kind.AND);
      boolean in =
          i > 0
              && ends
              && all.get(i - 1).is(Token.Kind.PLACE)
              && all.get(i).text().equalsIgnoreCase("in");
      if (in || all.get(i).text().matches("(?i)keep|leave|stays?(?: in)?")) {
        return true;
      }
    }
    return false;
  }

  /** Whether the bars of a clause are none of those that were spoken of before. */
  static boolean beside(List<Token> before, List<Token> clause, Bars bars) {
    List<Bars.Ends> those = ends(before, bars);
    List<Bars.Ends> these = ends(clause, bars);
    if (those.isEmpty() || these.size() != places(clause).size()) {
      return false;
    }
    int first = those.stream().mapToInt(e -> bars.slot(e.first()).orElse(0)).min().orElse(0);
    int last = those.stream().mapToInt(e -> bars.slot(e.last()).orElse(0)).max().orElse(0);
    return these.stream()
        .allMatch(
            e ->
                bars.slot(e.first()).orElse(first) > last
                    || bars.slot(e.last()).orElse(last) < first);
  }

  private static List<Bars.Ends> ends(List<Token> tokens, Bars bars) {
    return places(tokens).stream().flatMap(t -> bars.ends(t.value()).stream()).toList();
  }

  /** Whether an order takes out one of the bars that a clause names, or none that is known. */
  private static boolean touches(String order, List<Token> clause, Bars bars) {
    Optional<int[]> out = out(order, bars);
    return out.isEmpty()
        || places(clause).stream()
            .map(t -> bars.ends(t.value()))
            .anyMatch(
                e ->
                    e.isEmpty()
                        || bars.slot(e.get().first()).orElse(0) <= out.get()[1]
                            && bars.slot(e.get().last()).orElse(0) >= out.get()[0]);
  }

  /** How often the first ending is played before the last one. */
  private static int endings(String words) {
    Matcher m = ENDINGS.matcher(words);
    boolean matches = m.matches();
    String said = matches && m.group(1) == null ? m.group(2) : matches ? m.group(1) : "";
    String often = said.toLowerCase(Locale.ROOT);
    return switch (often) {
      case "once" -> 1;
      case "twice" -> 2;
      default -> Numerals.value(often.replaceFirst("\\s.*", "")).orElse(0);
    };
  }

  private static List<Token> places(List<Token> clause) {
    return clause.stream().filter(t -> t.is(Token.Kind.PLACE)).toList();
  }

  /** Whether nothing is said but one of these things to do, places, and words that mean nothing. */
  private static boolean saysNoMoreThan(Set<String> doing, List<Token> clause) {
    return clause.stream()
        .allMatch(t -> t.free() || t.is(Token.Kind.PLACE) || doing.stream().anyMatch(t::does));
  }

  /** "We just play straight on into C", where C comes next when nobody goes back. */
  private static boolean onwards(List<Token> clause, Bars bars) {
    List<Token> places = places(clause);
    if (!saysNoMoreThan(Set.of("go", "land", "play"), clause) || places.isEmpty()) {
      return false;
    }
    OptionalInt at = bars.slot(bare(places.get(places.size() - 1).value()));
    OptionalInt next = bars.landmark("jump", false).map(bars::slot).orElse(OptionalInt.empty());
    return at.isPresent() && at.equals(next);
  }

  /** "We end at 64", where that is the last bar: nothing is changed by it. */
  static boolean asItIs(List<Token> clause, Bars bars) {
    List<Token> places = places(clause);
    boolean stops = clause.stream().anyMatch(t -> t.is(Token.Kind.DO) && t.does("stop"));
    boolean small =
        clause.stream()
            .allMatch(
                t ->
                    t.free() && !t.text().matches("(?i)before|until|till|short of")
                        || t.is(Token.Kind.PLACE)
                        || t.does("stop"));
    return stops
        && small
        && places.size() == 1
        && bars.slot(places.get(0).value()).equals(bars.slot("end"))
        && bars.slot("end").isPresent();
  }

  /** "So it's from the top of A", where one lands on A. */
  private static boolean lands(List<String> orders, List<Token> clause, Bars bars) {
    List<Token> places = places(clause);
    List<Token> besidesOn = clause.stream().filter(t -> !t.is(Token.Kind.ON)).toList();
    boolean small = saysNoMoreThan(Set.of("go", "land", "start", "backin"), besidesOn);
    boolean negated = clause.stream().anyMatch(t -> t.is(Token.Kind.NOT));
    if (places.size() != 1 || !small || negated) {
      return false;
    }
    OptionalInt at = bars.slot(bare(places.get(0).value()));
    return at.isPresent()
        && orders.stream()
            .flatMap(o -> out(o, bars).stream())
            .anyMatch(o -> o[1] + 1 == at.getAsInt());
  }

  private static String bare(String said) {
    return said.replaceFirst(
        "(?i)^(?:the\\s+)?(?:top|beginning|start|head|downbeat)\\s+of\\s+|^letter\\s+", "");
  }

  /** The bars an instruction takes out, as slots. */
  private static Optional<int[]> out(String order, Bars bars) {
    Matcher go = AFTER.matcher(order);
    if (go.matches()) {
      return both(bars.slot(go.group(1)), 1, bars.slot(bare(go.group(2))), -1);
    }
    Matcher begins = BEGINS.matcher(order);
    if (begins.matches()) {
      return both(OptionalInt.of(0), 0, bars.slot(begins.group(1)), -1);
    }
    Matcher stops = STOPS.matcher(order);
    if (stops.matches()) {
      return both(bars.slot(stops.group(1)), 1, bars.slot("end"), 0);
    }
    Matcher cut = CUT.matcher(order);
    return cut.matches()
        ? bars.ends(cut.group(1)).flatMap(e -> both(bars.slot(e.first()), 0, last(e, bars), 0))
        : Optional.empty();
  }

  private static OptionalInt last(Bars.Ends ends, Bars bars) {
    return ends.ends() ? bars.slot("end") : bars.slot(ends.last());
  }

  private static Optional<int[]> both(OptionalInt first, int more, OptionalInt last, int less) {
    return first.isPresent() && last.isPresent()
        ? Optional.of(new int[] {first.getAsInt() + more, last.getAsInt() + less})
        : Optional.empty();
  }
}
