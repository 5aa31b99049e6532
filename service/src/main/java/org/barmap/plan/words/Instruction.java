package org.barmap.plan.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.map.Meter;
import org.barmap.plan.change.Addresses;
import org.barmap.plan.change.Found;
import org.barmap.plan.change.InstrumentNames;
import org.barmap.plan.change.Leave;
import org.barmap.plan.change.Meta;
import org.barmap.plan.change.Numerals;
import org.barmap.plan.change.ShowChange;
import org.barmap.plan.change.WrittenNumber;

/** One instruction for one number. */
final class Instruction {
  private static final int FLAGS = Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE;
  private static final String TIMES =
      "(once|twice|(" + Numerals.CARDINAL + ")\\s*(?:times|x|\\u00D7)(?:\\s+in\\s+all)?)";
  private static final Pattern TACET = Pattern.compile("(?:is\\s+|all\\s+)?tacet", FLAGS);
  private static final Pattern CUT_ALL =
      Pattern.compile(
          "(?:is\\s+|whole\\s+number\\s+)?(?:cut|out|omitted|omit)(?:\\s+(?:completely|entirely|(?:the\\s+)?(?:whole\\s+)?number))?",
          FLAGS);
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
  private static final Pattern INSERT =
      Pattern.compile(
          "(?:insert|add)\\s+("
              + Numerals.CARDINAL
              + "|a)\\s+(?:new\\s+)?bars?\\s+after\\s+(.+?)(?:\\s*[,(]?\\s*(?:called|as|labelled|labeled)\\s+(\\w{1,10})\\)?|\\s*\\((\\w{1,10})\\))?",
          FLAGS);
  private static final Pattern TEMPO =
      Pattern.compile(
          "(?:(?:new\\s+)?tempo\\s*:?\\s*)?(?:(.{1,20}?)\\s*=\\s*)?(\\d{2,3}(?:\\.\\d+)?)(?:\\s*bpm)?(?:\\s+(?:at|from|in)\\s+(.+))?",
          FLAGS);
  private static final Pattern BEATS =
      Pattern.compile(
          "(?:in|conducted\\s+in)\\s+("
              + Numerals.CARDINAL
              + ")(?:\\s+(?:at|from|for)?\\s*(.+))?|(.+?)\\s+(?:is\\s+|are\\s+)?in\\s+("
              + Numerals.CARDINAL
              + ")",
          FLAGS);
  private static final Pattern AT =
      Pattern.compile("(.+?)\\s+(?:at|from|in)\\s+(?:bar\\s+)?(.+?)(?::\\s*(.+))?", FLAGS);

  private static final Pattern TEMPO_FROM =
      Pattern.compile(
          "tempo\\s+(?:from|at)\\s+(.+?)\\s+((?:dotted\\s+)?\\S+(?:\\s+note)?)\\s*=\\s*(\\d{1,3}(?:\\.\\d+)?)",
          FLAGS);
  private static final Pattern NOTED = Pattern.compile("(.+?)\\s*\\(([^()]{1,300})\\)", FLAGS);

  private final WrittenNumber number;
  private final String words;
  private final Meta meta;

  Instruction(WrittenNumber number, String words, String id) {
    this(number, words, Meta.of(id));
  }

  private Instruction(WrittenNumber number, String words, Meta meta) {
    this.number = number;
    this.words = words;
    this.meta = meta;
  }

  /** Reads it; a remark in brackets behind it is a note. */
  Heard read() {
    Heard heard = whole();
    Matcher noted = NOTED.matcher(words);
    if (heard instanceof Heard.Understood || !noted.matches()) {
      return heard;
    }
    Meta withNote =
        new Meta(meta.id(), meta.on(), meta.when(), meta.who(), Optional.of(noted.group(2)));
    Heard without = new Instruction(number, noted.group(1), withNote).whole();
    return without instanceof Heard.Understood ? without : heard;
  }

