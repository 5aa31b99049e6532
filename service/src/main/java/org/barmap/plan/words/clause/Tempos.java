package org.barmap.plan.words.clause;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.IntStream;

/** How fast. */
final class Tempos {
  private static final List<String> NONE = List.of();

  private Tempos() {}

  static List<Clause.Deed> all() {
    return List.of(Tempos::gradual, Tempos::tempo, Tempos::old, Tempos::pace);
  }

  /** "Rit. in 61 to 64", "slow down over the last four". */
  static List<String> gradual(Clause c) {
    boolean rit = c.hard("rit");
    if (rit == c.hard("accel") || c.has(Token.Kind.NOT) || tooMuch(c) || fromOneBar(c)) {
      return NONE;
    }
    c.does("rit", "accel", "insert", "play", "start");
    return Stretches.of(c, Stretches.Use.OTHER)
        .filter(w -> w.size() == 1)
        .map(w -> List.of((rit ? "rit. " : "accel. ") + w.get(0)))
        .orElse(NONE);
  }

  /** "It's too slow": what is wrong, and no order. */
  private static boolean tooMuch(Clause c) {
    List<Token> tokens = c.tokens();
    return IntStream.range(1, tokens.size())
        .anyMatch(
            i ->
                tokens.get(i).is(Token.Kind.DO)
                    && tokens.get(i - 1).text().equalsIgnoreCase("too"));
  }

  /** "Slow down a bit at C": another tempo from there; a rit. is called one, or has a length. */
  private static boolean fromOneBar(Clause c) {
    boolean called =
        c.tokens().stream()
            .filter(t -> t.does("rit") || t.does("accel"))
            .anyMatch(
                t ->
                    t.text()
                        .matches(
                            "(?i)rit.*|rall.*|accel.*|.*\\b(?:getting|get|gets|gradually|into|rit|over)\\b.*"));
    List<Clause.Place> places = c.places();
    return !called
        && places.size() == 1
        && !places.get(0).block()
        && places.get(0).prep().matches("at|from")
        && c.tokens().stream()
            .noneMatch(
                t ->
                    t.is(Token.Kind.PREP)
                        && t.text().matches("(?i)in|over|for|during|across|within|through"))
        && c.tokens().stream().noneMatch(t -> t.is(Token.Kind.BARS));
  }

  /** "From C onwards, quarter equals 104", "at C drop back to 96". */
  static List<String> tempo(Clause c) {
    Optional<Token> figure =
        c.tokens().stream().filter(t -> t.is(Token.Kind.FIGURE)).findFirst().or(() -> named(c));
    if (figure.isEmpty() || c.hard("rit") || c.hard("accel") || c.has(Token.Kind.NOT)) {
      return NONE;
    }
    boolean sure =
        c.named("tempo")
            || c.named("up")
            || c.named("down")
            || figure.get().text().matches(".*\\D.*")
            || c.tokens().stream()
                .anyMatch(
                    t ->
                        t.text()
                            .matches(
                                "(?i)drop\\w*|back|bring\\w*|push\\w*|slow\\w*|fast\\w*|take|takes|settles?|bumps?|move[sd]?"));
    int before = c.index(figure.get()) - 1;
    sure |=
        before >= 0
            && (c.tokens().get(before).is(Token.Kind.PREP)
                || figure.get().is(Token.Kind.FIGURE)
                    && c.tokens()
                        .get(before)
                        .text()
                        .matches("(?i)(?:be|is|it is|now|say|about|around)"))
            && c.tokens().stream().noneMatch(t -> t.is(Token.Kind.DO));
    sure |=
        figure.get().is(Token.Kind.FIGURE)
            && c.tokens().stream()
                .anyMatch(
                    t -> t.text().matches("(?i)(?:make|take|have|call|try) it|let us have it"));
    boolean out =
        c.tokens().stream().anyMatch(t -> t.does("cut") && !t.text().matches("(?i)drop\\w*"));
    if (!sure || out) {
      return NONE;
    }
    c.use(figure.get());
    c.take(Token.Kind.ONLY);
    c.take("tempo");
    c.take("beat");
    c.take("up");
    c.take("down");
    c.does("cut", "play", "start", "back", "backin", "slower", "faster");
    String said = figure.get().value();
    return Stretches.at(c)
        .map(at -> List.of((said.contains("=") ? said : "tempo " + said) + " at " + at))
        .orElse(NONE);
  }

  /** A figure right behind the word for it is no bar. */
  private static Optional<Token> named(Clause c) {
    List<Token> tokens = c.tokens();
    for (int i = 0; i < tokens.size(); i++) {
      if (!tokens.get(i).is(Token.Kind.NAME) || !tokens.get(i).value().equals("tempo")) {
        continue;
      }
      for (int j = i + 1; j < tokens.size(); j++) {
        Token t = tokens.get(j);
        boolean small =
            t.is(Token.Kind.FILL)
                || t.is(Token.Kind.PREP)
                || t.is(Token.Kind.NAME)
                || t.is(Token.Kind.COMMA);
        if (t.is(Token.Kind.PLACE) && t.text().matches("\\d{2,3}")) {
          return Optional.of(t);
        }
        if (!small) {
          break;
        }
      }
    }
    return Optional.empty();
  }

  /** "Back to the old tempo at E": the printed one, whatever was said of the bars before. */
  static List<String> old(Clause c) {
    if (!c.hard("oldtempo") || c.has(Token.Kind.NOT)) {
      return NONE;
    }
    c.does("oldtempo", "play", "back", "backin", "land", "start");
    c.take("tempo");
    return Stretches.at(c)
        .map(at -> List.of(c.bars().tempo(at).orElse("a tempo") + " at " + at))
        .orElse(NONE);
  }

  static List<String> pace(Clause c) {
    String what =
        c.hard("double")
            ? "double time"
            : c.hard("half")
                ? "half time"
                : c.hard("atempo")
                    ? "a tempo"
                    : c.hard("slower") || c.hard("rit") && fromOneBar(c)
                        ? "slower"
                        : c.hard("faster") || c.hard("accel") && fromOneBar(c) ? "faster" : "";
    if (what.isEmpty() || c.has(Token.Kind.NOT) || c.has(Token.Kind.FIGURE) || tooMuch(c)) {
      return NONE;
    }
    c.does(
        "double", "half", "atempo", "slower", "faster", "rit", "accel", "play", "start", "back",
        "backin", "land");
    c.take("tempo");
    String said = what.equals("slower") || what.equals("faster") ? degree(c) + what : what;
    boolean timed = what.matches("(?:double|half) time");
    boolean block = c.places().size() == 1 && c.places().get(0).block();
    if (timed && (block || c.places().size() == 2)) {
      return Manners.stretch(c, said, "a tempo");
    }
    return Stretches.at(c).map(at -> List.of(said + " at " + at)).orElse(NONE);
  }

  private static String degree(Clause c) {
    String all =
        c.tokens().stream()
            .map(Token::text)
            .reduce("", (a, b) -> a + " " + b)
            .toLowerCase(Locale.ROOT);
    return all.matches(".*\\b(?:lot|much|way)\\b.*")
        ? "much "
        : all.matches(".*\\b(?:little|bit|touch|hair|shade|tad|notch|slightly)\\b.*")
            ? "a little "
            : "";
  }
}
