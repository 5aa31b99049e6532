package org.barmap.plan.words.grammar;

import java.util.List;
import java.util.Optional;
import org.barmap.plan.change.term.Pass;

/** Who plays, and what goes on until somebody is ready: tacet, vamps, safeties, holds. */
final class Players {
  private static final String AT = "(?:(?:at|in|on|over|for|of|from|bars?)\\s+)*";
  private static final String EVERYONE =
      "(?:(?:the\\s+)?(?:everyone|everybody|all|tutti|band|orchestra|(?:whole|entire|full)\\s+(?:band|pit|orchestra)|rhythm(?:\\s+section)?))";
  private static final String INSTRUMENT =
      "(?:(?:the|all|low|high|just|only)\\s+)*(?:drums?|kit|percussion|perc|piano|keys|keyboards?|strings|reeds?(?:\\s+\\d)?|brass|horns?|trumpets?|trombones?"
          + "|winds?|woodwinds?|flutes?|clarinets?|oboes?|sax(?:es|ophones?)?|violins?|violas?|celli|cellos?|guitars?|gtr|choir|singers?|vocals?|company|ensemble|everyone\\s+else"
          + "|(?:double\\s+|electric\\s+|string\\s+|upright\\s+)?bass(?:es)?|bs)";
  private static final String SILENT =
      "(?:(?:is|are|goes|stays?)\\s+)*(?:tacet|out|silent|rests?|do\\s+not\\s+play)";
  private static final String TILL =
      "(?:until|till|'?til|while|for\\s+as\\s+long\\s+as|as\\s+long\\s+as|for|under|waiting\\s+for)";

