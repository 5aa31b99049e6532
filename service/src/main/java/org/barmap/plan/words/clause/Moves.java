package org.barmap.plan.words.clause;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.barmap.plan.words.grammar.Bars;

/** What is left out and put in again, where one goes, where the number begins and ends. */
final class Moves {
  private static final List<String> NONE = List.of();

  private Moves() {}

  /** "Put 13 to 20 back in", "we aren't cutting 13 to 20", "as written". */
  static List<String> restored(Clause c) {
    boolean put =
        c.tokens().stream().anyMatch(t -> t.text().matches("(?i)put|bring|take|add"))
            && c.has("backin");
    boolean back = c.hard("restore") || c.has("asis") || put || c.hard("backin") && !c.hard("out");
    boolean cut = c.hard("cut") || c.hard("gone") || c.hard("out") || c.named("cut");
    boolean not = c.has(Token.Kind.NOT);
    if (c.named("cut") && !not && (c.hard("backin") || c.hard("restore") && c.has("back"))) {
      return NONE; // "the cut is back in": played again, or out again
    }
    boolean after = c.has(Token.Kind.AFTERALL) && c.has("play") && !cut;
    if (!(back && !not || cut && not && !c.has("vamp") || after) || you(c)) {
      return NONE;
    }
    if (c.has(Token.Kind.THEY) || c.has(Token.Kind.TIMES)) {
      return NONE;
    }
    c.does("restore", "backin", "asis", "play", "land");
    if (not || c.named("cut")) {
      c.does("cut", "gone", "out");
    }
    c.take("cut");
    c.take(Token.Kind.NOT);
    c.take(Token.Kind.AFTERALL);
    c.take(Token.Kind.AGAIN);
    if (c.places().isEmpty()) {
      c.take(Token.Kind.WHOLE);
      boolean show = c.tokens().stream().anyMatch(t -> t.text().matches("(?i).*\\bshow"));
      return List.of(show ? "back in" : "start to end back in");
    }
    return Stretches.of(c, Stretches.Use.OTHER)
        .map(all -> all.stream().map(s -> s + " back in").toList())
        .orElse(NONE);
  }

  static boolean you(Clause c) {
    return c.has(Token.Kind.YOU) && (c.hard("out") || c.hard("tacet"));
  }

  /** "Cut 13 to 20", "13 to 20 are gone, first time only". */
  static List<String> cut(Clause c) {
    boolean out = c.hard("out") || c.hard("gone");
    if (c.has(Token.Kind.NOT) && !c.hard("cut") && !out && noBars(c)) {
      c.take(Token.Kind.NOT);
      return outs(c, "cut ", "");
    }
    if (!pass(c).isEmpty()) {
      c.sections();
    }
    if (!c.hard("cut") && !out || c.has(Token.Kind.NOT) || you(c) || Restated.keeps(c.tokens())) {
      return NONE;
    }
    if (out
        && c.tokens().stream()
            .anyMatch(
                t -> t.is(Token.Kind.WE) && t.text().matches("(?i)every.*|all of you|tutti.*"))) {
      return NONE;
    }
    c.does("cut", "out", "gone");
    String pass = c.pass();
    if (!pass.isEmpty()) {
      c.take(Token.Kind.ONLY);
    }
    boolean whole =
        c.places().isEmpty()
            && !c.later()
            && !c.has(Token.Kind.THERE)
            && !c.has(Token.Kind.BARS)
            && pass.isEmpty();
    if (whole) {
      c.take(Token.Kind.WHOLE);
      return c.left().isEmpty() ? List.of("cut") : NONE;
    }
    landed(c);
    boolean skip =
        c.first("cut").filter(t -> t.text().matches("(?i)skip\\w*")).isPresent()
            && c.places().stream().anyMatch(p -> p.prep().equals("from"));
    return outs(c, skip ? "skip from " : "cut ", pass.isEmpty() ? "" : " " + pass);
  }

  private static String pass(Clause c) {
    return c.has(Token.Kind.PASS) ? "pass" : "";
  }

  /** "Skip A and go straight to B": where one lands anyway says nothing more. */
  private static void landed(Clause c) {
    List<Clause.Place> places = c.places();
    if (places.size() < 2) {
      return;
    }
    Clause.Place to = places.get(places.size() - 1);
    boolean goes =
        c.tokens().subList(0, c.index(to.token())).stream()
            .skip(c.index(places.get(places.size() - 2).token()))
            .anyMatch(t -> t.does("go") || t.does("land") || t.does("backin"));
    String first = places.get(0).said();
    String out =
        places.size() == 2
            ? first.matches("[A-Z]{1,2}") ? "letter " + first : first
            : places.get(0).bare() + " to " + places.get(1).bare();
    Optional<Bars.Ends> ends = c.bars().ends(out);
    boolean next =
        goes
            && ends.isPresent()
            && c.bars().slot(ends.get().last()).orElse(-2) + 1
                == c.bars().slot(to.bare()).orElse(-1);
    if (next) {
      c.use(to);
      c.does("go", "land", "backin");
      if (places.size() == 2 && out.startsWith("letter ")) {
        c.sections();
      }
    }
  }

