package org.barmap.plan.words.grammar;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** How fast, in which meter and key, with what in hand. */
final class Manners {
  private static final List<String> NONE = List.of();

  private Manners() {}

  static List<Clause.Deed> all() {
    return List.of(
        Manners::gradual,
        Manners::tempo,
        Manners::old,
        Manners::pace,
        Manners::free,
        Manners::grip,
        Manners::instrument,
        Manners::meter,
        Manners::beats,
        Manners::transposed,
        Manners::key,
        Manners::watch,
        Manners::track);
  }

  /** "Rit. in 61 to 64", "slow down over the last four". */
  static List<String> gradual(Clause c) {
    boolean rit = c.hard("rit");
    if (rit == c.hard("accel") || c.has(Token.Kind.NOT)) {
      return NONE;
    }
    c.does("rit", "accel", "insert", "play", "start");
    return Stretches.of(c, Stretches.Use.OTHER)
        .filter(w -> w.size() == 1)
        .map(w -> List.of((rit ? "rit. " : "accel. ") + w.get(0)))
        .orElse(NONE);
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
            && c.tokens().get(before).is(Token.Kind.PREP)
            && c.tokens().stream().noneMatch(t -> t.is(Token.Kind.DO));
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
                    : c.hard("slower") ? "slower" : c.hard("faster") ? "faster" : "";
    if (what.isEmpty() || c.has(Token.Kind.NOT) || c.has(Token.Kind.FIGURE)) {
      return NONE;
    }
    c.does(
        "double", "half", "atempo", "slower", "faster", "play", "start", "back", "backin", "land");
    c.take("tempo");
    String said = what.equals("slower") || what.equals("faster") ? degree(c) + what : what;
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

  /** Out of time for a stretch; behind it the tempo comes back. */
  static List<String> free(Clause c) {
    if (!c.hard("free") || c.has(Token.Kind.NOT)) {
      return NONE;
    }
    c.does("free", "play");
    if (c.places().size() < 2) {
      Optional<String> ends = c.places().stream().map(Clause.Place::said).findFirst();
      boolean one = ends.flatMap(c.bars()::ends).filter(e -> !e.first().equals(e.last())).isEmpty();
      if (one) {
        return Stretches.at(c).map(at -> List.of("colla voce at " + at)).orElse(NONE);
      }
    }
    return stretch(c, "colla voce", "a tempo");
  }

  private static List<String> stretch(Clause c, String how, String then) {
    Optional<Bars.Ends> ends =
        Stretches.of(c, Stretches.Use.OTHER)
            .filter(w -> w.size() == 1)
            .flatMap(w -> c.bars().ends(w.get(0)));
    if (ends.isEmpty()) {
      return NONE;
    }
    List<String> says = new ArrayList<>(List.of(how + " at " + ends.get().first()));
    if (!ends.get().ends()) {
      says.add(then + " at 1 after " + ends.get().last());
    }
    return says;
  }

  static List<String> grip(Clause c) {
    boolean pizz = c.hard("pizz");
    boolean on = c.hard("muteon");
    boolean off = c.hard("muteoff");
    boolean arco = c.hard("arco");
    int said = (pizz ? 1 : 0) + (arco ? 1 : 0) + (on ? 1 : 0) + (off ? 1 : 0);
    if (said != 1 || c.has(Token.Kind.NOT) || c.has(Token.Kind.CUE)) {
      return NONE;
    }
    c.does("pizz", "arco", "muteon", "muteoff", "play", "start", "back");
    c.take(Token.Kind.AGAIN);
    String how = pizz ? "pizz" : arco ? "arco" : on ? "mute on" : "mute off";
    String then = pizz ? "arco" : arco ? "pizz" : on ? "mute off" : "mute on";
    List<Clause.Place> places = c.places();
    boolean two = places.size() == 2;
    boolean block = places.size() == 1 && places.get(0).block();
    if ((two || block) && !on && !off) {
      return stretch(c, how, then);
    }
    return Stretches.at(c).map(at -> List.of(how + " at " + at)).orElse(NONE);
  }

  static List<String> instrument(Clause c) {
    Optional<String> name = c.one(Token.Kind.INSTRUMENT);
    if (name.isEmpty() || c.has(Token.Kind.NOT)) {
      return NONE;
    }
    c.does("play", "start", "back", "land");
    c.take(Token.Kind.AGAIN);
    return Stretches.at(c).map(at -> List.of(name.get() + " at " + at)).orElse(NONE);
  }

  /** "Bar 12 is a 3/4 bar", "make 20 a three-four". */
  static List<String> meter(Clause c) {
    Optional<String> meter =
        c.one(Token.Kind.METER)
            .or(
                () ->
                    c.one(Token.Kind.BARS)
                        .filter(b -> b.matches("1\\|\\d+/\\d+\\|"))
                        .map(b -> b.replaceAll("^1\\||\\|$", "")));
    if (meter.isEmpty() || c.has(Token.Kind.NOT) || c.has(Token.Kind.TIMES)) {
      return NONE;
    }
    c.does("play");
    return Stretches.of(c, Stretches.Use.OTHER)
        .map(w -> w.stream().map(s -> s + " in " + meter.get()).toList())
        .orElse(NONE);
  }

  static List<String> beats(Clause c) {
    Optional<String> beats = c.one(Token.Kind.BEATS);
    if (beats.isEmpty() || c.has(Token.Kind.NOT)) {
      return NONE;
    }
    c.does("play", "start");
    if (c.places().isEmpty()) {
      c.take(Token.Kind.WHOLE);
      return List.of("in " + beats.get());
    }
    Optional<List<String>> where = Stretches.of(c, Stretches.Use.OTHER);
    return where
        .filter(w -> w.size() == 1)
        .map(w -> List.of("in " + beats.get() + " from " + w.get(0)))
        .orElse(NONE);
  }

  /** "Down a tone"; a number is transposed whole. */
  static List<String> transposed(Clause c) {
    Optional<String> by = c.one(Token.Kind.INTERVAL);
    boolean up = c.named("up");
    if (by.isEmpty() || up == c.named("down") || c.has(Token.Kind.NOT)) {
      return NONE;
    }
    c.take("up");
    c.take("down");
    c.take("key");
    c.does("play", "transpose");
    c.take(Token.Kind.WHOLE);
    return List.of((up ? "up " : "down ") + by.get());
  }

  static List<String> key(Clause c) {
    Optional<String> key = c.one(Token.Kind.KEY);
    if (key.isEmpty() || c.has(Token.Kind.NOT)) {
      return NONE;
    }
    c.take("key");
    c.does("play", "go");
    boolean signs =
        key.get().matches("(?i).*\\b(?:sharps?|flats?)")
            && key.get().matches("(?i)(?:\\d|no|one|two|three|four|five|six|seven)\\b.*");
    if (signs) {
      return Stretches.at(c).map(at -> List.of(key.get() + " from " + at)).orElse(NONE);
    }
    boolean up = c.take("up");
    boolean down = c.take("down");
    if (!c.places().isEmpty() || up && down) {
      return NONE;
    }
    c.take(Token.Kind.WHOLE);
    return c.bars().toKey(key.get(), up ? 1 : down ? -1 : 0).map(List::of).orElse(NONE);
  }

  static List<String> watch(Clause c) {
    if (!c.hard("watch") || c.has(Token.Kind.NOT) || c.places().isEmpty()) {
      return NONE;
    }
    c.does("watch");
    return Stretches.of(c, Stretches.Use.OTHER)
        .map(
            w ->
                w.stream()
                    .map(s -> "watch at " + c.bars().ends(s).map(Bars.Ends::first).orElse(s))
                    .toList())
        .orElse(NONE);
  }

  static List<String> track(Clause c) {
    if (!c.hard("track") || c.has(Token.Kind.NOT) || !c.places().isEmpty()) {
      return NONE;
    }
    c.does("track", "play");
    c.take(Token.Kind.WHOLE);
    return List.of("to track");
  }
}
