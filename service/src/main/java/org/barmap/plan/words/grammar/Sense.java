package org.barmap.plan.words.grammar;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What a sentence is about, whatever the order of its words: one thing done, where, whether or not.
 * It is understood where no word is left that could change it; else the same is only asked.
 */
final class Sense {

  /** The things done, each with the words for it; the first that is found counts. */
  private enum Does {
    RESTORE("back\\s+in|restore[ds]?|reinstate[ds]?|put\\s+back|uncut|un-cut"),
    INSERT(
        "insert(?:ed)?|put(?:ting)?(?=\\s+(?:in\\s+)?\\w+\\s+(?:\\w+\\s+)?bars?)|tack(?:ed)?\\s+on|stick(?=\\s+\\w+\\s+bars?)|add(?:ed|s)?|extra|additional|more(?=\\s+bars?)|new(?=\\s+bars?)|another(?=\\s+bar)|repeat\\s+bars?\\s+added"),
    VAMP(
        "vamp(?:s|ing|ed)?|loop(?:s|ing)?|cycl(?:e|es|ing)|round\\s+and\\s+round|tread(?:ing)?\\s+water"),
    SAFETY("safety|safeties"),
    JUMP(
        "d\\.?\\s?[sc]\\b\\.?(?:\\s+al\\s+(?:coda|fine))?|da\\s+capo|dal\\s+segno|(?:go(?:ing)?\\s+)?back\\s+to\\s+(?:the\\s+)?(?:sign|segno)"),
    ENDING(
        "(?:first|1st)[\\s-](?:time[\\s-])?(?:bars?|endings?|volta)|(?:second|2nd)[\\s-](?:time[\\s-])?(?:bars?|endings?|volta)"),
    REPEAT("repeat(?:s|ed|ing)?(?:\\s+(?:sign|bar)s?)?|go(?:ing)?\\s+round(?:\\s+again)?"),
    RIT(
        "rit(?:ard(?:ando)?)?\\b\\.?|rall(?:entando)?\\b\\.?|slow(?:ing|s)?[\\s-]?down|slow(?:ing)?\\s+up|broaden(?:ing|s)?|pull(?:ing|s)?\\s+back|eas(?:e|ing)\\s+(?:off|up|back)|slow(?:ing)?(?=\\s*\\||\\s+into)"),
    ACCEL(
        "accel(?:erando)?\\b\\.?|speed(?:ing|s)?[\\s-]?up|push(?:ing|es)?\\s+(?:on|ahead|forward)|get(?:s|ting)?\\s+faster"),
    SLOWER(
        "push(?:ing)?\\s+the\\s+tempo|(?:tempo\\s+)?(?:picks?|pick)\\s+up\\s+the\\s+tempo|slow\\s+the\\s+tempo|(?:(?:an?|little|bit|lot|touch|much|hair|shade|tad|notch|slightly|way|even)\\s+)*(?:slower|faster|quicker|brighter|broader)"),
    HOLD(
        "hold(?:s|ing)?|linger(?:s|ing)?|stay(?:s|ing)?\\s+on|sit(?:s|ting)?\\s+on|hang(?:s|ing)?(?:\\s+on)?|milk|sustain|fermatas?|paus(?:e|es|ing)|wait(?:s|ing)?|sit(?:s|ting)?(?=\\s*\\|)|freeze|park"),
    TACET(
        "tacet|silent|drop(?:s|ping)?\\s+out|be\\s+quiet|shut\\s+up|sit(?:s|ting)?\\s+(?:it\\s+)?out|lay(?:s|ing)?\\s+(?:it\\s+)?out|sit\\s+this\\s+out|rests?|resting|stay(?:s|ing)?\\s+out|do\\s+not\\s+(?:play|come\\s+in)|not\\s+(?:play(?:ing)?|in|come\\s+in|coming\\s+in)"),
    PIZZ("(?:all\\s+)?pizz(?:icato)?\\b\\.?|fingers?|pluck(?:ed|ing)?"),
    ARCO("(?:pick\\s+up|take)\\s+the\\s+bow|arco|bow(?:ed|ing|s)?|with\\s+(?:the|a)\\s+bow"),
    GO(
        "(?:go|goes|going|jump|jumps|jumping|skip|skips|hop|leap|straight|right|directly|pick(?:s|ing)?\\s+(?:it\\s+)?up|resume|land|continue)(?:\\s+(?:on|ahead|straight|right|directly|back|over|up))*"),
    CUT(
        "cut(?:s|ting)?|omit(?:s|ted)?|skip(?:s|ped|ping)?|drop(?:s|ped|ping)?|los(?:e|es|ing|t)|delet\\w+|remov\\w+|kill(?:ed|ing|s)?|axed?|scrap(?:ped)?|ditch(?:ed)?|trim(?:s|med|ming)?|gone|out|history|missing|chop(?:s|ped|ping)?|get(?:ting)?\\s+rid\\s+of|strike|struck|toss(?:ed)?|bin(?:ned)?|scrub(?:bed)?|disappears?|vanish(?:es)?|dump(?:ed)?|cross(?:ed)?\\s+out|everything\\s+goes|goes\\s+away|com(?:e|es|ing)\\s+out|dead|excised?|take(?:n)?\\s+out|le(?:ave|ft)\\s+out|toast"),
    PLAY("play(?:s|ed|ing)?|do|take|round"),
    NONE("no(?=\\s*\\|)");

