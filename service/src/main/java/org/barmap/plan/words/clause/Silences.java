package org.barmap.plan.words.clause;

import java.util.List;
import java.util.Optional;
import org.barmap.plan.words.grammar.Bars;
import org.barmap.plan.words.grammar.Waiting;

/** Where this player is silent, where everything waits, what is added. */
final class Silences {
  private static final List<String> NONE = List.of();

  private Silences() {}

  static List<Clause.Deed> all() {
    return List.of(
        Silences::rest,
        Silences::part,
        Silences::tacet,
        Silences::inPass,
        Silences::hold,
        Silences::pause,
        Silences::insert);
  }

  /** "The rest at D is only four bars now": bars of a printed rest are out, or more are put in. */
  static List<String> rest(Clause c) {
    int at = 0;
    while (at < c.tokens().size() && !isRest(c.tokens().get(at))) {
      at++;
    }
    List<Clause.Place> places = c.places();
    if (at == c.tokens().size() || at == 0 || places.isEmpty() || c.has(Token.Kind.NOT)) {
      return NONE;
    }
    Optional<Bars.Ends> rest = c.bars().rest(places.get(0).bare());
    Optional<Token> many = lengths(c, at, places.get(0).token());
    if (rest.isEmpty() || many.isEmpty()) {
      return NONE;
    }
    c.use(c.tokens().get(at));
    c.use(places.get(0));
    c.use(many.get());
    c.tokens().subList(0, at).stream().filter(t -> t.is(Token.Kind.BARS)).forEach(c::use);
    c.take(Token.Kind.ONLY);
    c.does("cut", "play");
    int old = c.bars().length(rest.get());
    int now = Integer.parseInt(many.get().value().replaceFirst("\\|.*", ""));
    if (now < 1 || now == old) {
      return NONE;
    }
    return now < old
        ? List.of("cut " + (now) + " after " + rest.get().first() + " to " + rest.get().last())
        : List.of("insert " + (now - old) + " bars of rest after " + rest.get().last());
  }

  private static boolean isRest(Token t) {
    return t.is(Token.Kind.BARS) && t.value().endsWith("|rest")
        || t.text().matches("(?i)rests?(?: bars?)?|bars?' rest|bars rest");
  }

  /** How long it is now: so many bars, or a figure behind the place. */
  private static Optional<Token> lengths(Clause c, int rest, Token place) {
    return c.tokens().stream()
        .skip(rest + 1L)
        .filter(t -> t != place)
        .filter(
            t ->
                t.is(Token.Kind.BARS) && t.value().endsWith("||")
                    || (t.is(Token.Kind.PLACE) || t.is(Token.Kind.FIGURE))
                        && t.text().matches("\\d{1,3}"))
        .findFirst();
  }

  /** "You play the last four of F only": not the others of that section. */
  static List<String> part(Clause c) {
    List<Clause.Place> places = c.places();
    boolean plays = c.has("play") && c.has(Token.Kind.YOU) && c.has(Token.Kind.ONLY);
    if (!plays || places.size() != 1 || c.has(Token.Kind.NOT) || c.has(Token.Kind.PASS)) {
      return NONE;
    }
    java.util.regex.Matcher m =
        org.barmap.plan.change.term.Phrase.phrase(".*\\b(?:of|in)\\s+(?:letter\\s+)?([A-Z]{1,2})")
            .matcher(places.get(0).said());
    Optional<Bars.Ends> those = c.bars().ends(places.get(0).said());
    if (!m.matches() || those.isEmpty()) {
      return NONE;
    }
    Optional<Bars.Ends> section = c.bars().ends("letter " + m.group(1));
    if (section.isEmpty()) {
      return NONE;
    }
    c.does("play");
    c.take(Token.Kind.ONLY);
    c.use(places.get(0));
    boolean last = those.get().last().equals(section.get().last());
    return List.of(
        last
            ? "tacet " + section.get().first() + " to 1 before " + those.get().first()
            : "tacet 1 after " + those.get().last() + " to " + section.get().last());
  }

