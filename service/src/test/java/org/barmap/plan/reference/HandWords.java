package org.barmap.plan.reference;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** What a word says of the instrument, the bow, the mute, the beats shown, and of one pass only. */
final class HandWords {

  // Source: common practice, instruments of a bass chair; a cue ("Tpt.") is no change.
  private static final List<String> OWN =
      List.of(
          "double bass",
          "electric bass",
          "acoustic bass",
          "string bass",
          "upright bass",
          "bass guitar",
          "fretless bass",
          "tuba");

  private static final Pattern TO = Pattern.compile("^to (?!coda)(.+)$");
  private static final Pattern IN = Pattern.compile("\\bin (two|three|four|six|[1-9])\\b");
  private static final Pattern ONLY =
      Pattern.compile("\\b(1st|2nd|3rd|\\dth|last) (?:x|time|times) only\\b");
  private static final Pattern TACET =
      Pattern.compile("\\btacet (1st|2nd|3rd|\\dth|last) (?:x|time)\\b");

  private HandWords() {}

  // Source: trade.md, book (several instruments in one chair); decided, "To Elec. Bs.".
  static Optional<String> instrument(String word) {
    String said = written(word);
    for (String part : said.split(",")) {
      Matcher to = TO.matcher(part.strip());
      if (to.matches()) {
        return Optional.of(to.group(1).strip());
      }
      if (OWN.contains(part.strip())) {
        return Optional.of(part.strip());
      }
    }
    return Optional.empty();
  }

  /** Writes an instrument's name out. Source: common practice, abbreviations. */
  static String written(String name) {
    return name.toLowerCase(Locale.ROOT)
        .replaceAll("\\b(elec|el)\\.?(?= )", "electric")
        .replaceAll("\\b(dbl|dble)\\.?(?= )", "double")
        .replaceAll("\\b(ac|acous)\\.?(?= )", "acoustic")
        .replaceAll("\\bbs\\b\\.?", "bass")
        .replaceAll("\\bd\\.b\\.|\\bdb\\b\\.?", "double bass")
        .replaceAll("\\be\\.b\\.|\\beb\\b\\.?", "electric bass")
        .replaceAll("\\bfl\\b\\.?", "flute")
        .replaceAll("\\btba\\b\\.?", "tuba")
        .replaceAll("\\s+", " ")
        .strip();
  }

  // Source: common practice.
  static Optional<String> bow(String word) {
    String said = word.toLowerCase(Locale.ROOT);
    boolean arco = said.matches(".*\\barco\\b.*");
    boolean pizz = said.matches(".*\\bpizz(icato)?\\b.*");
    return arco == pizz ? Optional.empty() : Optional.of(arco ? "arco" : "pizz.");
  }

  // Source: common practice.
  static Optional<String> mute(String word) {
    String said = word.toLowerCase(Locale.ROOT);
    if (said.matches(".*\\b(senza sord|mute off|no mute|open)\\b.*")) {
      return Optional.of("off");
    }
    return said.matches(".*\\b(con sord|mute|muted)\\b.*") ? Optional.of("on") : Optional.empty();
  }

  // Source: trade.md, in two, in four.
  static Optional<String> beats(String word) {
    Matcher in = IN.matcher(word.toLowerCase(Locale.ROOT));
    if (!in.find()) {
      return Optional.empty();
    }
    String said = in.group(1);
    int named = List.of("", "one", "two", "three", "four", "five", "six").indexOf(said);
    return Optional.of(named > 0 ? Integer.toString(named) : said);
  }

  /** "yes" or "no" when a word says who plays in a pass. Source: trade.md, "2nd X only". */
  static Optional<String> plays(String word, int pass, int times) {
    String said = word.toLowerCase(Locale.ROOT);
    Matcher only = ONLY.matcher(said);
    if (only.find()) {
      return Optional.of(isPass(only.group(1), pass, times) ? "yes" : "no");
    }
    Matcher tacet = TACET.matcher(said);
    return tacet.find()
        ? Optional.of(isPass(tacet.group(1), pass, times) ? "no" : "yes")
        : Optional.empty();
  }

  /** Whether a word speaks of a pass in which a bar sounds. */
  static boolean meets(String word, List<Integer> passes, int times) {
    String said = word.toLowerCase(Locale.ROOT);
    Matcher only = ONLY.matcher(said);
    Matcher tacet = TACET.matcher(said);
    String named = only.find() ? only.group(1) : tacet.find() ? tacet.group(1) : "";
    return named.isEmpty() || passes.stream().anyMatch(p -> isPass(named, p, times));
  }

  /**
   * What "2nd time only" and "not the first time", said by a director, come to: "yes", "no", or "*"
   * where nobody knows. Source: trade.md, "2nd X only": what holds in one pass of a repeat; outside
   * repeats, and after a D.C. or D.S., the trade texts say nothing.
   */
  static String plays(Change change, Walk.Step step) {
    Optional<String> pass = change.text(Change.PASS);
    if (pass.isEmpty()) {
      return "no";
    }
    if (step.times() < 2 || step.afterJump()) {
      return Aspect.ANY;
    }
    boolean here = isPass(pass.get(), step.pass(), step.times());
    return here == change.kind().equals("only") ? "yes" : "no";
  }

  static boolean isPass(String said, int pass, int times) {
    return said.equals("last")
        ? pass == times
        : Integer.parseInt(said.replaceAll("\\D", "")) == pass;
  }
}