  private Heard whole() {
    if (TACET.matcher(words).matches()) {
      return understood(new ShowChange.Tacet(meta, number.label()), "you don't play");
    }
    if (CUT_ALL.matcher(words).matches()) {
      return understood(new ShowChange.CutNumber(meta, number.label()), "the number is cut");
    }
    List<java.util.function.Supplier<Optional<Heard>>> readers =
        List.of(
            this::repeat,
            this::insert,
            this::vamp,
            this::safety,
            this::jump,
            this::cut,
            this::play,
            this::beats,
            this::tempoFrom,
            this::tempo,
            this::at);
    for (var reader : readers) {
      Optional<Heard> heard = reader.get();
      if (heard.isPresent()) {
        return heard.get();
      }
    }
    return asked(
        "This was not understood.",
        List.of(
            "cut 34 to 49",
            "vamp B to B + 1",
            "play 10 to 13 three times",
            "in two from 20 to 40"));
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

  private Optional<Heard> insert() {
    Matcher m = INSERT.matcher(words);
    if (!m.matches()) {
      return Optional.empty();
    }
    int bars = m.group(1).equalsIgnoreCase("a") ? 1 : Numerals.value(m.group(1)).orElse(0);
    if (bars < 1 || bars > 500) {
      return Optional.of(asked("How many bars? 1 to 500.", List.of()));
    }
    Optional<String> label =
        Optional.ofNullable(m.group(3)).or(() -> Optional.ofNullable(m.group(4)));
    return Optional.of(
        at(
            m.group(2),
            name -> new ShowChange.Insert(meta, number.label(), m.group(2).strip(), bars, label),
            name ->
                bars
                    + (bars == 1 ? " new bar" : " new bars")
                    + " after bar "
                    + name
                    + label.map(l -> ", called " + l).orElse("")));
  }

  private Optional<Heard> tempoFrom() {
    Matcher m = TEMPO_FROM.matcher(words);
    Optional<String> beat = m.matches() ? NoteValues.share(m.group(2)) : Optional.empty();
    return beat.map(
        b ->
            at(
                m.group(1),
                name ->
                    new ShowChange.Tempo(
                        meta,
                        number.label(),
                        m.group(1).strip(),
                        b,
                        Double.parseDouble(m.group(3))),
                name -> "from bar " + name + " " + NoteValues.spoken(b) + " = " + m.group(3)));
  }

  private Optional<Heard> tempo() {
    Matcher m = TEMPO.matcher(words);
    boolean named =
        words.toLowerCase(Locale.ROOT).contains("tempo")
            || words.contains("=")
            || words.toLowerCase(Locale.ROOT).contains("bpm");
    if (!m.matches() || !named) {
      return Optional.empty();
    }
    String where = m.group(3) == null ? "start" : m.group(3).strip();
    double value = Double.parseDouble(m.group(2));
    Optional<String> given = Optional.ofNullable(m.group(1));
    Optional<String> note = given.flatMap(NoteValues::share);
    if (given.isPresent() && note.isEmpty()) {
      return Optional.of(
          asked(
              "Which note is " + m.group(2) + "?",
              List.of(
                  "quarter = " + m.group(2),
                  "half = " + m.group(2),
                  "dotted quarter = " + m.group(2))));
    }
    Found found = new Addresses(number).find(where);
    Optional<Meter> meter =
        found instanceof Found.At at ? number.barAt(at.place().slot()).meter() : Optional.empty();
    String beat = note.orElse(NoteValues.beatOf(meter));
    String because = note.isPresent() ? "" : " (the beat of the bar)";
    return Optional.of(
        at(
            where,
            name -> new ShowChange.Tempo(meta, number.label(), where, beat, value),
            name ->
                "from bar " + name + " " + NoteValues.spoken(beat) + " = " + m.group(2) + because));
  }

  private Optional<Heard> beats() {
    Matcher m = BEATS.matcher(words);
    if (!m.matches()) {
      return Optional.empty();
    }
    OptionalInt beats = Numerals.value(m.group(1) == null ? m.group(4) : m.group(1));
    String said = m.group(1) == null ? m.group(3) : m.group(2);
    if (beats.isEmpty() || beats.getAsInt() < 1 || beats.getAsInt() > 32) {
      return Optional.empty();
    }
    boolean open =
        said == null
            || !said.matches("(?i).*(?:\\s(?:to|through|thru|until|till)\\s|[-\\u2013]).*");
    String range = said == null ? "start to end" : open ? said + " to end" : said;
    return Optional.of(
        range(
            range,
            r ->
                new ShowChange.Beats(
                    meta, number.label(), r.first().orElse(""), r.last(), beats.getAsInt()),
            "",
            " are in " + beats.getAsInt()));
  }

  private Optional<Heard> at() {
    Matcher m = AT.matcher(words);
    if (!m.matches()) {
      return Optional.empty();
    }
    String what = m.group(1).strip();
    String where = m.group(2).strip();
    Optional<String> note = Optional.ofNullable(m.group(3));
    Optional<String> instrument = InstrumentNames.read(what);
    if (instrument.isPresent()) {
      return Optional.of(
          at(
              where,
              name -> new ShowChange.Instrument(meta, number.label(), where, instrument.get()),
              name -> instrument.get() + " from bar " + name));
    }
    return Reminders.read(what, note)
        .map(
            r ->
                at(
                    where,
                    name -> new ShowChange.Remind(r.into(meta), number.label(), where, r.what()),
                    name -> r.spoken() + " at bar " + name));
  }

  private Heard range(
      String said,
      java.util.function.Function<Range, ShowChange> make,
      String before,
      String after) {
    Range range = Range.read(number, said);
    if (range.first().isEmpty()) {
      return asked(range.text(), range.candidates());
    }
    String says = range.text().startsWith("bar ") ? after.replaceFirst("^ are ", " is ") : after;
    return understood(make.apply(range), before + range.text() + says);
  }

  private Heard at(
      String where,
      java.util.function.Function<String, ShowChange> make,
      java.util.function.Function<String, String> says) {
    Found found = new Addresses(number).find(where);
    if (found instanceof Found.At at) {
      String name = number.nameAt(at.place().slot());
      return understood(make.apply(name), says.apply(name));
    }
    Found.Refused refused = (Found.Refused) found;
    return asked(refused.text(), refused.candidates());
  }

  private Heard understood(ShowChange change, String says) {
    String start = number.label().isEmpty() ? "" : number.spoken() + ": ";
    String sentence =
        start.isEmpty()
            ? says.substring(0, 1).toUpperCase(Locale.ROOT) + says.substring(1)
            : start + says;
    return new Heard.Understood(words, change, sentence + ".");
  }

  private Heard asked(String question, List<String> candidates) {
    String start = number.label().isEmpty() ? "" : number.spoken() + ": ";
    return new Heard.AskedBack(words, start + question, new ArrayList<>(candidates));
  }
}