  /** "You drop out at E for four bars", "don't play until C", "bass out 13 to 20". */
  static List<String> tacet(Clause c) {
    boolean you = c.has(Token.Kind.YOU);
    boolean all =
        c.tokens().stream()
            .anyMatch(
                t -> t.is(Token.Kind.WE) && t.text().matches("(?i)every.*|all of you|tutti.*"));
    if (c.hard("out") && c.hard("tacet") && joins(c)) {
      return NONE; // "12 to C is out and from D on you're tacet" are two things
    }
    boolean out = c.hard("out") && (you || all);
    boolean notPlaying =
        c.has(Token.Kind.NOT)
            && (c.hard("enter")
                || c.tokens().stream().anyMatch(t -> t.text().matches("(?i)play(?:s|ing)?")));
    if (c.hard("enter") && you && !c.hard("tacet") && !out && !c.has(Token.Kind.NOT)) {
      List<Clause.Place> one = c.places();
      if (one.size() != 1 || !one.get(0).prep().equals("at") || one.get(0).block()) {
        return NONE;
      }
      c.does("enter");
      c.use(one.get(0));
      c.take(Token.Kind.ONLY);
      return List.of("tacet start until " + one.get(0).bare());
    }
    boolean leaves = leaves(c);
    boolean silent = c.hard("tacet") || out || notPlaying && !nouns(c) || leaves;
    if (leaves) {
      c.does("cut");
    }
    boolean adds =
        c.tokens().stream()
            .anyMatch(
                t ->
                    t.is(Token.Kind.BARS)
                        && t.text()
                            .matches(
                                "(?i).*\\b(?:extra|more|new|additional|another|further)\\b.*"));
    if (!silent || adds || c.has("insert") && c.hard("insert")) {
      return NONE;
    }
    if (c.hard("tacet") && c.has(Token.Kind.NOT) && !notPlaying) {
      return NONE;
    }
    if (c.has(Token.Kind.THEY)) {
      if (!you) {
        return NONE;
      }
      c.take(Token.Kind.THEY);
      c.take(Token.Kind.ONLY);
    }
    c.does("tacet", "out", "play", "enter", "backin", "land", "start");
    c.take(Token.Kind.NOT);
    String pass = c.pass();
    if (!pass.isEmpty()) {
      c.take(Token.Kind.ONLY);
    }
    String behind = pass.isEmpty() ? "" : " " + pass;
    Optional<String> repeat = repeated(c, pass);
    if (repeat.isPresent()) {
      return List.of("tacet " + repeat.get() + behind);
    }
    if (c.places().isEmpty()) {
      c.take(Token.Kind.WHOLE);
      return List.of("tacet" + behind);
    }
    Optional<String> between = until(c);
    if (between.isPresent()) {
      return List.of("tacet " + between.get() + behind);
    }
    return Stretches.of(c, Stretches.Use.SILENT)
        .map(
            w ->
                w.stream()
                    .map(s -> "tacet " + (behind.isEmpty() ? s : section(s)) + behind)
                    .toList())
        .orElse(NONE);
  }

  /** Whether two things stand beside each other, the second one with whom it is about. */
  private static boolean joins(Clause c) {
    boolean joined = false;
    for (Token t : c.tokens()) {
      joined |= t.is(Token.Kind.AND) || t.is(Token.Kind.COMMA);
      if (joined && t.is(Token.Kind.YOU)) {
        return true;
      }
    }
    return false;
  }

  /** "Bass, you can leave out 9 to 16": the bars are there, and played by others. */
  private static boolean leaves(Clause c) {
    Optional<Token> leave =
        c.first("cut")
            .filter(t -> t.text().matches("(?i)(?:leave|leaving|sit|lay)\\s+(?:out|off)"));
    return leave.isPresent()
        && c.tokens().subList(0, c.index(leave.get())).stream().anyMatch(t -> t.is(Token.Kind.YOU));
  }

  /** "The first time through the repeat": the bars of the only one. */
  private static Optional<String> repeated(Clause c, String pass) {
    Optional<String> bars = c.bars().repeat();
    if (pass.isEmpty() || !c.hard("repeat") || !c.places().isEmpty() || bars.isEmpty()) {
      return Optional.empty();
    }
    c.does("repeat");
    return bars;
  }

  /** What is played several times at a mark is its section. */
  private static String section(String said) {
    return said.matches("[A-Z]{1,2}") ? "letter " + said : said;
  }

  /** "You're out at C, back in at D": up to where one comes in again. */
  private static Optional<String> until(Clause c) {
    List<Clause.Place> two = c.places();
    boolean back = c.has("backin") || c.has("land") || c.has("enter");
    if (!back || two.size() != 2 || !two.get(1).prep().matches("at|from|with|")) {
      return Optional.empty();
    }
    Clause.Place out = two.get(0);
    String in = first(c, two.get(1));
    c.use(two.get(1));
    boolean counted = c.has(Token.Kind.BARS) || out.block();
    if (counted) {
      Optional<List<String>> block = Stretches.of(c, Stretches.Use.SILENT);
      Optional<Bars.Ends> ends =
          block.filter(w -> w.size() == 1).flatMap(w -> c.bars().ends(w.get(0)));
      boolean next =
          ends.isPresent()
              && c.bars().slot(ends.get().last()).orElse(-2) + 1 == c.bars().slot(in).orElse(-1);
      return next ? block.map(w -> w.get(0)) : Optional.empty();
    }
    c.use(out);
    String from = out.prep().equals("after") ? "1 after " : "";
    return Optional.of(from + out.bare() + " to 1 before " + in);
  }

  private static String first(Clause c, Clause.Place place) {
    return place.block()
        ? c.bars().ends(place.said()).map(Bars.Ends::first).orElse(place.bare())
        : place.bare();
  }

