package org.barmap.plan.words.clause;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import org.barmap.plan.words.grammar.Bars;

/** The stretches of bars that a clause names. */
final class Stretches {
  private static final Pattern LAST = Pattern.compile("to|until|through|-");

  private Stretches() {}

  /** What places mean for what is done there. */
  enum Use {
    /** Left out: what lies between two bars is out, and they are not. */
    OUT,
    /** Not played by this player: "until C" is from the beginning. */
    SILENT,
    /** Anything else that has a length. */
    OTHER
  }

  /**
   * Takes the places of a clause.
   *
   * @return the stretches; empty where a place can't be one, and where there is none
   */
  static Optional<List<String>> of(Clause c, Use use) {
    List<String> all = new ArrayList<>();
    List<Clause.Place> places = c.places();
    Optional<String> counted = counted(c, places);
    if (counted.isPresent()) {
      return Optional.of(List.of(counted.get()));
    }
    boolean letters = !places.isEmpty() && places.get(0).said().startsWith("letter ");
    for (int i = 0; i < places.size(); i++) {
      Clause.Place place = places.get(i);
      if (i > 0 && c.index(place.token()) == c.index(places.get(i - 1).token()) + 1) {
        return Optional.empty(); // "cut 34 49"
      }
      if (i > 0 && !listed(c, places.get(i - 1), place)) {
        return Optional.empty(); // "it isn't at 5, it's at 9"
      }
      if (i > 0 && before(c, place).matches("(?i)for")) {
        return Optional.empty(); // "out at C for four"
      }
      boolean two = i + 1 < places.size();
      Optional<String> said =
          two && pair(c, place, places.get(i + 1))
              ? Optional.of(joined(place, places.get(++i)))
              : two && place.prep().equals("between")
                  ? between(c, place, places.get(++i), use)
                  : single(c, place, use)
                      .map(s -> letters && s.matches("[A-Z]{1,2}") ? "letter " + s : s);
      if (said.isEmpty() || !c.bars().named(said.get())) {
        return Optional.empty();
      }
      c.use(place);
      c.use(places.get(i));
      all.add(said.get());
    }
    if (all.isEmpty() && c.has(Token.Kind.WHOLE)) {
      c.take(Token.Kind.WHOLE);
      all.add("start to end");
    }
    if (all.isEmpty()) {
      return Optional.empty();
    }
    c.take(Token.Kind.WHOLE);
    counts(c, all);
    return Optional.of(all);
  }

  private static String before(Clause c, Clause.Place place) {
    int at = c.index(place.token()) - 1;
    return at < 0 ? "" : c.tokens().get(at).text();
  }

  /** "Letter C, all twelve bars of it": so many bars as there are say nothing more. */
  private static void counts(Clause c, List<String> all) {
    Optional<Bars.Ends> ends = c.bars().ends(all.get(0));
    if (all.size() == 1 && ends.isPresent()) {
      String many = c.bars().length(ends.get()) + "||";
      c.tokens().stream()
          .filter(t -> t.is(Token.Kind.BARS) && t.value().equals(many))
          .forEach(c::use);
    }
  }

  private static boolean listed(Clause c, Clause.Place one, Clause.Place other) {
    return c.tokens().subList(c.index(one.token()) + 1, c.index(other.token())).stream()
        .noneMatch(
            t ->
                t.is(Token.Kind.THERE)
                    || t.does("start")
                    || t.text().matches("(?i)(?:it|that|there) is")
                    || t.is(Token.Kind.WE)
                    || t.is(Token.Kind.YOU));
  }

  private static boolean pair(Clause c, Clause.Place one, Clause.Place other) {
    return LAST.matcher(other.prep()).matches()
        && (!LAST.matcher(one.prep()).matches() || one.prep().equals("through"))
        && c.beside(one, other);
  }

  private static String joined(Clause.Place one, Clause.Place other) {
    String from = one.prep().equals("after") ? "after " + one.bare() : one.bare();
    String by = other.prep().equals("-") ? " - " : " " + other.prep() + " ";
    return from.replaceFirst("^the (?=\\d+ bars )", "") + by + other.bare();
  }

