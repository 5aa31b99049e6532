package org.barmap.plan.words.grammar;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What a sentence that nobody could follow is about: the form, so that it has to be asked, or only
 * how something is played.
 */
public final class Sounds {

  /** Hardly ever a remark: kept unasked, the plan would go on without them. */
  private static final Pattern FORM =
      phrase(
          "\\b(?:cuts?|cutting|dropping|losing|mutes?\\s+o(?:n|ff)|no\\s+bass(?:es)?|without\\s+bass|come\\s+in\\s+at|fermatas?|ferm|rpt|omit|skip|repeat(?:s|ed|ing)?|vamp(?:s|ing)?|safety|segno|coda|d\\.\\s?[cs]\\b|d[cs]\\s+al\\b|da\\s+capo|dal\\s+segno|fermata|g\\.p\\b"
              + "|endings?|volta|rit|ritard|rall|accel|faster|slower|quicker|(?:double|half)[\\s-]time|\\d+/\\d+|in\\s+(?:one|two|three|four|six|[1-9])"
              + "|steps?\\s+(?:up|down|lower|higher)|(?:semi)?tones?\\s+(?:up|down)|transpos\\w+|attacca|segue|dialogue|applause|tacet|(?:lay|sit)\\s+out|click|back\\s+in"
              + "|bars?\\s+(?:shorter|longer)|extra\\s+(?:bars?|beats?)|more\\s+(?:bars?|beats?|times?)|less\\s+bars?|fewer\\s+bars?|insert|swap|restore|reinstate|jump(?:s|ing)?"
              + "|(?:make|making|made|get)\\s+(?:it|this|that|the\\s+number)\\s+(?:(?:a|bit|little|much|lot)\\s+)*(?:shorter|longer)|too\\s+long|(?:take|use|play|switch\\s+to|swap\\s+to)\\s+the\\s+other\\s+(?:one|instrument|bass|horn)|leav(?:e|ing)\\s+(?:\\S+\\s+){1,4}(?:off|out)|trim(?:med)?|shorten\\w*|chop(?:ped)?|get\\s+rid|once\\s+more|transposed?|key|(?:(?:up|down)\\s+to|in|into)\\s+[a-g]\\s?(?:flat|sharp|major|minor|b\\b)|tags?|button|play-?off|(?:now|at|to)\\s+\\d{2,3}\\s*bpm|now\\s+at\\s+\\d{2,3}|electric|upright|straight\\s+(?:to|into|on)|(?:get|come|go|be)\\s+(?:in|out)\\b.*\\b(?:earlier|later|sooner)|(?:earlier|later|sooner)\\s+(?:in|out)|extend(?:ed)?|tighten(?:ed)?)\\b");

  /** About the form where a bar is named with them. */
  private static final Pattern WITH_A_BAR =
      phrase(
          "\\b(?:out|stop|start|end|again|twice|once|thrice|\\d\\s?x|times|only|until|till|from\\s+\\S+\\s+to|go\\s+(?:on|back|to)|back\\s+to|hold|wait|pause|instead|in\\s+again|don't\\s+play|not\\s+play|without|arco|pizz|rest(?:s|ing)?)\\b");

  private static final Pattern BAR =
      phrase(
          "\\b(?:bars?\\s+)?\\d{1,3}[A-Za-z]?\\b|\\b(?-i:[B-HJ-Z])\\b|\\b(?:letter|rehearsal)\\b");

  /** How it is played, whatever else is in the sentence. */
  private static final Pattern STYLE =
      phrase(
          "\\b(?:louder|softer|quieter|lighter|heavier|shorter|longer|staccato|legato|tenuto|marcato|accents?|accented|dynamics?|balance|cresc\\w*|dim|diminuendo|crescendo|vibrato|tun(?:e|ing)"
              + "|feel|swing|swung|groove|release|cut-?off|underscore|sound|tone\\s+colou?r|volume|amp|pedal|sharp|flat|natural|wrong\\s+notes?|(?-i:p{1,3}|f{1,3}|m[pf])|sfz|bowing|articulat\\w+|8va|octave|8ths|eighths|triplets|quavers)\\b");

  private static final Pattern STRETCH =
      phrase(
          "(?:bars?\\s+)?(?:\\d{1,4}[A-Za-z]?|(?-i:[A-Z]))\\s*(?:-|to|through|thru|until|till)\\s*(?:bar\\s+)?(?:\\d{1,4}[A-Za-z]?|(?-i:[A-Z]))\\b");
  private static final Pattern ONE =
      phrase("(?<!beat )(?<!in )\\b(?:bars?\\s+)?(\\d{1,4}[A-Za-z]?|(?-i:[B-HJ-Z]))\\b");

  private Sounds() {}

  /** Whether the words are about what is played when, so that a note alone would mislead. */
  public static boolean formal(String words) {
    if (FORM.matcher(words).find()) {
      return true;
    }
    if (STRETCH.matcher(words).find() && !STYLE.matcher(words).find()) {
      return true;
    }
    return WITH_A_BAR.matcher(words).find()
        && BAR.matcher(words).find()
        && !STYLE.matcher(words).find();
  }

  /** Whether the words are about how something is played. */
  public static boolean style(String words) {
    return STYLE.matcher(words).find();
  }

  /** Returns instructions that the words are near to. */
  static List<String> nearest(String words, Bars bars) {
    Matcher stretch = STRETCH.matcher(words);
    String place = stretch.find() ? stretch.group() : "";
    if (place.isEmpty()) {
      Matcher one = ONE.matcher(words);
      place = one.find() ? one.group() : "";
    }
    if (place.isEmpty() || !bars.named(place)) {
      return List.of();
    }
    String low = words.toLowerCase(Locale.ROOT);
    List<String> near = new ArrayList<>();
    add(near, low, "\\bvamp", "vamp " + place);
    add(near, low, "\\bsafety|\\bif\\b", "safety " + place);
    add(near, low, "\\brepeat|\\btwice|\\bagain|\\bmore\\s+times?", "play " + place + " twice");
    add(
        near,
        low,
        "\\b(?:no|not|without|once)\\b.*\\brepeat|\\brepeat.*\\b(?:no|not)\\b",
        "play " + place + " once");
    add(near, low, "\\b(?:cut|out|skip|omit|missing|instead)", "cut " + place);
    add(near, low, "\\btacet|\\bout\\b|\\bplay\\b|\\brest", "tacet " + place);
    add(near, low, "\\b(?:hold|fermata|wait|pause)", "hold " + place);
    add(near, low, "\\bback\\b|\\brestore|\\breinstate|\\bagain\\b", place + " back in");
    add(near, low, "\\belectric", "electric at " + place);
    add(near, low, "\\barco|\\bbow", "arco at " + place);
    add(near, low, "\\bpizz", "pizz at " + place);
    return near.size() > 4 ? near.subList(0, 4) : near;
  }

  private static void add(List<String> near, String words, String when, String instruction) {
    if (phrase(when).matcher(words).find()) {
      near.add(instruction);
    }
  }
}