  private static boolean nouns(Clause c) {
    return List.of(
            "vamp", "safety", "repeat", "dc", "ds", "hold", "gp", "rit", "accel", "pizz", "arco")
        .stream()
        .anyMatch(c::hard);
  }

  /** "Play 5 to 8 the second time only". */
  static List<String> inPass(Clause c) {
    boolean just =
        c.has(Token.Kind.YOU)
            && c.tokens().stream().anyMatch(t -> t.text().equalsIgnoreCase("just"));
    if (!c.has(Token.Kind.PASS) || !(c.has(Token.Kind.ONLY) || just) || c.has(Token.Kind.NOT)) {
      return NONE;
    }
    c.does("play", "enter");
    c.take(Token.Kind.ONLY);
    String pass = c.pass();
    Optional<String> repeat = repeated(c, pass);
    if (repeat.isPresent()) {
      return List.of(pass + " only " + repeat.get());
    }
    if (c.places().isEmpty()) {
      return List.of(pass + " only start to end");
    }
    return Stretches.of(c, Stretches.Use.OTHER)
        .map(w -> w.stream().map(s -> pass + " only " + section(s)).toList())
        .orElse(NONE);
  }

  /** "Hold 28 till she turns", "wait after 40 for the slap". */
  static List<String> hold(Clause c) {
    if (!c.hard("hold") || c.has(Token.Kind.NOT)) {
      return NONE;
    }
    c.does("hold", "stop", "go", "play", "insert");
    String till = c.one(Token.Kind.CUE).map(Waiting::behind).orElse("");
    List<Clause.Place> places = c.places();
    if (places.isEmpty() && c.take("lastchord")) {
      return List.of("hold end" + till);
    }
    if (places.size() != 1) {
      return NONE;
    }
    Clause.Place place = places.get(0);
    if (place.prep().matches("before|until|through|between|to|from")) {
      return NONE;
    }
    c.use(place);
    boolean after = place.prep().equals("after");
    Optional<Bars.Ends> ends = place.block() ? c.bars().ends(place.said()) : Optional.empty();
    if (ends.isPresent()) {
      return List.of("hold " + (after ? "after " : "") + ends.get().last() + till);
    }
    return List.of("hold " + (after ? "after " : "") + end(place.bare()) + till);
  }

  private static String end(String said) {
    return said.replaceFirst("(?i)^(?:the )?(?:downbeat|first beat) of (.+)$", "$1 beat 1");
  }

  static List<String> pause(Clause c) {
    if (!c.hard("gp") || c.has(Token.Kind.NOT)) {
      return NONE;
    }
    boolean dead = c.first("gp").filter(t -> t.text().matches("(?i).*stop.*")).isPresent();
    c.does("gp", "insert");
    String till = c.one(Token.Kind.CUE).map(q -> " till " + q).orElse("");
    List<Clause.Place> places = c.places();
    if (places.size() != 1 || places.get(0).prep().matches("until|through|between|to")) {
      return NONE;
    }
    c.use(places.get(0));
    String where =
        switch (places.get(0).prep()) {
          case "after" -> "after ";
          case "before" -> "after 1 before ";
          default -> "at ";
        };
    return List.of((dead ? "dead stop " : "G.P. ") + where + places.get(0).bare() + till);
  }

  /** "Add two empty bars after 40", "an extra bar of 2/4 between 28 and 29". */
  static List<String> insert(Clause c) {
    boolean adds =
        c.hard("insert")
            || c.has("insert")
            || c.tokens().stream()
                .anyMatch(
                    t ->
                        t.is(Token.Kind.BARS)
                            && (t.value().contains("/")
                                || t.text()
                                    .matches(
                                        "(?i).*\\b(?:extra|more|new|additional|another|further)\\b.*")));
    Optional<Token> bars = c.tokens().stream().filter(t -> t.is(Token.Kind.BARS)).findFirst();
    List<Clause.Place> places = c.places();
    if (!adds || bars.isEmpty() || places.isEmpty() || c.has(Token.Kind.NOT) || c.hard("cut")) {
      return NONE;
    }
    Clause.Place at = places.get(0);
    boolean between = at.prep().equals("between") && places.size() == 2;
    if (!(between || at.prep().matches("before|after") && places.size() == 1)) {
      return NONE;
    }
    c.does("insert", "play", "vamp");
    if (c.has("vamp")) {
      return NONE;
    }
    places.forEach(c::use);
    c.use(bars.get());
    String[] what = bars.get().value().split("\\|", -1);
    String meter = what[1].isEmpty() ? c.one(Token.Kind.METER).orElse("") : what[1];
    boolean rest = c.take("rest") || c.hard("tacet") || !what[2].isEmpty();
    c.does("tacet");
    return List.of(
        "insert "
            + what[0]
            + (meter.isEmpty() ? "" : " " + meter)
            + " bars"
            + (rest ? " of rest" : "")
            + (at.prep().equals("before") ? " before " : " after ")
            + at.bare());
  }
}
