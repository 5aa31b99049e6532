package org.barmap.plan.words.clause;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.barmap.plan.words.grammar.Bars;

/** What goes round: vamps, safeties, repeats, endings, jumps back. */
final class Goings {
  private static final List<String> NONE = List.of();

  private Goings() {}

  static List<Clause.Deed> all() {
    return List.of(Goings::vamp, Goings::safety, Goings::again, Goings::once);
  }

  /** "Vamp 9 and 10 till she sits, out any time". */
  static List<String> vamp(Clause c) {
    Optional<String> cue = c.one(Token.Kind.CUE);
    boolean round = c.has("repeat") || c.has("round") || c.has("safety");
    boolean keeps =
        c.has("round")
            && !c.has(Token.Kind.TIMES)
            && c.tokens().stream().anyMatch(t -> t.text().matches("(?i)keep(?:ing)?(?: on)?"));
    boolean vamps = c.hard("vamp") || round && cue.isPresent() || keeps;
    if (!vamps || c.has(Token.Kind.NOT) || c.has(Token.Kind.AGAIN)) {
      return NONE;
    }
    if (c.has("safety") && !c.hard("vamp")) {
      return NONE;
    }
    c.does("vamp", "repeat", "round", "play", "exit", "insert");
    if (c.first("hold")
        .filter(t -> t.text().matches("(?i)(?:sit|stay|hang|camp)\\w*(?: out)?(?: on)?"))
        .isPresent()) {
      c.does("hold");
    }
    if (c.hard("insert")) {
      return NONE;
    }
    String out =
        c.does("anytime")
            ? ", out any time"
            : c.does("endpass") ? ", out at the end of a pass" : "";
    String till = cue.map(q -> " till " + q).orElse("") + out;
    if (c.has(Token.Kind.TIMES)) {
      int times = c.times();
      c.take(Token.Kind.ONLY);
      return cue.isPresent() || times == 0
          ? NONE
          : c.places().isEmpty()
              ? List.of("the vamp " + often(times))
              : Stretches.of(c, Stretches.Use.OTHER)
                  .filter(all -> all.size() == 1)
                  .map(all -> List.of("play " + all.get(0) + " " + often(times)))
                  .orElse(NONE);
    }
    if (c.places().isEmpty()) {
      return c.bars().open("vamp").map(v -> List.of("vamp " + v + till)).orElse(NONE);
    }
    return one(c).map(s -> List.of("vamp " + s + till)).orElse(NONE);
  }

  /** Two bars named one after the other go round together. */
  private static Optional<String> one(Clause c) {
    List<Clause.Place> places = c.places();
    boolean beginning =
        places.size() == 1
            && places
                .get(0)
                .said()
                .matches("(?i)(?:the )?(?:very )?(?:top|start|beginning|outset)");
    if (beginning && !c.has(Token.Kind.BARS)) {
      return printedAtTop(c, places.get(0)); // nothing goes round in the first bar alone
    }
    if (places.size() == 1
        && places.get(0).said().matches("[A-Z]{1,2}")
        && places.get(0).prep().matches("at|through|from|")
        && !c.has(Token.Kind.ON)) {
      return section(c, places.get(0));
    }
    Optional<List<String>> all = Stretches.of(c, Stretches.Use.OTHER);
    if (all.isEmpty() || all.get().size() == 1) {
      return all.map(s -> s.get(0));
    }
    if (thenAnother(c, places)) {
      return Optional.empty(); // "B twice, then C"
    }
    Optional<Bars.Ends> one = c.bars().ends("letter " + places.get(0).bare());
    Optional<Bars.Ends> other = c.bars().ends("letter " + places.get(1).bare());
    boolean sections =
        places.size() == 2
            && places.stream().allMatch(Clause.Place::mark)
            && one.isPresent()
            && other.isPresent()
            && c.bars().slot(one.get().last()).orElse(-2) + 1
                == c.bars().slot(other.get().first()).orElse(-1);
    if (sections) {
      return Optional.of(one.get().first() + " to " + other.get().last());
    }
    String both = places.get(0).bare() + " to " + places.get(places.size() - 1).bare();
    OptionalInt first = c.bars().slot(places.get(0).bare());
    OptionalInt last = c.bars().slot(places.get(places.size() - 1).bare());
    boolean next =
        first.isPresent()
            && last.isPresent()
            && last.getAsInt() - first.getAsInt() == places.size() - 1;
    String many = places.size() + "||";
    c.tokens().stream()
        .filter(t -> next && t.is(Token.Kind.BARS) && t.value().equals(many))
        .forEach(c::use);
    return next ? Optional.of(both) : Optional.empty();
  }

  private static boolean thenAnother(Clause c, List<Clause.Place> places) {
    int from = c.index(places.get(0).token());
    int to = c.index(places.get(places.size() - 1).token());
    return c.tokens().subList(from, to).stream()
        .anyMatch(t -> t.is(Token.Kind.AND) && t.text().matches("(?i).*then"));
  }

  private static Optional<String> printedAtTop(Clause c, Clause.Place top) {
    c.use(top);
    return Optional.of("vamp")
        .flatMap(c.bars()::open)
        .or(() -> c.bars().open("safety"))
        .or(() -> c.hard("repeat") ? c.bars().repeat() : Optional.empty())
        .filter(bars -> c.bars().ends(bars).filter(Bars.Ends::begins).isPresent());
  }