  /** "No bars 57 to 60", "forget the first four bars". */
  private static boolean noBars(Clause c) {
    for (int i = 0; i + 1 < c.tokens().size(); i++) {
      Token not = c.tokens().get(i);
      Token next = c.tokens().get(i + 1);
      if (not.is(Token.Kind.NOT) && not.text().matches("(?i)no|without")) {
        return next.is(Token.Kind.PLACE);
      }
      boolean some = next.text().matches("(?i)the (?:first|last|opening|final)\\b.*");
      if (not.is(Token.Kind.NOT) && not.text().matches("(?i)forget(?: about)?|never mind")) {
        return next.is(Token.Kind.PLACE) && some; // "forget the first four bars"
      }
    }
    return false;
  }

  private static List<String> outs(Clause c, String verb, String behind) {
    return Stretches.of(c, Stretches.Use.OUT)
        .map(
            all ->
                all.stream()
                    .map(s -> c.bySection() && s.matches("[A-Z]{1,2}") ? "letter " + s : s)
                    .map(s -> verb + s + behind)
                    .toList())
        .orElse(NONE);
  }

  /** "After 12 go to C", "out at the end of 40, back in at F", "from D back to A". */
  static List<String> go(Clause c) {
    boolean moves =
        c.has("go") || c.has("land") || c.has("backin") || c.has("back") || c.has("cut");
    List<Clause.Place> two = c.places();
    if (!moves || two.size() != 2 || c.has(Token.Kind.NOT) || you(c)) {
      return NONE;
    }
    Clause.Place from = two.get(0);
    Clause.Place to = two.get(1);
    if (played(c, from, to)) {
      c.does("go", "land", "play");
      c.use(from);
      c.use(to);
      return List.of(forward(c, from, to));
    }
    if (lands(from) && !lands(to) || to.prep().matches("from|after|out of")) {
      Clause.Place turned = from;
      from = to;
      to = turned;
    }
    if (!leads(from, c) || !(lands(to) || landing(c, to))) {
      return NONE;
    }
    int last = Math.max(c.index(from.token()), c.index(to.token()));
    boolean goes = c.tokens().subList(0, last).stream().anyMatch(t -> t.does("go"));
    boolean plainCut = c.hard("cut") && !goes && !c.hard("land") && !c.hard("backin");
    if (plainCut && !from.prep().equals("after") && !from.prep().equals("out of")) {
      return NONE;
    }
    c.does("go", "land", "backin", "back", "cut", "out", "repeat", "round", "stop");
    c.use(from);
    c.use(to);
    String pass = c.pass();
    if (!pass.isEmpty() && !backwards(c, from, to)) {
      String jump =
          pass.equals("2nd time") && c.bars().slot("segno").isPresent() ? "on the D.S." : pass;
      return List.of("cut " + first(c, from) + " to beginning of " + to.bare() + " " + jump);
    }
    c.take(Token.Kind.AGAIN);
    int times = c.times();
    if (backwards(c, from, to)) {
      String often = times < 2 ? "" : times == 2 ? " twice" : " " + times + " times";
      return List.of("after " + from.bare() + " go back to " + to.bare() + often);
    }
    if (times > 0 || c.hard("back") && !c.has("go")) {
      return NONE;
    }
    OptionalInt next = c.bars().slot(first(c, from));
    boolean same = next.isPresent() && next.equals(c.bars().slot(to.bare()));
    return List.of(same ? "note: " + c.said() : forward(c, from, to));
  }

  /** "Play up to the end of A and then jump to C". */
  private static boolean played(Clause c, Clause.Place from, Clause.Place to) {
    List<Token> tokens = c.tokens();
    boolean play = tokens.subList(0, c.index(from.token())).stream().anyMatch(t -> t.does("play"));
    boolean goes =
        tokens.subList(c.index(from.token()), c.index(to.token())).stream()
            .anyMatch(t -> t.is(Token.Kind.DO) && (t.does("go") || t.does("land")));
    return play
        && goes
        && lands(from)
        && from.said().matches("(?i)(?:the\\s+)?(?:very\\s+)?end\\s+of\\s.*")
        && to.prep().matches("to|at|from|");
  }