    private final Pattern words;

    Does(String words) {
      this.words = phrase("(?<![\\w-])(?:" + words + ")(?![\\w-])");
    }
  }

  private static final Pattern NOT =
      phrase(
          "(?<![\\w-])(?:no(?:\\s+more)?|not|without|do\\s+not(?:\\s+(?:take|do|go|make|play|observe|bother\\s+with))?|ignor(?:e|ed|ing)|forget|scratch(?:ed)?|undo|never|nix)(?![\\w-])");

  /** Words that change nothing of what is said. */
  private static final Pattern FILLERS =
      phrase(
          "(?<![\\w'-])(?:we|we've|we're|you|you're|i|i'd|they|it|it's|its|there|there's|that|that's|this|these|those|the|a|an|is|are|be|been|being|was|were|will|would|'ll|has|have|had|can|could|should|must|need|needs|want|to|into|at|in|on|for|of|and|then|from|with|as|so|all|also|just|please|now|tonight's|going|gonna|do|does|take|play|plays|make|makes|get|gets|put|keep|keeps|let's|start|starts|starting|begin|begins|come|comes|up|down|off|over|through|straight|right|whole|entire|both|little|bit|big|long|short|nice|good|bars?|measures?|section|letter|music|here|there|again|only|still|back|between|by|about|stay|stays|switch|change|move|moves|go|goes|our|your|my|his|her|their|out|sit|use|it'll|thing|time|number|everyone|everybody|bass|basses|printed|written|bother(?:ing)?|everything|off|onwards?|open|empty|leading|happens?|new|call|called)(?![\\w'-])");

  private static final Pattern BARS =
      phrase(
          "\\b(\\d{1,2}|an?|two|three|four|five|six|eight|extra|another|new)\\s+(?:(?:extra|more|new|additional|empty)\\s+)?(?:bars?|(\\d{1,2}/\\d{1,2})\\s+bars?)");
  private static final Pattern METER =
      phrase("\\b(?:bars?\\s+)?(?:of\\s+|in\\s+)?(\\d{1,2}/\\d{1,2})\\b");
  private static final Pattern REST = phrase("\\b(?:of\\s+)?(?:rests?|silence|empty)\\b");

  private Sense() {}

  /** Returns what a sentence comes to; empty where nothing is done in it, or nowhere. */
  static Optional<Meant> of(String words, Bars bars) {
    Slots slots = Slots.of(Tidy.plain(words));
    Matcher not = NOT.matcher(slots.rest());
    boolean negated = not.find();
    for (Does does : Does.values()) {
      Matcher m = does.words.matcher(slots.rest());
      if (!m.find()) {
        continue;
      }
      boolean undone = does != Does.TACET && (negated || undone(does, slots.rest()));
      List<String> says = says(does, m.group(), undone, slots, bars);
      if (says.isEmpty()) {
        continue;
      }
      return Optional.of(
          rest(slots.rest(), does, m).isBlank() && used(does, slots)
              ? new Meant.Says(says)
              : new Meant.Asks(
                  "Is that what is meant?", says.subList(0, Math.min(3, says.size()))));
    }
    return Optional.empty();
  }

