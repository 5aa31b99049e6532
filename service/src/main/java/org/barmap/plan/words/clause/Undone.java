package org.barmap.plan.words.clause;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;

/** What is printed and not followed, or followed in another way. */
final class Undone {
  private static final List<String> NONE = List.of();

  private Undone() {}

  static List<Clause.Deed> all() {
    return List.of(Undone::printed, Undone::endings, Undone::coda, Undone::lands, Undone::undone);
  }

  /** "D.S. as printed": nothing is changed by it. */
  static List<String> printed(Clause c) {
    boolean noun =
        c.does("dc", "ds", "vamp", "safety", "repeat", "ending1", "ending2", "endinglast");
    if (!noun || !c.does("asis") || !c.places().isEmpty()) {
      return NONE;
    }
    c.does("play");
    return List.of("note: " + c.said());
  }

  /** "Straight to the second ending", "no first ending". */
  static List<String> endings(Clause c) {
    boolean first = c.has("ending1");
    boolean second = c.has("ending2") || c.has("endinglast");
    boolean no = c.has(Token.Kind.NOT) || c.hard("cut") || c.hard("gone") || c.hard("out");
    if (!first && !second || !c.places().isEmpty()) {
      return NONE;
    }
    if (first && !no || second && no && !first) {
      return NONE;
    }
    c.does("ending1", "ending2", "endinglast", "go", "cut", "gone", "out", "play", "land");
    c.take(Token.Kind.NOT);
    c.take(Token.Kind.ONLY);
    boolean late = c.has(Token.Kind.PASS) && !no;
    if (late
        && c.tokens().stream()
            .anyMatch(t -> t.is(Token.Kind.PASS) && t.value().matches("2|last"))) {
      c.pass();
      return c.later() ? List.of("note: " + c.said()) : NONE; // as printed
    }
    boolean early = c.has(Token.Kind.PASS) && c.pass().equals("1st time");
    return early || !c.has(Token.Kind.PASS) ? List.of("straight to the second ending") : NONE;
  }

  /** "Take the coda first time": from where it is left for, and nobody goes back. */
  static List<String> coda(Clause c) {
    List<Clause.Place> places = c.places();
    boolean codas =
        !places.isEmpty()
            && places.stream()
                .allMatch(
                    p ->
                        p.said()
                            .toLowerCase(java.util.Locale.ROOT)
                            .matches("(?:the )?(?:coda|sign|coda sign)"));
    Optional<String> leave = c.bars().landmark("to coda", true);
    if (!codas || leave.isEmpty() || !c.has(Token.Kind.PASS) || c.has(Token.Kind.NOT)) {
      return NONE;
    }
    if (!c.pass().equals("1st time") || c.bars().slot("coda").isEmpty()) {
      return NONE;
    }
    places.forEach(c::use);
    c.does("go", "play", "land");
    c.take("codasign");
    return List.of("after " + leave.get() + " go to coda");
  }

  /** "The D.S. goes back to B, not to A": the bars from the sign on are out that time. */
  static List<String> lands(Clause c) {
    boolean segno = c.hard("ds");
    if (segno == c.hard("dc") || c.hard("cut") || c.hard("gone") || c.hard("out")) {
      return NONE;
    }
    List<Clause.Place> places = c.places();
    if (places.isEmpty() || !places.get(0).prep().equals("to")) {
      return NONE;
    }
    String from = segno ? "segno" : "start";
    Clause.Place to = places.get(0);
    OptionalInt at = c.bars().slot(from);
    OptionalInt lands = c.bars().slot(to.bare());
    if (at.isEmpty() || lands.isEmpty() || lands.getAsInt() <= at.getAsInt()) {
      return NONE;
    }
    if (places.size() == 2 && c.has(Token.Kind.NOT)) {
      OptionalInt old = c.bars().slot(places.get(1).bare());
      if (old.isEmpty() || old.getAsInt() != at.getAsInt()) {
        return NONE;
      }
      c.use(places.get(1));
      c.take(Token.Kind.NOT);
    }
    c.does("ds", "dc", "play", "back", "backin", "go", "land");
    c.use(to);
    return List.of("cut " + from + " to beginning of " + to.bare() + " on the D.S.");
  }