  /** The first bar that is left out. */
  private static String first(Clause c, Clause.Place from) {
    boolean end = from.said().matches("(?i)(?:the\\s+)?(?:very\\s+)?(?:end|last beat)\\s+of\\s.*");
    boolean reached = from.prep().equals("when") || from.prep().equals("at") && from.mark();
    return reached && !end ? from.bare() : "1 after " + Stretches.edge(c, from.said());
  }

  private static String forward(Clause c, Clause.Place from, Clause.Place to) {
    String land =
        to.block()
            ? c.bars().ends(to.said()).map(Bars.Ends::first).orElse(to.bare())
            : to.bare().replaceFirst("(?i)^(?:the )?(?:top|beginning|start|head|downbeat) of ", "");
    if (from.said().matches("(?i)(?:the\\s+)?(?:end|last beat)\\s+of\\s.*")) {
      return "cut from " + from.said() + " to beginning of " + land;
    }
    boolean reached = from.prep().equals("when") || from.prep().equals("at") && from.mark();
    if (reached) {
      return "cut " + from.bare() + " to beginning of " + land;
    }
    String last =
        from.block()
            ? c.bars().ends(from.said()).map(Bars.Ends::last).orElse(from.bare())
            : from.bare();
    return (from.prep().equals("from") ? "from " : "after ") + last + " go to " + land;
  }

  private static boolean lands(Clause.Place place) {
    return place.prep().matches("to|until|through");
  }

  private static boolean leads(Clause.Place place, Clause c) {
    return place.prep().matches("from|after|out of|when|at")
        || place.prep().isEmpty() && (c.has("go") || c.has("back"));
  }

  /** "Pick up at C", "back in at F": what stands behind such a word is where one lands. */
  private static boolean landing(Clause c, Clause.Place to) {
    int at = c.index(to.token());
    return to.prep().matches("at|from|with|")
        && c.tokens().subList(0, at).stream()
            .skip(Math.max(0, at - 4))
            .anyMatch(t -> t.does("land") || t.does("backin") || t.does("go"));
  }

  private static boolean backwards(Clause c, Clause.Place from, Clause.Place to) {
    OptionalInt first = c.bars().slot(from.bare().replaceFirst("(?i)^(?:the )?end of ", ""));
    OptionalInt second =
        c.bars().slot(to.bare().replaceFirst("(?i)^(?:the )?(?:top|start|beginning) of ", ""));
    return first.isPresent() && second.isPresent() && second.getAsInt() <= first.getAsInt();
  }

  /** "We start at C", "it ends after 48". */
  static List<String> ends(Clause c) {
    boolean starting =
        c.tokens().stream()
            .anyMatch(
                t ->
                    t.is(Token.Kind.PREP)
                        && t.text().matches("(?i)(?:starting|beginning) (?:at|from|with|on|in)"));
    boolean others =
        c.tokens().stream()
            .anyMatch(
                t -> t.is(Token.Kind.DO) && !t.does("gone") && !t.does("out") && !t.does("cut"));
    boolean starts = c.has("start") || starting && !others && c.places().size() == 1;
    boolean stops = c.hard("stop");
    List<Clause.Place> places = c.places();
    if (starts == stops || places.size() != 1 || c.has(Token.Kind.NOT)) {
      return NONE;
    }
    Clause.Place place = places.get(0);
    String prep = place.prep();
    boolean known =
        starts ? prep.matches("at|from|with") : prep.matches("at|after|with|on|through");
    if (!known || place.block() || c.bars().slot(place.bare()).isEmpty() && !stops) {
      return NONE;
    }
    c.does("start", "stop", "play");
    c.use(place);
    if (starts && c.take("intro")) {
      c.does("cut", "gone", "out");
    }
    if (starts) {
      return List.of("start at " + place.bare());
    }
    java.util.regex.Matcher downbeat =
        org.barmap.plan.change.term.Phrase.phrase("(?:the\\s+)?(?:downbeat|first beat) of (.+)")
            .matcher(place.said());
    if (downbeat.matches()) {
      return List.of("cut " + downbeat.group(1) + " beat 2 to end");
    }
    boolean on = at(c, place).matches("(?i)on|with");
    return List.of(
        "stop "
            + (prep.equals("at") && !on ? "at " : prep.equals("at") ? "on " : "after ")
            + place.bare());
  }

  private static String at(Clause c, Clause.Place place) {
    int i = c.index(place.token()) - 1;
    while (i > 0 && !c.tokens().get(i).is(Token.Kind.PREP)) {
      i--;
    }
    return i < 0 ? "" : c.tokens().get(i).text();
  }

  /** All that can be done here. */
  static List<Clause.Deed> all() {
    List<Clause.Deed> all = new ArrayList<>();
    all.add(Moves::restored);
    all.add(Moves::go);
    all.add(Moves::cut);
    all.add(Moves::ends);
    return all;
  }
}
