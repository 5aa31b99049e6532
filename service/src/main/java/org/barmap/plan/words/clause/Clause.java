package org.barmap.plan.words.clause;

import java.util.ArrayList;
import java.util.Collections;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.stream.Collectors;
import org.barmap.plan.words.grammar.Bars;

/**
 * One thing said. A kind of change takes what it needs and what it may have; what nobody took is
 * left.
 */
final class Clause {
  private final List<Token> tokens;
  private final Bars bars;
  private final boolean later;
  private boolean sections;
  private final Set<Token> used = Collections.newSetFromMap(new IdentityHashMap<>());

  /** One thing that can be done: takes what it needs and may have from a clause. */
  @FunctionalInterface
  interface Deed {
    /** Returns it in the words of the kinds of change; empty where the clause isn't about it. */
    List<String> read(Clause clause);
  }

  Clause(List<Token> tokens, Bars bars, boolean later) {
    this.tokens = List.copyOf(tokens);
    this.bars = bars;
    this.later = later;
  }

  /** Whether something was said before it in the same breath. */
  boolean later() {
    return later;
  }

  /** A mark alone is its section in this clause. */
  void sections() {
    sections = true;
  }

  boolean bySection() {
    return sections;
  }

  /** Returns it as it was said. */
  String said() {
    return said(tokens);
  }

  /** Returns words as they were said. */
  static String said(List<Token> tokens) {
    return tokens.stream()
        .map(Token::text)
        .collect(Collectors.joining(" "))
        .replaceAll("\\s+(?=[,.;:!?])", "")
        .replaceAll("[,.;:!?\\s]+$", "");
  }

  Bars bars() {
    return bars;
  }

  List<Token> tokens() {
    return tokens;
  }

  /** Returns what nobody took and nobody may leave aside. */
  List<Token> left() {
    return tokens.stream()
        .filter(t -> (!t.free() || dangling(t)) && !used.contains(t) && !purpose(t))
        .toList();
  }

  /** "For the lift": what it is done for, on the stage; not when, and not in which show. */
  private static boolean purpose(Token t) {
    return t.is(Token.Kind.CUE)
        && t.text().equalsIgnoreCase("for")
        && t.value().matches("(?:the|her|his|their|my) [a-z]+(?: [a-z]+)?|\\p{Lu}\\p{Ll}{2,}")
        && !t.value()
            .matches(
                "(?i).*\\b(?:matinees?|understudy|swings?|evenings?|previews?|first|second|third|last|final|rest|repeat|time|times|bars?|vamp|tour|show|run|night|moment|performance|version|cue|number|applause)\\b.*");
  }

  /** "Arco after": after what is said by another clause. */
  private boolean dangling(Token t) {
    if (!t.is(Token.Kind.PREP) || !t.value().matches("after|before|until|between|through")) {
      return false;
    }
    for (int i = index(t) + 1; i < tokens.size(); i++) {
      Token next = tokens.get(i);
      if (next.is(Token.Kind.PLACE)
          || next.is(Token.Kind.BARS)
          || next.is(Token.Kind.FIGURE) && t.text().endsWith("to")) {
        return false;
      }
      if (!next.is(Token.Kind.FILL) && !next.is(Token.Kind.THERE)) {
        return true;
      }
    }
    return true;
  }

  boolean has(String deed) {
    return tokens.stream().anyMatch(t -> t.does(deed));
  }

  /** Whether it is done; a word that may only go with another doesn't count. */
  boolean hard(String deed) {
    return tokens.stream().anyMatch(t -> t.is(Token.Kind.DO) && t.value().equals(deed));
  }

  boolean has(Token.Kind kind) {
    return tokens.stream().anyMatch(t -> t.is(kind));
  }

  boolean named(String name) {
    return tokens.stream().anyMatch(t -> t.is(Token.Kind.NAME) && t.value().equals(name));
  }

  /** Takes what is done, however often it is said. */
  boolean does(String... deeds) {
    boolean found = false;
    for (Token t : tokens) {
      for (String deed : deeds) {
        if (t.does(deed)) {
          used.add(t);
          found = true;
        }
      }
    }
    return found;
  }

