package org.barmap.plan.words.grammar;

import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** What is printed, or was changed, and isn't done: "12 is not a vamp", "the D.S. is out". */
final class Negated {
  private static final String NOUN =
      "(?<what>repeats?|vamps?|safety|safeties|d\\.?\\s?[sc]\\b\\.?|dal\\s+segno|da\\s+capo|fermatas?|holds?|pauses?"
          + "|rit(?:ard(?:ando)?)?\\b\\.?|rall(?:entando)?\\b\\.?|accel(?:erando)?\\b\\.?|g\\.?p\\b\\.?|caesura)"
          + "(?:\\s+sign)?(?:\\s+al\\s+(?:coda|fine))?";
  private static final String AT = "(?:(?:at|in|on|of|from|over|after)\\s+)";
  private static final String NOT =
      "(?:no|without|not|cut|ignore|forget|scratch|do\\s+not(?:\\s+(?:take|do|play|observe|make|follow|hold|go\\s+back\\s+on))?)";
  private static final String THE =
      "(?:(?:any|the|this|that|more|your|a|an|printed|big|all|of)\\s+)*";
  private static final String GONE =
      "(?:(?:is|are|goes|all)\\s+)*(?:cut|out|gone|off|not\\s+happening|cancell?ed|no\\s+more|not\\s+(?:taken|played|there|on))";
  private static final String WHOSE =
      "(?:(?:the|this|that|our|old|all|last|\\w+'s|first|printed|earlier|previous)\\s+)*";

  static final List<Rule> RULES =
      List.of(
          Rule.put(
              "(?:it\\s+)?(?:play\\s+)?(?:it\\s+|all\\s+|everything\\s+)*as\\s+(?:it\\s+(?:is|was|stands)|written|printed|is|in\\s+the\\s+(?:book|part)|before|originally)(?:\\s+(?:written|printed))?"
                  + "|(?:go\\s+)?back\\s+to\\s+(?:the\\s+)?(?:original|print|book|written|what\\s+is\\s+(?:written|printed))"
                  + "|restore(?:\\s+(?:everything|all|it|the\\s+(?:number|original)))?|(?:everything|all)\\s+(?:is\\s+)?back(?:\\s+in)?",
              "start to end back in"),
          Rule.of(
              "(?:ignore|forget|undo|lift|cancel|scratch|restore|reinstate|reverse|open(?:\\s+up)?|no|do\\s+not\\s+(?:make|do|take))\\s+"
                  + WHOSE
                  + "cuts?(?:\\s+"
                  + AT
                  + "?(?<bars>.+))?|"
                  + WHOSE
                  + "cuts?(?:\\s+"
                  + AT
                  + "(?<those>.+?))?\\s+"
                  + GONE,
              (m, bars) -> back(Rule.group(m, "bars") + Rule.group(m, "those"), bars)),
          Rule.of(
              "(?:not|do\\s+not|(?:is|are)\\s+not)\\s+cut\\s+(?<bars>.+)|(?<those>.+?)\\s+(?:is|are|was)\\s+(?:not|un)[\\s-]?(?:cut|out)"
                  + "|(?:restore|reinstate|bring\\s+back|put\\s+back|un-?cut)\\s+(?<these>.+)",
              (m, bars) ->
                  back(
                      Rule.group(m, "bars") + Rule.group(m, "those") + Rule.group(m, "these"),
                      bars)),
          Rule.of(
              NOT + "\\s+" + THE + NOUN + "(?:\\s+" + AT + "?(?<bars>.+))?",
              (m, bars) -> none(Rule.group(m, "what"), Rule.group(m, "bars"), bars)),
          Rule.of(
              THE + NOUN + "(?:\\s+" + AT + "?(?<bars>(?!(?:is|are|all|goes)\\b).+?))?\\s+" + GONE,
              (m, bars) -> none(Rule.group(m, "what"), Rule.group(m, "bars"), bars)),
          Rule.of(
              AT + "?(?<bars>.+?)[,:]?\\s+(?:(?:is|are)\\s+)?(?:not|without|no)\\s+" + THE + NOUN,
              (m, bars) -> none(Rule.group(m, "what"), Rule.group(m, "bars"), bars)));

  private Negated() {}

  private static Optional<Meant> back(String said, Bars bars) {
    if (said.isEmpty()) {
      return Optional.of(Meant.says("start to end back in"));
    }
    return bars.named(said) ? Optional.of(Meant.says(said + " back in")) : Optional.empty();
  }

  private static Optional<Meant> none(String what, String said, Bars bars) {
    if (!said.isEmpty() && !bars.named(said)) {
      return Optional.empty();
    }
    String noun = what.toLowerCase(Locale.ROOT).replace(" ", "");
    String at = said.isEmpty() ? "" : " at " + said;
    if (noun.startsWith("repeat")) {
      boolean several = bars.ends(said).filter(e -> !e.first().equals(e.last())).isPresent();
      return Optional.of(
          Meant.says(
              said.isEmpty()
                  ? "no repeats"
                  : several ? "play " + said + " once" : "no repeat" + at));
    }
    return Optional.of(
        Meant.says(
            switch (noun.substring(0, 2)) {
              case "va" -> noun.endsWith("s") && said.isEmpty() ? "no vamps" : "no vamp" + at;
              case "sa" -> "no safety" + at;
              case "d.", "ds" -> (noun.contains("c") ? "no D.C." : "no D.S.") + at;
              case "da" -> noun.startsWith("dal") ? "no D.S." + at : "no D.C." + at;
              case "dc" -> "no D.C." + at;
              case "fe", "ho", "pa", "ca" -> "no hold" + at;
              case "ri", "ra" -> "no rit." + at;
              case "ac" -> "no accel." + at;
              default -> "no G.P." + at;
            }));
  }
}
