package org.barmap.plan.words;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Supplier;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.Leave;
import org.barmap.plan.change.Meta;
import org.barmap.plan.change.Numerals;
import org.barmap.plan.change.ShowChange;
import org.barmap.plan.change.WrittenNumber;

/** Reads instructions about stretches of bars: cut, vamp, safety, play so often. */
final class StretchReader extends Reader {
  private static final String TIMES =
      "(once|twice|(" + Numerals.CARDINAL + ")\\s*(?:times|x|\\u00D7)(?:\\s+in\\s+all)?)";
  private static final Pattern CUT =
      Pattern.compile(
          "(?:cut|omit|skip|leave out)\\s+(.+?)|(.+?)\\s+(?:is|are)\\s+(?:cut|out)", FLAGS);
  private static final Pattern JUMP =
      Pattern.compile(
          "(?:jump|go|cut)\\s+(?:straight\\s+)?(?:from|after)\\s+(?:(?:the\\s+)?end\\s+of\\s+)?(.+?),?\\s+(?:(?:straight\\s+)?(?:go\\s+)?to)\\s+(?:(?:the\\s+)?(?:beginning|start|top)\\s+of\\s+)?(.+)",
          FLAGS);
  private static final Pattern VAMP =
      Pattern.compile(
          "vamp\\s+(.+?)(?:\\s*[,(]?\\s*(?:out|leave|left|exit)\\s+(?:it\\s+)?(.+?)\\)?|\\s*,?\\s*(?:until|till|til)\\s+(?:the\\s+)?cue)?",
          FLAGS);
  private static final Pattern SAFETY =
      Pattern.compile(
          "safety\\s*(?:at|on|bars?|:)?\\s*(.+)|(.+?)\\s+(?:is|are)\\s+(?:a\\s+)?safety|(.+?)\\s+safety",
          FLAGS);
  private static final Pattern PLAY = Pattern.compile("(?:play\\s+)?(.+?),?\\s+" + TIMES, FLAGS);
  private static final Pattern REPEAT = Pattern.compile("repeat\\s+(.+?),?\\s+" + TIMES, FLAGS);

  StretchReader(WrittenNumber number, String words, Meta meta) {
    super(number, words, meta);
  }

  /** Returns what was heard, empty when it is about something else. */
  Optional<Heard> read() {
    List<Supplier<Optional<Heard>>> readers =
        List.of(this::repeat, this::vamp, this::safety, this::jump, this::cut, this::play);
    return readers.stream().map(Supplier::get).flatMap(Optional::stream).findFirst();
  }

  private Optional<Heard> cut() {
    Matcher m = CUT.matcher(words);
    if (!m.matches()) {
      return Optional.empty();
    }
    String said = m.group(1) == null ? m.group(2) : m.group(1);
    return Optional.of(
        range(
            said,
            r -> new ShowChange.Cut(meta, number.label(), r.first().orElse(""), r.last()),
            "",
            " are cut"));
  }

  /** "Go from 33 to 50" leaves out what lies between. */
  private Optional<Heard> jump() {
    Matcher m = JUMP.matcher(words);
    if (!m.matches() || words.toLowerCase(Locale.ROOT).startsWith("cut")) {
      return Optional.empty();
    }
    return Optional.of(
        range(
            "end of " + m.group(1) + " to beginning of " + m.group(2),
            r -> new ShowChange.Cut(meta, number.label(), r.first().orElse(""), r.last()),
            "",
            " are cut"));
  }

  private Optional<Heard> vamp() {
    Matcher m = VAMP.matcher(words);
    if (!m.matches()) {
      return Optional.empty();
    }
    String out = m.group(2) == null ? "" : m.group(2).toLowerCase(Locale.ROOT);
    boolean any = out.contains("any");
    String how =
        out.isEmpty()
            ? "left at the end of a pass (nothing else was said)"
            : any ? "left at any time" : "left at the end of a pass";
    Leave leave = any ? Leave.ANY_TIME : Leave.END_OF_PASS;
    return Optional.of(
        range(
            m.group(1),
            r -> new ShowChange.Vamp(meta, number.label(), r.first().orElse(""), r.last(), leave),
            "",
            " are a vamp, " + how));
  }

  private Optional<Heard> safety() {
    Matcher m = SAFETY.matcher(words);
    if (!m.matches()) {
      return Optional.empty();
    }
    String said = m.group(1) != null ? m.group(1) : m.group(2) != null ? m.group(2) : m.group(3);
    return Optional.of(
        range(
            said,
            r -> new ShowChange.Safety(meta, number.label(), r.first().orElse(""), r.last()),
            "",
            " are a safety"));
  }

  private Optional<Heard> play() {
    Matcher m = PLAY.matcher(words);
    if (!m.matches()) {
      return Optional.empty();
    }
    int times = times(m.group(2), m.group(3));
    if (times < 1 || times > 100) {
      return Optional.of(asked("How often in all? 1 to 100 times.", List.of()));
    }
    return Optional.of(
        range(
            m.group(1),
            r -> new ShowChange.Play(meta, number.label(), r.first().orElse(""), r.last(), times),
            "",
            " are played " + spoken(times) + " in all"));
  }

  /** "Repeat three times" can mean three or four times in all: common advice is never to say it. */
  private Optional<Heard> repeat() {
    Matcher m = REPEAT.matcher(words);
    if (!m.matches()) {
      return Optional.empty();
    }
    int times = times(m.group(2), m.group(3));
    return Optional.of(
        asked(
            "How often in all?",
            List.of(
                "play " + m.group(1) + " " + spoken(times),
                "play " + m.group(1) + " " + spoken(times + 1))));
  }

  private static int times(String said, String figure) {
    if (said.equalsIgnoreCase("once")) {
      return 1;
    }
    return said.equalsIgnoreCase("twice") ? 2 : Numerals.value(figure).orElse(0);
  }

  private static String spoken(int times) {
    return times == 1 ? "once" : times == 2 ? "twice" : times + " times";
  }
}