  static final List<Rule> RULES =
      List.of(
          Rule.put(
              "(?:no\\s+applause|do\\s+not\\s+(?:wait|stop)\\s+for\\s+(?:the\\s+)?applause)[,;:\\s-]*(?:(?:go|we|straight|right|directly|on)\\s+)*(?:in)?to\\s+(?:no\\.?\\s*|number\\s+|#)?(\\d{1,4}[A-Za-z]{0,2})",
              "attacca $1"),
          Rule.of(
              "(?:only\\s+play|play\\s+only)\\s+(?<list>.+?),?\\s+(?<pass>"
                  + Pass.SAID
                  + ")|(?<time>"
                  + Pass.SAID
                  + "),?\\s+(?:only\\s+play|play\\s+only)\\s+(?<items>.+)",
              (m, bars) ->
                  only(
                      Rule.group(m, "list") + Rule.group(m, "items"),
                      Rule.group(m, "pass") + Rule.group(m, "time"),
                      bars)),
          Rule.of(
              AT
                  + "(?<list>.+?),?\\s+(?:(?:is|are)\\s+)?(?:only\\s+)?(?:(?:on|in)\\s+)?(?<pass>"
                  + Pass.SAID
                  + ")\\s+only",
              (m, bars) -> only(Rule.group(m, "list"), Rule.group(m, "pass"), bars)),
          Rule.of(
              "(?<who>"
                  + EVERYONE
                  + "|"
                  + INSTRUMENT
                  + ")\\s+(?<what>.*\\b(?:tacet|out|silent)\\b.*?),?\\s+(?:except|but|apart\\s+from)(?:\\s+for)?(?:\\s+the)?\\s+(?<but>"
                  + INSTRUMENT
                  + ")",
              (m, bars) ->
                  bars.chair(Rule.group(m, "but"))
                      ? Optional.of(new Meant.Remark())
                      : Optional.empty()),
          Rule.of(
              "(?:nobody|no\\s+one|no-one|none)(?:\\s+of\\s+us)?\\s+(?:plays?|in)\\s+"
                  + AT
                  + "(?<bars>.+)"
                  + "|"
                  + EVERYONE
                  + "\\s+"
                  + SILENT
                  + "\\s+"
                  + AT
                  + "(?<those>.+)"
                  + "|"
                  + EVERYONE
                  + "\\s+"
                  + AT
                  + "(?<these>.+?)\\s+"
                  + SILENT,
              (m, bars) ->
                  tacet(
                      Rule.group(m, "bars") + Rule.group(m, "those") + Rule.group(m, "these"),
                      bars)),
          Rule.of(
              "(?<who>" + INSTRUMENT + ")[,:]?\\s+" + SILENT + "(?:\\s+" + AT + "(?<bars>.+))?",
              (m, bars) -> whose(Rule.group(m, "who"), Rule.group(m, "bars"), bars)),
          Rule.of(
              "(?:no|without|cut)\\s+(?<who>" + INSTRUMENT + ")(?:\\s+" + AT + "(?<bars>.+))?",
              (m, bars) -> whose(Rule.group(m, "who"), Rule.group(m, "bars"), bars)),
          Rule.of(
              "(?<who>"
                  + INSTRUMENT
                  + ")\\s+(?:only|solo|alone)\\s+"
                  + AT
                  + "(?<bars>.+)|"
                  + AT
                  + "(?<those>.+?)\\s+(?:is\\s+|are\\s+)?(?:only\\s+(?<whose>"
                  + INSTRUMENT
                  + ")|(?<of>"
                  + INSTRUMENT
                  + ")\\s+(?:only|solo|alone))",
              Players::alone),
          Rule.of(
              "tacet\\s+" + TILL + "\\s+(?<to>.+)|(?:tacet)\\s+(?:up\\s+)?to\\s+(?<up>.+)",
              (m, bars) -> upTo(Rule.group(m, "to") + Rule.group(m, "up"), bars)),
          Rule.put(
              "tacet\\s+from\\s+((?!.*\\b(?:to|till|until|through)\\b).+?)(?:\\s+on(?:wards?)?)?",
              "tacet $1 to end"),
          Rule.of(
              "(?:we\\s+|keep\\s+)?vamp\\s+"
                  + AT
                  + "(?<bars>.+?),?\\s+"
                  + TILL
                  + "\\s+(?<cue>.+)"
                  + "|"
                  + AT
                  + "(?<those>.+?)\\s+(?:is|are|becomes?|turns?\\s+into|go(?:es)?\\s+round)(?:\\s+(?:a|an|open|the))*(?:\\s+vamp)?,?\\s+"
                  + TILL
                  + "\\s+(?<until>.+)"
                  + "|(?<these>\\S+(?:\\s\\S+){0,3}?)\\s+vamp,?\\s+"
                  + TILL
                  + "\\s+(?<when>.+)"
                  + "|(?:keep\\s+(?:going\\s+round|repeating|playing|looping)|go\\s+round(?:\\s+and\\s+round)?|round\\s+and\\s+round)\\s+"
                  + AT
                  + "(?<keep>.+?),?\\s+"
                  + TILL
                  + "\\s+(?<stop>.+)",
              (m, bars) ->
                  vamp(
                      Rule.group(m, "bars")
                          + Rule.group(m, "those")
                          + Rule.group(m, "these")
                          + Rule.group(m, "keep"),
                      Rule.group(m, "cue")
                          + Rule.group(m, "until")
                          + Rule.group(m, "when")
                          + Rule.group(m, "stop"),
                      bars)),
          Rule.of(
              "(?:the\\s+)?vamp\\s+(?:(?:goes|go|is|runs|keeps|carries|lasts|on|going)\\s+)*"
                  + TILL
                  + "\\s+(?<cue>.+)",
              (m, bars) ->
                  bars.open("vamp")
                      .map(v -> Meant.says("vamp " + v + " till " + Rule.group(m, "cue")))),
          Rule.of(
              "vamp\\s+"
                  + AT
                  + "(?<bars>.+)|(?<those>.+?)\\s+(?:(?:is|are|becomes?|turns?\\s+into|a|an|open)\\s+)*vamp",
              (m, bars) ->
                  named("vamp ", Rule.group(m, "bars") + Rule.group(m, "those"), "", bars)),
          Rule.of(
              "(?:an?\\s+)?safety\\s+"
                  + AT
                  + "(?<bars>.+?),?\\s+(?<why>(?:till|until|if|in\\s+case|for|while)\\s+.+)|(?<those>.+?)\\s+(?:(?:is|are|a|an)\\s+)*safety,?\\s+(?<because>(?:till|until|if|in\\s+case|for|while)\\s+.+)",
              (m, bars) ->
                  named(
                      "safety ",
                      Rule.group(m, "bars") + Rule.group(m, "those"),
                      " (" + Rule.group(m, "why") + Rule.group(m, "because") + ")",
                      bars)),
          Rule.of(
              "(?:hold|wait|pause|sit|park|stay|freeze)\\s+(?:it\\s+|on\\s+)?"
                  + AT
                  + "(?<bar>.+?),?\\s+(?:for|until|till|'?til)\\s+(?<cue>.+)"
                  + "|(?:wait|pause)\\s+for\\s+(?<whom>.+?)\\s+(?:at|on|after)\\s+(?<where>\\S+(?:\\s\\S+){0,3})",
              (m, bars) ->
                  named(
                      "hold ",
                      Rule.group(m, "bar") + Rule.group(m, "where"),
                      Waiting.behind(Rule.group(m, "cue") + Rule.group(m, "whom")),
                      bars)),
          Rule.of(
              "(?:fermata|hold|pause|wait|sit)\\s+" + AT + "(?<bar>.+)",
              (m, bars) -> named("hold ", Rule.group(m, "bar"), "", bars)));

