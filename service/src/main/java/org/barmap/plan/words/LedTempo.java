package org.barmap.plan.words;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.Meta;
import org.barmap.plan.change.ShowChange;
import org.barmap.plan.change.WrittenNumber;

/** Reads a tempo that leads to another: "accel. from 20 to 28, quarter = 100 to 132". */
final class LedTempo extends Reader {
  private static final Pattern LED =
      Pattern.compile(
          "(tempo|rit(?:ard(?:ando)?)?|rall(?:entando)?|accel(?:erando)?)\\.?\\s+(?:from|in|at)?\\s*"
              + "(\\S.*?\\s*(?:\\bto\\b|\\buntil\\b|\\bthrough\\b|[-\\u2013])\\s*.+?),?"
              + "\\s+((?:dotted\\s+)?\\S+(?:\\s+note)?)\\s*=\\s*(\\d{1,3}(?:\\.\\d+)?)"
              + "\\s*(?:to|[-\\u2013])\\s*(\\d{1,3}(?:\\.\\d+)?)",
          FLAGS);

  LedTempo(WrittenNumber number, String words, Meta meta) {
    super(number, words, meta);
  }

  /** Returns what was heard, empty when it is about something else. */
  Optional<Heard> read() {
    Matcher m = LED.matcher(words);
    Optional<String> beat = m.matches() ? NoteValues.share(m.group(3)) : Optional.empty();
    return beat.map(b -> led(m, b));
  }

  private Heard led(Matcher m, String beat) {
    double from = Double.parseDouble(m.group(4));
    double to = Double.parseDouble(m.group(5));
    String word = m.group(1).toLowerCase(Locale.ROOT);
    boolean wrongWay = word.startsWith("a") ? to <= from : word.startsWith("r") && to >= from;
    if (wrongWay || from < 1 || to < 1) {
      String way = word.startsWith("a") ? "An accel. gets faster" : "A rit. gets slower";
      return asked(way + "; which tempo is the first?", List.of());
    }
    return range(
        m.group(2),
        r ->
            new ShowChange.Tempo(
                meta,
                number.label(),
                r.first().orElse(""),
                beat,
                from,
                Optional.of(r.last()),
                Optional.of(to)),
        "",
        " go from " + NoteValues.spoken(beat) + " = " + m.group(4) + " to " + m.group(5));
  }
}