  /** "No vamp at 5", "the D.S. is out", "don't take the repeat". */
  static List<String> undone(Clause c) {
    for (String what :
        List.of("vamp", "safety", "repeat", "dc", "ds", "hold", "gp", "rit", "accel", "back")) {
      Optional<Token> noun = c.first(what).filter(t -> t.is(Token.Kind.DO));
      if (noun.isEmpty() || !negated(c, noun.get())) {
        continue;
      }
      c.does(what, "play", "go");
      if (what.equals("back")) {
        return notBack(c);
      }
      if (crossed(c, noun.get())) {
        return NONE;
      }
      Optional<List<String>> where = Stretches.of(c, Stretches.Use.OTHER);
      if (where.isEmpty() && !c.places().isEmpty()) {
        return NONE;
      }
      return none(c, what, where.orElse(List.of()), noun.get().text());
    }
    return NONE;
  }

  /** "Don't go back to the sign", "no more going back to the top". */
  private static List<String> notBack(Clause c) {
    List<Clause.Place> places = c.places();
    if (places.size() > 1) {
      return NONE;
    }
    places.forEach(c::use);
    String to = places.isEmpty() ? "sign" : places.get(0).said();
    if (to.matches("(?i).*(?:sign|segno)")) {
      return List.of("no D.S.");
    }
    boolean top = to.matches("(?i).*(?:top|start|beginning)");
    return top ? List.of(c.bars().repeat().isPresent() ? "no repeats" : "no D.C.") : NONE;
  }

  private static List<String> none(Clause c, String what, List<String> where, String text) {
    String name =
        switch (what) {
          case "dc" -> "D.C.";
          case "ds" -> "D.S.";
          case "gp" -> "G.P.";
          case "rit" -> "rit.";
          case "accel" -> "accel.";
          default -> what;
        };
    if (what.equals("repeat")) {
      boolean all = text.toLowerCase(java.util.Locale.ROOT).endsWith("s");
      return where.isEmpty()
          ? List.of(all ? "no repeats" : "no repeat")
          : where.stream()
              .map(
                  w ->
                      c.bars().ends(w).filter(e -> !e.first().equals(e.last())).isPresent()
                          ? "play " + w + " once"
                          : "no repeat at " + w)
              .toList();
    }
    if (where.isEmpty()) {
      boolean all = what.equals("vamp") && text.equalsIgnoreCase("vamps");
      return List.of(all ? "no vamps" : "no " + name);
    }
    return where.stream().map(w -> "no " + name + " at " + w).toList();
  }

  /** It is not, or cut, right before it; or gone behind it. */
  private static boolean negated(Clause c, Token noun) {
    int at = c.index(noun);
    List<Token> tokens = c.tokens();
    for (int i = at - 1; i >= 0; i--) {
      Token t = tokens.get(i);
      if (t.is(Token.Kind.NOT) || t.is(Token.Kind.DO) && t.value().matches("cut|gone|out")) {
        c.use(t);
        return true;
      }
      if (!t.is(Token.Kind.FILL)
          && !t.is(Token.Kind.SOFT)
          && !t.is(Token.Kind.WE)
          && !t.is(Token.Kind.YOU)
          && !t.is(Token.Kind.PREP)
          && !t.is(Token.Kind.THERE)) {
        break;
      }
    }
    for (int i = at + 1; i < tokens.size(); i++) {
      Token t = tokens.get(i);
      if (t.is(Token.Kind.DO) && t.value().matches("cut|gone|out") || t.is(Token.Kind.NOT)) {
        c.use(t);
        c.does("play");
        return true;
      }
      if (t.is(Token.Kind.COMMA) || t.is(Token.Kind.AND) || t.is(Token.Kind.DO)) {
        break;
      }
    }
    return false;
  }

  /** "No D.S., but we do A twice": what stands behind another subject is another thing. */
  private static boolean crossed(Clause c, Token noun) {
    return c.places().stream()
        .map(p -> c.index(p.token()))
        .filter(at -> at > c.index(noun))
        .anyMatch(
            at ->
                c.tokens().subList(c.index(noun), at).stream()
                    .anyMatch(
                        t ->
                            t.is(Token.Kind.WE)
                                || t.is(Token.Kind.YOU)
                                || t.text().matches("(?i)we|you|it|it is|that is")));
  }
}
