package org.barmap.plan.words;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.Supplier;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.map.Meter;
import org.barmap.plan.change.Addresses;
import org.barmap.plan.change.Found;
import org.barmap.plan.change.InstrumentNames;
import org.barmap.plan.change.Meta;
import org.barmap.plan.change.Numerals;
import org.barmap.plan.change.ShowChange;
import org.barmap.plan.change.WrittenNumber;

/** Reads instructions for one bar on: inserted bars, tempo, beats, instruments, reminders. */
final class PointReader extends Reader {
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

  PointReader(WrittenNumber number, String words, Meta meta) {
    super(number, words, meta);
  }

  /** Returns what was heard, empty when it is about something else. */
  Optional<Heard> read() {
    List<Supplier<Optional<Heard>>> readers =
        List.of(this::insert, this::beats, this::tempoFrom, this::tempo, this::at);
    return readers.stream().map(Supplier::get).flatMap(Optional::stream).findFirst();
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
}