  /** Takes all of a kind. */
  boolean take(Token.Kind kind) {
    List<Token> those = tokens.stream().filter(t -> t.is(kind)).toList();
    used.addAll(those);
    return !those.isEmpty();
  }

  boolean take(String name) {
    List<Token> those =
        tokens.stream().filter(t -> t.is(Token.Kind.NAME) && t.value().equals(name)).toList();
    used.addAll(those);
    return !those.isEmpty();
  }

  /** Takes the only one of a kind; nothing where there are several. */
  Optional<String> one(Token.Kind kind) {
    List<Token> those = tokens.stream().filter(t -> t.is(kind) && !used.contains(t)).toList();
    if (those.size() != 1) {
      return Optional.empty();
    }
    used.add(those.get(0));
    return Optional.of(those.get(0).value());
  }

  OptionalInt number(Token.Kind kind) {
    return one(kind).map(v -> OptionalInt.of(Integer.parseInt(v))).orElse(OptionalInt.empty());
  }

  void use(Token token) {
    used.add(token);
  }

  boolean unused(Token token) {
    return !used.contains(token);
  }

  int index(Token token) {
    for (int i = 0; i < tokens.size(); i++) {
      if (tokens.get(i) == token) {
        return i;
      }
    }
    return -1;
  }

  Optional<Token> first(String deed) {
    return tokens.stream().filter(t -> t.does(deed)).findFirst();
  }

  /** Returns the places not taken yet, each with the word before it. */
  List<Place> places() {
    List<Place> places = new ArrayList<>();
    for (int i = 0; i < tokens.size(); i++) {
      Token t = tokens.get(i);
      if (t.is(Token.Kind.PLACE) && unused(t)) {
        boolean on = i + 1 < tokens.size() && tokens.get(i + 1).is(Token.Kind.ON);
        places.add(new Place(t, prep(i), t.value(), on));
      }
    }
    return places;
  }

  private String prep(int at) {
    for (int i = at - 1; i >= 0; i--) {
      Token t = tokens.get(i);
      if (t.is(Token.Kind.PREP)) {
        return t.value();
      }
      if (!t.is(Token.Kind.FILL) && !t.is(Token.Kind.THERE)) {
        return "";
      }
    }
    return "";
  }

  /**
   * A place as it was said.
   *
   * @param token what it was read from
   * @param prep "from", "to", "after", or nothing
   * @param said the bars
   * @param on all from there on
   */
  record Place(Token token, String prep, String said, boolean on) {
    /** Whether it is so many bars by itself. */
    boolean block() {
      String low = said.toLowerCase(Locale.ROOT);
      return low.matches(".*\\b(?:before|after|from|at)\\b.*")
          || low.matches("(?:the )?(?:last|first|final|opening) .*")
          || low.matches("letter .*|.* half of .*");
    }

    boolean mark() {
      return said.matches("[A-Z]{1,2}\\d?|letter .*");
    }

    String bare() {
      return said.replaceFirst("^letter ", "");
    }
  }

  void use(Place place) {
    used.add(place.token());
    int next = index(place.token()) + 1;
    if (place.on() && next < tokens.size()) {
      used.add(tokens.get(next));
    }
  }

  /** Whether nothing but small words stands between two places. */
  boolean beside(Place one, Place other) {
    return tokens.subList(index(one.token()) + 1, index(other.token())).stream()
        .allMatch(
            t ->
                t.is(Token.Kind.PREP)
                    || t.is(Token.Kind.FILL)
                    || t.is(Token.Kind.SOFT)
                    || t.is(Token.Kind.COMMA));
  }

  /** Takes everything said about how often: 0 where nothing is. */
  int times() {
    return number(Token.Kind.TIMES).orElse(0);
  }

  String pass() {
    return one(Token.Kind.PASS)
        .map(
            p ->
                switch (p) {
                  case "1" -> "1st time";
                  case "2" -> "2nd time";
                  case "3" -> "3rd time";
                  case "4" -> "4th time";
                  case "jump" ->
                      bars.jumpsBack() || bars.repeat().isEmpty() ? "on the D.S." : "2nd time";
                  default -> "last time";
                })
        .orElse("");
  }

  @Override
  public String toString() {
    return tokens.stream()
        .map(t -> t.kind() + ":" + t.value())
        .collect(Collectors.joining(" ", "[", "]"));
  }
}