  /** Whether nothing that was said is left over: till when, which time, how often. */
  private static boolean used(Does does, Slots slots) {
    boolean till = does == Does.VAMP || does == Does.HOLD;
    boolean pass = does == Does.CUT || does == Does.TACET || does == Does.PLAY;
    boolean often = does == Does.REPEAT || does == Does.PLAY;
    return (till || slots.cue().isEmpty())
        && (pass || slots.pass().isEmpty())
        && (often || slots.often().isEmpty());
  }

  /** "The vamp is out": what is cut is a thing, and no bars. */
  private static boolean undone(Does does, String rest) {
    boolean noun =
        switch (does) {
          case VAMP, SAFETY, JUMP, ENDING, REPEAT, RIT, ACCEL, HOLD -> true;
          default -> false;
        };
    return noun && Does.CUT.words.matcher(rest).find();
  }

  private static String rest(String rest, Does does, Matcher found) {
    String left = rest.substring(0, found.start()) + " " + rest.substring(found.end());
    left = NOT.matcher(left).replaceAll(" ");
    if (undone(does, left) || does == Does.GO) {
      left = Does.CUT.words.matcher(left).replaceAll(" ");
    }
    if (does == Does.INSERT) {
      left =
          METER
              .matcher(REST.matcher(BARS.matcher(left).replaceAll(" ")).replaceAll(" "))
              .replaceAll(" ");
    }
    left = does.words.matcher(left).replaceAll(" ");
    return FILLERS.matcher(left).replaceAll(" ").replaceAll("[\\s|,.;:!'\"-]+", " ");
  }

  private static List<String> says(Does does, String word, boolean undone, Slots slots, Bars bars) {
    List<String> where = where(slots, bars);
    if (!slots.places().isEmpty() && where.isEmpty() && does != Does.GO && does != Does.INSERT) {
      return List.of();
    }
    String till = slots.cue().isEmpty() ? "" : " till " + slots.cue();
    String first = where.isEmpty() ? "" : where.get(0);
    boolean one = where.size() == 1;
    return switch (does) {
      case RESTORE -> undone ? List.of() : behind(where, "", " back in");
      case CUT ->
          undone
              ? where.isEmpty() ? List.of("start to end back in") : behind(where, "", " back in")
              : behind(where, "cut ", slots.pass().isEmpty() ? "" : " " + slots.pass());
      case VAMP ->
          undone
              ? none("vamp", where)
              : one ? List.of("vamp " + first + till) : joined(slots, "vamp ", till, bars);
      case SAFETY -> undone ? none("safety", where) : behind(where, "safety ", "");
      case HOLD -> undone ? none("hold", where) : one ? List.of("hold " + first + till) : List.of();
      case RIT -> undone ? none("rit.", where) : one ? List.of("rit. " + first) : List.of();
      case ACCEL -> undone ? none("accel.", where) : one ? List.of("accel. " + first) : List.of();
      case JUMP ->
          undone
              ? none(word.matches("(?i)d\\.?\\s?c.*|da.c.*") ? "D.C." : "D.S.", List.of())
              : List.of();
      case ENDING ->
          undone == word.matches("(?i)(?:first|1st).*")
              ? List.of("straight to the second ending")
              : List.of();
      case REPEAT -> repeat(slots, undone, where);
      case TACET -> behind(where, "tacet ", slots.pass().isEmpty() ? "" : " " + slots.pass());
      case PLAY -> play(slots, undone, where);
      case NONE -> undone && !where.isEmpty() ? behind(where, "cut ", "") : List.of();
      case SLOWER ->
          undone || where.size() > 1
              ? List.of()
              : List.of(pace(word) + " at " + (one ? start(first, bars) : "start"));
      case PIZZ, ARCO ->
          undone || where.size() > 1 || !slots.cue().isEmpty()
              ? List.of()
              : List.of(
                  (does == Does.PIZZ ? "pizz at " : "arco at ")
                      + (one ? start(first, bars) : "start"));
      case GO -> undone ? List.of() : go(slots, bars);
      case INSERT -> undone ? List.of() : insert(slots, bars);
    };
  }

  private static String pace(String word) {
    return word.matches("(?i)(?:push|pick|tempo).*")
        ? "faster"
        : word.matches("(?i)slow\\s.*") ? "slower" : word;
  }

  private static String start(String said, Bars bars) {
    return bars.ends(said).map(Bars.Ends::first).orElse(said);
  }

  private static List<String> none(String what, List<String> where) {
    return where.isEmpty() ? List.of("no " + what) : behind(where, "no " + what + " at ", "");
  }