  private Players() {}

  private static Optional<Meant> only(String list, String pass, Bars bars) {
    List<String> items = Rule.items(list);
    return items.stream().allMatch(bars::named)
        ? Optional.of(new Meant.Says(items.stream().map(i -> pass + " only " + i).toList()))
        : Optional.empty();
  }

  private static Optional<Meant> named(String verb, String said, String behind, Bars bars) {
    return bars.named(said) ? Optional.of(Meant.says(verb + said + behind)) : Optional.empty();
  }

  private static Optional<Meant> vamp(String said, String cue, Bars bars) {
    return named("vamp ", said.replaceFirst("^(?:at|on|in|over)\\s+", ""), " till " + cue, bars);
  }

  private static Optional<Meant> tacet(String said, Bars bars) {
    if (bars.named(said)) {
      return Optional.of(Meant.says("tacet " + said));
    }
    List<String> items = Rule.items(said);
    return items.size() > 1 && items.stream().allMatch(bars::named)
        ? Optional.of(new Meant.Says(items.stream().map(i -> "tacet " + i).toList()))
        : Optional.empty();
  }

  private static Optional<Meant> upTo(String to, Bars bars) {
    return bars.named(to) ? Optional.of(Meant.says("tacet start until " + to)) : Optional.empty();
  }

  /** Whoever else is silent, this player isn't. */
  private static Optional<Meant> whose(String who, String said, Bars bars) {
    if (!bars.chair(who)) {
      return Optional.of(new Meant.Remark());
    }
    return said.isEmpty()
        ? Optional.of(Meant.says("tacet"))
        : tacet(said, bars)
            .or(() -> upTo(said.replaceFirst("(?i)^(?:until|till|'?til|up to)\\s+", ""), bars));
  }

  private static Optional<Meant> alone(java.util.regex.Matcher m, Bars bars) {
    String who = Rule.group(m, "who") + Rule.group(m, "whose") + Rule.group(m, "of");
    String said = Rule.group(m, "bars") + Rule.group(m, "those");
    if (!bars.named(said)) {
      return Optional.empty();
    }
    return Optional.of(
        bars.chair(who)
            ? new Meant.Remark()
            : new Meant.Asks("Are you silent there?", List.of("tacet " + said)));
  }
}