  private static Optional<String> between(Clause c, Clause.Place one, Clause.Place other, Use use) {
    if (one.mark() && other.mark()) {
      return Optional.of(one.bare() + " to beginning of " + other.bare());
    }
    String inside = "1 after " + one.bare() + " to 1 before " + other.bare();
    return use == Use.OUT && c.bars().named(inside)
        ? Optional.of(inside)
        : Optional.of(one.bare() + " to " + other.bare());
  }

  /** "The end of B" is the last bar of its section, where it stands alone. */
  static String edge(Clause c, String said) {
    java.util.regex.Matcher m =
        org.barmap.plan.change.term.Phrase.phrase(
                "(?:the\\s+)?(?:very\\s+)?(end|last beat|beginning|start|top|head|barline|downbeat|first beat)\\s+of\\s+(?:letter\\s+)?(\\S+)")
            .matcher(said);
    if (!m.matches()) {
      return said;
    }
    boolean end = m.group(1).matches("(?i)end|last beat");
    return end && m.group(2).matches("[A-Z]{1,2}")
        ? c.bars().ends("letter " + m.group(2)).map(Bars.Ends::last).orElse(m.group(2))
        : m.group(2);
  }

  private static Optional<String> single(Clause c, Clause.Place place, Use use) {
    String said = edge(c, place.said());
    if (place.on()) {
      return Optional.of((place.prep().equals("after") ? "after " : "") + place.bare() + " to end");
    }
    boolean rest = c.tokens().stream().anyMatch(t -> t.is(Token.Kind.WHOLE)) || use == Use.SILENT;
    return switch (place.prep()) {
      case "before", "until" ->
          Optional.of(place.block() && !rest ? said : "start until " + place.bare());
      case "through" -> Optional.of("start through " + place.bare());
      case "to" ->
          use == Use.SILENT ? Optional.of("start until " + place.bare()) : Optional.empty();
      case "after" -> Optional.of("after " + place.bare() + " to end");
      case "from" ->
          place.block() || use != Use.SILENT
              ? Optional.of(said)
              : Optional.of(place.bare() + " to end");
      case "between" -> Optional.empty();
      default -> Optional.of(said);
    };
  }

  /** "At E for four bars", "the first two bars from C". */
  private static Optional<String> counted(Clause c, List<Clause.Place> places) {
    List<Token> bars = c.tokens().stream().filter(t -> t.is(Token.Kind.BARS)).toList();
    if (places.size() != 1 || bars.size() != 1 || places.get(0).block()) {
      return Optional.empty();
    }
    String[] many = bars.get(0).value().split("\\|", -1);
    Clause.Place place = places.get(0);
    String where =
        switch (place.prep()) {
          case "before", "after" -> place.prep();
          case "to" -> "before";
          default -> "from";
        };
    String said = "the " + many[0] + " bars " + where + " " + place.bare();
    if (!many[1].isEmpty() || !c.bars().named(said)) {
      return Optional.empty();
    }
    c.use(bars.get(0));
    c.use(place);
    return Optional.of(said);
  }

  /** Takes the one bar at which something begins; the first bar where none is named. */
  static Optional<String> at(Clause c) {
    List<Clause.Place> places = c.places();
    if (places.isEmpty()) {
      boolean whole = c.take(Token.Kind.WHOLE);
      return whole || !c.later() ? Optional.of("start") : Optional.empty();
    }
    if (places.size() == 2 && pair(c, places.get(0), places.get(1))) {
      boolean end = places.get(1).said().matches("(?i)(?:the )?end");
      if (!end) {
        return Optional.empty();
      }
      c.use(places.get(1));
      c.use(places.get(0));
      return Optional.of(places.get(0).bare());
    }
    Clause.Place place = places.get(0);
    if (places.size() > 1 || place.prep().matches("before|after|until|through|between")) {
      return Optional.empty();
    }
    c.use(place);
    c.take(Token.Kind.ON);
    String said = edge(c, place.said());
    return Optional.of(
        place.block() ? c.bars().ends(said).map(Bars.Ends::first).orElse(place.bare()) : said);
  }
}