  private static List<String> behind(List<String> where, String before, String behind) {
    return where.stream().map(w -> before + w + behind).toList();
  }

  private static List<String> repeat(Slots slots, boolean undone, List<String> where) {
    if (undone) {
      return where.isEmpty() ? List.of("no repeats") : behind(where, "play ", " once");
    }
    if (where.isEmpty()) {
      return slots.often().isEmpty() ? List.of() : List.of("the repeat " + slots.often());
    }
    return behind(where, "repeat ", slots.often().isEmpty() ? "" : " " + slots.often());
  }

  /** "Play it only on the second pass": of all that is repeated. */
  private static List<String> play(Slots slots, boolean undone, List<String> where) {
    boolean only = slots.rest().matches("(?i).*\\bonly\\b.*");
    if (undone) {
      return behind(where, "tacet ", slots.pass().isEmpty() ? "" : " " + slots.pass());
    }
    if (only && !slots.pass().isEmpty()) {
      return where.isEmpty()
          ? List.of(slots.pass() + " only start to end")
          : behind(where, slots.pass() + " only ", "");
    }
    return slots.often().isEmpty() || only
        ? List.of()
        : behind(where, "play ", " " + slots.often());
  }

  /** Two bars named one after the other are a stretch for what goes round. */
  private static List<String> joined(Slots slots, String verb, String till, Bars bars) {
    List<Slots.Place> two = slots.places();
    if (two.size() != 2) {
      return List.of();
    }
    String both = two.get(0).said() + " to " + two.get(1).said();
    return bars.ends(both).isPresent() ? List.of(verb + both + till) : List.of();
  }

  private static List<String> go(Slots slots, Bars bars) {
    if (slots.places().size() == 1 && slots.places().get(0).stretch()) {
      String said = slots.places().get(0).said();
      boolean end = said.matches("(?i)(?:the\\s+)?(?:very\\s+)?end\\s+of.*");
      return end && bars.named(said) ? List.of("cut from " + said) : List.of();
    }
    if (slots.places().size() != 2) {
      return List.of();
    }
    Slots.Place from = slots.places().get(0);
    Slots.Place to = slots.places().get(1);
    boolean led = from.before().matches("from|after|out of|behind");
    boolean lands = to.before().matches("to|into|at|on|with|from");
    if (!led || !lands || from.stretch() || to.stretch()) {
      return List.of();
    }
    boolean end = from.said().matches("(?i)(?:the\\s+)?(?:very\\s+)?end\\s+of.*");
    return List.of(
        end
            ? "cut from " + from.said() + " to beginning of " + to.said()
            : "after " + from.said() + " go to " + to.said());
  }

  private static List<String> insert(Slots slots, Bars bars) {
    Matcher count = BARS.matcher(slots.rest());
    if (!count.find() || slots.places().isEmpty()) {
      return List.of();
    }
    Slots.Place at = slots.places().get(0);
    String before = at.before().equals("between") ? "after" : at.before();
    if (!before.matches("before|after") || !bars.named(at.said())) {
      return List.of();
    }
    Matcher meter = METER.matcher(slots.rest());
    String of = meter.find() ? " " + meter.group(1) : "";
    String n = count.group(1).matches("(?i)an?|extra|another|new") ? "1" : count.group(1);
    String rest = REST.matcher(slots.rest()).find() ? " of rest" : "";
    return List.of("insert " + n + of + " bars" + rest + " " + before + " " + at.said());
  }

  /** Returns the stretches of bars that are named, each by itself. */
  private static List<String> where(Slots slots, Bars bars) {
    List<String> where = new ArrayList<>();
    List<Slots.Place> two = slots.places();
    if (two.size() == 2 && two.get(0).before().equals("between")) {
      String inside = "1 after " + two.get(0).said() + " to 1 before " + two.get(1).said();
      return bars.named(inside) ? List.of(inside) : List.of();
    }
    for (Slots.Place place : slots.places()) {
      String said =
          switch (place.before()) {
            case "before", "until", "till", "til", "up to" ->
                place.stretch() ? place.said() : "start until " + place.said();
            case "after", "behind", "out of", "between" -> "";
            default -> place.on() ? place.said() + " to end" : place.said();
          };
      if (said.isEmpty() || !bars.named(said)) {
        return List.of();
      }
      where.add(said);
    }
    return where;
  }
}
