package org.barmap.plan.words.grammar;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Where one goes, and what is left when all else is out. */
final class Places {
  private static final String GO =
      "(?:(?:and|then|you|we|straight|right|directly|immediately|go|goes|pick(?:\\s+it)?\\s+up|resume|continue|come|comes|back|in|restart|land|cut|on|ahead)\\s+)+";
  private static final String BUT = "(?:but|except(?:\\s+for)?|apart\\s+from|other\\s+than)";

  static final List<Rule> RULES =
      List.of(
          Rule.put(
              "(?:(?:play|take|go|use|do|only|just|straight|right|directly|in\\s?to|to)\\s+)*(?:the\\s+)?(2nd|second|last)(?:[\\s-]time)?[\\s-](?:ending|bars?|volta)"
                  + "(?:\\s+(?:only|straight\\s+away|right\\s+away|at\\s+once|first\\s+time|the\\s+first\\s+time|immediately))*",
              "straight to the $1 ending"),
          go(
              "(?:(?:come|coming|go|get|straight|right)\\s+)*out\\s+of\\s+(?<from>.+?),?\\s+"
                  + GO
                  + "(?:in\\s?to|to|at|from|with|on)\\s+(?<to>.+)"),
          go(
              "(?:after|from|(?:at\\s+)?(?:the\\s+)?end\\s+of)\\s+(?<from>.+?),?\\s+"
                  + GO
                  + "(?:in\\s?to|to|at|from|with|on)\\s+(?<to>.+)"),
          go(
              "(?<from>\\S+(?:\\s\\S+){0,3}?)\\s+(?:(?:go|goes|jump|straight|right|directly)\\s+)+(?:in\\s?to|to)\\s+(?<to>.+)"),
          Rule.of(
              "cut\\s+(?:everything|all|it\\s+all|the\\s+whole\\s+(?:thing|number)|the\\s+rest)\\s+"
                  + BUT
                  + "\\s+(?<bars>.+)"
                  + "|(?:everything|all)\\s+"
                  + BUT
                  + "\\s+(?<those>.+?)\\s+(?:is\\s+)?(?:cut|out)"
                  + "|(?:only|just)\\s+(?:play|do)\\s+(?<these>.+)|(?:play|do|keep)\\s+(?:only|just)\\s+(?<left>.+)|(?<last>.+?)\\s+only",
              (m, bars) ->
                  only(
                      Rule.group(m, "bars")
                          + Rule.group(m, "those")
                          + Rule.group(m, "these")
                          + Rule.group(m, "left")
                          + Rule.group(m, "last"),
                      bars,
                      !Rule.group(m, "bars").isEmpty() || !Rule.group(m, "those").isEmpty())));

  private Places() {}

  private static Rule go(String form) {
    return Rule.of(
        form,
        (m, bars) -> {
          String from = Rule.group(m, "from");
          String to = Rule.group(m, "to");
          return bars.named(from) && bars.named(to)
              ? Optional.of(
                  Meant.says(
                      from.matches("(?i)(?:the\\s+)?(?:very\\s+)?end\\s+of\\s.*")
                          ? "cut from " + from + " to beginning of " + to
                          : "after " + from + " go to " + to))
              : Optional.empty();
        });
  }

  /** Bars that are left: what lies before and behind them is out, or nobody said so. */
  private static Optional<Meant> only(String said, Bars bars, boolean out) {
    Optional<Bars.Ends> ends = bars.ends(said);
    if (ends.isEmpty()) {
      return Optional.empty();
    }
    List<String> cuts = new ArrayList<>();
    if (!ends.get().begins()) {
      cuts.add("cut start to 1 before " + ends.get().first());
    }
    if (!ends.get().ends()) {
      cuts.add("cut 1 after " + ends.get().last() + " to end");
    }
    if (cuts.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        out
            ? new Meant.Says(cuts)
            : new Meant.Asks(
                "Is all else out, or are you silent in the rest?",
                cuts.size() == 1 ? cuts : List.of()));
  }
}
