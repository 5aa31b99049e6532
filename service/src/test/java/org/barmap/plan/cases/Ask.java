package org.barmap.plan.cases;

import com.fasterxml.jackson.annotation.JsonCreator;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.Arrays;
import java.util.List;
import tools.jackson.databind.JsonNode;

/** What a row looks at: the keys it needs of what, those of its answer, and how it is asked. */
public enum Ask {
  ORDER("order", List.of("number"), List.of(), (a, s, c) -> a.order(s, c.text("number"))),
  PLAYED(
      "played",
      List.of("number"),
      List.of("bars", "beats", "seconds", "plus"),
      (a, s, c) -> a.played(s, c.text("number"))),
  RESTS(
      "rests",
      List.of("number"),
      List.of("first", "pass", "bars", "enters", "says"),
      (a, s, c) -> a.rests(s, c.text("number"))),
  TURNS(
      "turns",
      List.of(),
      List.of(
          "from",
          "to",
          "direction",
          "pass",
          "sheets",
          "leaves",
          "arrives",
          "bars",
          "beats",
          "seconds",
          "open",
          "verdict"),
      (a, s, c) -> a.turns(s)),
  SIDE("side", List.of("page"), List.of(), (a, s, c) -> a.side(s, c.whole("page"))),
  STATE(
      "state",
      List.of("number", "bar", "pass"),
      List.of("meter", "beats", "key", "tempo", "bow", "mute", "instrument"),
      (a, s, c) -> a.state(s, c.text("number"), c.text("bar"), c.whole("pass"))),
  PLAYING(
      "playing",
      List.of("number", "bar"),
      List.of(),
      (a, s, c) -> a.playing(s, c.text("number"), c.text("bar"))),
  MARKS(
      "marks",
      List.of(),
      List.of("number", "bar", "mark", "says"),
      (a, s, c) -> c.says("number") ? a.marks(s, c.text("number")) : a.marks(s)),
  QUESTIONS(
      "questions", List.of(), List.of("topic", "about", "readings"), (a, s, c) -> a.questions(s)),
  TOLD("told", List.of(), List.of("about", "change", "severity", "text"), (a, s, c) -> a.told(s)),
  UNDERSTOOD(
      "understood",
      List.of("words"),
      List.of("changes", "asked", "refused", "kept"),
      (a, s, c) -> a.understood(s, c.text("words"))),
  LANDING(
      "landing",
      List.of("change"),
      List.of("out", "land", "beat"),
      (a, s, c) -> a.landing(s, c.whole("change"))),
  INSTRUMENTS(
      "instruments",
      List.of(),
      List.of("number", "at", "pass", "from", "to", "kind", "seconds", "verdict"),
      (a, s, c) -> a.instruments(s)),
  LINK("link", List.of("after"), List.of("kind"), (a, s, c) -> a.link(s, c.text("after"))),
  RUN_SHEET(
      "runSheet",
      List.of("number"),
      List.of(
          "page",
          "meter",
          "beats",
          "tempo",
          "instrument",
          "bow",
          "entrance",
          "vamps",
          "cuts",
          "link",
          "seconds",
          "plus",
          "state",
          "track"),
      (a, s, c) -> a.runSheet(s, c.text("number"))),
  NIGHT("night", List.of(), List.of("seconds", "plus", "without"), (a, s, c) -> a.night(s)),
  CARRIED("carried", List.of(), List.of("what", "because"), (a, s, c) -> a.carried(s)),
  CHECKED("checked", List.of(), List.of("pages", "of"), (a, s, c) -> a.checked(s)),
  ADVICE(
      "advice",
      List.of("from", "to", "pass"),
      List.of("kind", "after", "memorise", "text"),
      (a, s, c) -> a.advice(s, c.whole("from"), c.whole("to"), c.whole("pass"))),
  CLICK("click", List.of("number"), List.of(), (a, s, c) -> a.click(s, c.text("number"))),
  ALIGNED(
      "aligned",
      List.of("number", "bar"),
      List.of(),
      (a, s, c) -> a.aligned(s, c.text("number"), c.text("bar")));

  private final String word;
  private final List<String> needs;
  private final List<String> gives;
  private final Question question;

  Ask(String word, List<String> needs, List<String> gives, Question question) {
    this.word = word;
    this.needs = needs;
    this.gives = gives;
    this.question = question;
  }

  /** How an ask is put to the answers. */
  @FunctionalInterface
  interface Question {
    JsonNode of(Answers answers, Situation situation, TradeCase row);
  }

  /** Returns the word of a row. */
  @JsonValue
  public String word() {
    return word;
  }

  /** Returns the ask of a word. */
  @JsonCreator
  public static Ask of(String word) {
    return Arrays.stream(values())
        .filter(a -> a.word.equals(word))
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("no ask: " + word));
  }

  /** Returns the keys of "of" that a row must have. */
  public List<String> needs() {
    return needs;
  }

  /** Returns the keys that an answer, or one entry of its list, may have; empty for bare values. */
  public List<String> gives() {
    return gives;
  }

  /** Puts the question of a row. */
  public JsonNode put(Answers answers, TradeCase row) {
    return question.of(answers, Situation.of(row), row);
  }
}
