package org.barmap.plan.words.clause;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.plan.words.grammar.Bars;

/** How fast, in which meter and key, with what in hand. */
final class Manners {
  private static final List<String> NONE = List.of();

  private Manners() {}

  static List<Clause.Deed> all() {
    return List.of(
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

  static List<String> stretch(Clause c, String how, String then) {
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
    c.does("pizz", "arco", "muteon", "muteoff", "play", "start", "back", "backin");
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
    c.does("play", "start", "back", "backin", "land");
    c.take(Token.Kind.AGAIN);
    return Stretches.at(c)
        .map(
            at ->
                at.replaceFirst(
                    "(?i)^the (?:pick-?\\s?ups?|upbeats?)(?: bar)? (?:in)?to ", "1 before "))
        .map(at -> List.of(name.get() + " at " + at))
        .orElse(NONE);
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
    c.take("extrabeat");
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