  /** What goes round at a mark is its section, with the endings of a repeat that begins there. */
  private static Optional<String> section(Clause c, Clause.Place place) {
    if (c.has(Token.Kind.BARS)) {
      return Stretches.of(c, Stretches.Use.OTHER).map(s -> s.get(0));
    }
    c.use(place);
    return Optional.of("letter " + place.said());
  }

  static List<String> safety(Clause c) {
    if (!c.hard("safety") || c.has(Token.Kind.NOT)) {
      return NONE;
    }
    boolean was = c.hard("vamp") && c.places().isEmpty();
    c.does("safety", "vamp", "repeat");
    c.take(Token.Kind.IF);
    Optional<String> cue = c.one(Token.Kind.CUE);
    if (was) {
      return c.bars().open("vamp").map(v -> List.of("safety " + v)).orElse(NONE);
    }
    return one(c)
        .map(s -> List.of("safety " + s + cue.map(q -> " (until " + q + ")").orElse("")))
        .orElse(NONE);
  }

  /** "Play 13 to 20 twice", "one more time round the repeat", "go round A to B two times". */
  static List<String> again(Clause c) {
    boolean repeats = c.hard("repeat");
    boolean said = repeats || c.has("round") || c.has("play") || c.hard("back");
    boolean many = c.has(Token.Kind.TIMES);
    boolean more = c.has(Token.Kind.AGAIN);
    boolean round = repeats || c.has("round");
    if (c.has(Token.Kind.NOT) || !(said || many || more) || !(many || more || round)) {
      return NONE;
    }
    boolean noun = noun(c, "repeat");
    c.does("repeat", "round", "play", "back");
    boolean total = c.take(Token.Kind.TOTAL);
    c.take(Token.Kind.ONLY);
    if (!c.has("insert") || !c.hard("insert")) {
      c.does("insert");
    }
    if (c.hard("insert")) {
      c.does("insert");
    }
    int extra =
        more
            ? Math.max(
                1,
                Integer.parseInt(
                    "0" + c.one(Token.Kind.AGAIN).filter(v -> v.matches("\\d+")).orElse("1")))
            : 0;
    int times = c.times();
    Optional<String> where = c.places().isEmpty() ? whole(c, noun) : atEnd(c).or(() -> one(c));
    if (where.isEmpty()) {
      boolean printed = c.places().isEmpty() && repeats && times > 0;
      return printed ? List.of("the repeat " + often(times)) : NONE;
    }
    if (extra > 0) {
      int all = times > 0 ? times : c.bars().times(where.get()) + extra;
      return List.of("play " + where.get() + " " + often(all));
    }
    if (times == 0) {
      return List.of("repeat " + where.get());
    }
    if (repeats && !noun && times == 1) {
      return List.of("repeat " + where.get()); // once more
    }
    boolean unsure = repeats && !noun && !total && times > 1;
    return List.of((unsure ? "repeat " : "play ") + where.get() + " " + often(times));
  }

  /** "Play F again at the end": where it is the last section, it is played twice. */
  private static Optional<String> atEnd(Clause c) {
    List<Clause.Place> two = c.places();
    boolean end =
        two.size() == 2
            && two.get(1).prep().equals("at")
            && two.get(1).said().matches("(?i)(?:the )?end")
            && c.has(Token.Kind.AGAIN);
    if (!end) {
      return Optional.empty();
    }
    String said = two.get(0).mark() ? "letter " + two.get(0).bare() : two.get(0).said();
    if (c.bars().ends(said).filter(Bars.Ends::ends).isEmpty()) {
      return Optional.empty();
    }
    c.use(two.get(0));
    c.use(two.get(1));
    return Optional.of(said);
  }

  /** All of the number, or the only repeat in it. */
  private static Optional<String> whole(Clause c, boolean noun) {
    boolean all = c.take(Token.Kind.WHOLE);
    Optional<String> only = c.bars().repeat();
    if (all && !noun) {
      return Optional.of("start to end");
    }
    return only;
  }

  private static boolean noun(Clause c, String deed) {
    Optional<Token> token = c.first(deed);
    int at = token.map(c::index).orElse(0);
    return at > 0
        && c.tokens()
            .get(at - 1)
            .text()
            .matches("(?i)the|that|this|our|each|every|a|round|around|printed");
  }

  /** "Once through", "straight through": nothing is repeated. */
  static List<String> once(Clause c) {
    boolean through =
        c.tokens().stream()
            .anyMatch(
                t ->
                    t.is(Token.Kind.PREP) && t.text().matches("(?i)(?:right )?through")
                        || t.is(Token.Kind.TIMES) && t.text().matches("(?i).*through"));
    if (!through || !c.places().isEmpty() || c.has(Token.Kind.NOT)) {
      return NONE;
    }
    c.does("play", "go");
    c.take(Token.Kind.ONLY);
    c.take(Token.Kind.WHOLE);
    return c.times() < 2 ? List.of("no repeats") : NONE;
  }

  static String often(int times) {
    return times == 1 ? "once" : times == 2 ? "twice" : times + " times";
  }
}
