package org.barmap.plan.words.grammar;

import java.util.List;
import java.util.Optional;

/**
 * How fast, and how it goes: tempos, double and half time, out of time; bow or fingers up to a bar.
 */
final class Timing {
  private static final String FROM = "(?:(?:at|from|in|on|for|of|over|through)\\s+)*";
  private static final String IS =
      "(?:(?:is|goes|go|up|down|to|at|about|around|roughly|ca\\.?|circa|back|moved|it|the|new|tempo|bpm|click|speed|take|push|pull|bring|set|set\\s+to|drop(?:s|ped)?|cut|comes?|settles?|jumps?|we|is|(?:dotted\\s+)?(?:quarter|half|eighth)(?:\\s+note)?|crotchet|equals|on(?:wards?)?|=)\\s+)*";
  private static final String FREE =
      "(?<free>colla\\s+(?:voce|parte)|freely|free|rubato|ad\\s+lib(?:itum)?\\.?|out\\s+of\\s+time|with\\s+the\\s+(?:singer|voice|vocal)|follow\\s+(?:her|him|them|the\\s+(?:singer|voice|vocal)))";

  static final List<Rule> RULES =
      List.of(
          Rule.remark(
              ".*\\b(?:(?:half|double)[\\s-]time|swing|shuffle|latin|rock|waltz|two|four|different|jazz)\\s+feel\\b.*|.*\\bstraight\\s+(?:8ths?|eighths?|quavers?|feel)\\b.*|.*\\bswung?\\s+(?:8ths?|eighths?|quavers?)\\b.*"),
          Rule.of(
              "(?:(?:double|twice)\\s+(?:the\\s+)?(?:tempo|speed|time)|(?:at\\s+)?twice\\s+the\\s+(?:tempo|speed)|double\\s+it|(?:go\\s+)?double[\\s-]time|twice\\s+as\\s+fast)(?:\\s+"
                  + FROM
                  + "(?<bar>.+))?",
              (m, bars) -> at("double time", Rule.group(m, "bar"), bars)),
          Rule.of(
              "(?:(?:half|halve)\\s+(?:the\\s+)?(?:tempo|speed|time)|(?:at\\s+)?half\\s+the\\s+(?:tempo|speed)|(?:go\\s+)?half[\\s-]time|half\\s+as\\s+fast)(?:\\s+"
                  + FROM
                  + "(?<bar>.+))?",
              (m, bars) -> at("half time", Rule.group(m, "bar"), bars)),
          Rule.of(
              IS
                  + "(?:tempo|bpm|click|speed|up|down|to|at|=)\\s+"
                  + IS
                  + "(?<n>\\d{2,3})(?:\\s*bpm)?(?:\\s+(?:at|from|in|on)\\s+(?<bar>.+?)(?:\\s+on(?:wards?)?)?)?",
              (m, bars) -> at("tempo " + Rule.group(m, "n"), Rule.group(m, "bar"), bars)),
          Rule.of(
              "(?:at|from)\\s+(?<bar>.+?)[,:]?\\s+"
                  + IS
                  + "(?:tempo|bpm|click|up|down|at|to)\\s+"
                  + IS
                  + "(?<n>\\d{2,3})(?:\\s*bpm)?",
              (m, bars) -> at("tempo " + Rule.group(m, "n"), Rule.group(m, "bar"), bars)),
          Rule.put(
              "(?:(?:go|be|play|stay|switch|change|move|all|over|it|take)\\s+)*(?:on|to|onto|with)\\s+(?:the\\s+)?(\\S+(?:\\s\\S+)?)\\s+(?:at|from|in|for)\\s+(.+)",
              "$1 at $2"),
          Rule.of(
              FREE + "(?:\\s+" + FROM + "(?<bars>.+))?",
              (m, bars) -> free(Rule.group(m, "free"), Rule.group(m, "bars"), bars)),
          Rule.of(
              FROM + "(?<bars>.+?)[,:]?\\s+(?:(?:is|are|goes|go|all)\\s+)*" + FREE,
              (m, bars) -> free(Rule.group(m, "free"), Rule.group(m, "bars"), bars)),
          Rule.of(
              "(?<how>pizz|arco)\\.?(?:icato)?\\s+"
                  + FROM
                  + "(?<bars>.+?),?\\s+(?:(?:and|then|back\\s+to)\\s+)*(?<then>pizz|arco)\\.?(?:icato)?\\s+(?:after(?:\\s+(?:that|it))?|from\\s+there|thereafter|from\\s+then(?:\\s+on)?|behind\\s+it|again)"
                  + "|(?<only>pizz|arco)\\.?(?:icato)?\\s+"
                  + FROM
                  + "(?<those>.+)",
              Timing::grip));

  private Timing() {}

  private static Optional<Meant> at(String what, String bar, Bars bars) {
    if (bar.isEmpty()) {
      return Optional.of(Meant.says(what + " at start"));
    }
    return bars.named(bar) ? Optional.of(Meant.says(what + " at " + bar)) : Optional.empty();
  }

  /** Out of time for a stretch; behind it the tempo comes back. */
  private static Optional<Meant> free(String how, String said, Bars bars) {
    String word = how.matches("(?i)colla.*|freely|rubato|out.*") ? how : "colla voce";
    if (said.isEmpty()) {
      return Optional.of(Meant.says(word + " at start"));
    }
    Optional<Bars.Ends> ends = bars.ends(said);
    if (ends.isEmpty() || ends.get().first().equals(ends.get().last()) || ends.get().ends()) {
      return at(word, ends.map(Bars.Ends::first).orElse(said), bars);
    }
    return Optional.of(
        Meant.says(word + " at " + ends.get().first(), "a tempo at 1 after " + ends.get().last()));
  }

  private static Optional<Meant> grip(java.util.regex.Matcher m, Bars bars) {
    String how = Rule.group(m, "how") + Rule.group(m, "only");
    String said = Rule.group(m, "bars") + Rule.group(m, "those");
    String then = Rule.group(m, "then");
    Optional<Bars.Ends> ends = bars.ends(said);
    if (ends.isEmpty() || ends.get().first().equals(ends.get().last())) {
      return Optional.empty();
    }
    String first = how + " at " + ends.get().first();
    if (then.isEmpty() && !ends.get().ends()) {
      String back = how.equalsIgnoreCase("pizz") ? "arco" : "pizz";
      return Optional.of(Meant.says(first, back + " at 1 after " + ends.get().last()));
    }
    return Optional.of(
        then.isEmpty()
            ? Meant.says(first)
            : Meant.says(first, then + " at 1 after " + ends.get().last()));
  }
}
