package org.barmap.plan.words;

import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.Meta;
import org.barmap.plan.change.Reminder;

/** Reads what a player wants to be reminded of. */
final class Reminders {

  /**
   * A reminder as said.
   *
   * @param what its kind
   * @param note its words
   */
  record Said(Reminder what, Optional<String> note) {

    Meta into(Meta meta) {
      return new Meta(meta.id(), meta.on(), meta.when(), meta.who(), note);
    }

    String spoken() {
      String word =
          what == Reminder.MISSED
              ? "reminder (missed before)"
              : what == Reminder.TEXT ? "reminder" : what.word();
      return word + note.map(n -> " \"" + n + "\"").orElse("");
    }
  }

  private static final Pattern NOTE =
      Pattern.compile(
          "(?:write|note|remind(?:er)?|text|missed)\\s*:?\\s*[\"\\u201C']?(.+?)[\"\\u201D']?",
          Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE);

  private Reminders() {}

  static Optional<Said> read(String words, Optional<String> note) {
    String w = words.toLowerCase(Locale.ROOT).strip().replaceFirst("[.!]+$", "");
    Optional<Reminder> kind =
        switch (w) {
          case "watch", "glasses", "eyes", "look up", "watch the director" ->
              Optional.of(Reminder.WATCH);
          case "cue" -> Optional.of(Reminder.CUE);
          case "push", "push on", "move" -> Optional.of(Reminder.PUSH);
          case "pull", "pull back", "hold back" -> Optional.of(Reminder.PULL);
          case "bow", "arco", "take the bow" -> Optional.of(Reminder.BOW);
          case "pizz", "pizzicato" -> Optional.of(Reminder.PIZZ);
          case "mute", "mute on", "mute off" -> Optional.of(Reminder.MUTE);
          case "extension", "ext" -> Optional.of(Reminder.EXTENSION);
          default -> Optional.empty();
        };
    if (kind.isPresent()) {
      Optional<String> own = w.startsWith("mute ") ? Optional.of(w) : Optional.empty();
      return Optional.of(new Said(kind.get(), note.or(() -> own)));
    }
    Matcher text = NOTE.matcher(words.strip());
    if (text.matches()) {
      boolean missed = w.startsWith("missed");
      return Optional.of(
          new Said(missed ? Reminder.MISSED : Reminder.TEXT, Optional.of(text.group(1))));
    }
    return Optional.empty();
  }
}
