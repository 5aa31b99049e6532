package org.barmap.plan.words;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.kind.Note;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.words.bar.Scope;
import org.barmap.plan.words.grammar.Sounds;

/** What becomes of words that are no change. */
final class Kept {
  private static final Pattern AT =
      phrase(".*?\\s(?:at|from|in|on|around|by|before|after|into)\\s+(?:bar\\s+)?(\\S+)(?:\\s.*)?");
  private static final Pattern BAR_FIRST =
      phrase("(?:at\\s+|from\\s+)?(?:bars?|letter|mark)\\s+(\\S+?)[,:]?\\s.*");

  private static final Pattern BEFORE_COLON = Pattern.compile("(\\S{1,6}):\\s.*");

  /** These begin a change and no remark; kept as a note they would look as if they counted. */
  private static final Pattern CHANGES =
      phrase(
          "(cut|omit|skip|vamp|safety|insert|repeat|jump|tacet|go|start|stop|out|after|straight)\\b.*");

  private Kept() {}

  /** A note, or a question where the words begin like a change. */
  static Heard<ShowChange> left(
      Scope scope, String words, Meta meta, List<Heard.Reading<ShowChange>> nearest) {
    String start = start(scope);
    Matcher change = CHANGES.matcher(words);
    if (!change.matches() && !Sounds.formal(words)) {
      return remark(scope, words, meta);
    }
    List<Heard.Reading<ShowChange>> readings = new ArrayList<>(nearest);
    readings.add(
        new Heard.Reading<>("keep it as a note, nothing else", List.of(note(scope, words, meta))));
    return new Heard.AskedBack<>(
        words,
        start
            + (change.matches()
                ? "This begins like a change, but can't be followed: " + wants(change.group(1))
                : "Is this a change? It can't be followed as it is said; say it in other words, or"
                    + " keep it as a note."),
        List.of(),
        readings);
  }

  /** What is about no form is kept as a note. */
  static Heard<ShowChange> remark(Scope scope, String words, Meta meta) {
    Note note = note(scope, words, meta);
    return new Heard.Understood<>(words, note, start(scope) + note.spoken() + ".");
  }

  /** Returns what a sentence about a number begins with. */
  static String start(Scope scope) {
    return scope.number().label().isEmpty() ? "" : scope.number().spoken() + ": ";
  }

  /** Returns the note that would keep words; at a bar where they name one. */
  static Note note(Scope scope, String words, Meta meta) {
    return new Note(meta, scope.number().label(), bar(scope, words), words, Optional.empty());
  }

  static Heard<ShowChange> ofTheShow(String words, Meta meta) {
    Note note = theShow(words, meta);
    return new Heard.Understood<>(words, note, "The show: " + note.spoken() + ".");
  }

  static Note theShow(String words, Meta meta) {
    return new Note(meta, "", Optional.empty(), words, Optional.empty());
  }

  private static Optional<String> bar(Scope scope, String words) {
    for (Pattern pattern : List.of(AT, BAR_FIRST, BEFORE_COLON)) {
      Matcher at = pattern.matcher(words);
      if (at.matches()) {
        String said = at.group(1).replaceFirst("[.!,]+$", "");
        if (scope.find(said).places().size() == 1) {
          return Optional.of(said);
        }
      }
    }
    return Optional.empty();
  }

  private static String wants(String verb) {
    return switch (verb.toLowerCase(Locale.ROOT).substring(0, 2)) {
      case "va" -> "which bars, as in \"vamp B to B + 1, out at the end of a pass\"?";
      case "sa" -> "which bars, as in \"safety 60 to 61\"?";
      case "in" -> "how many bars, and where, as in \"insert 2 bars after 24\"?";
      case "re" -> "how often in all, as in \"play 10 to 13 three times\"?";
      case "ta" -> "which bars, or the whole number, as in \"tacet\"?";
      case "ou", "af" -> "of which bars, as in \"cut 34 beat 3 to 36 beat 2\"?";
      default -> "which bars are out, as in \"cut 34 to 49\" or \"from 33 go to 50\"?";
    };
  }
}
