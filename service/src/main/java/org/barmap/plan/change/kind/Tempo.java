package org.barmap.plan.change.kind;

import static org.barmap.plan.change.term.Phrase.phrase;

import com.fasterxml.jackson.annotation.JsonPropertyOrder;
import com.fasterxml.jackson.annotation.JsonTypeName;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.barmap.map.Meter;
import org.barmap.plan.change.effect.Effects;
import org.barmap.plan.change.effect.InForce;
import org.barmap.plan.change.effect.Marking;
import org.barmap.plan.change.effect.Stretch;
import org.barmap.plan.change.effect.TempoSet;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.change.say.Saying;
import org.barmap.plan.change.say.Told;
import org.barmap.plan.change.say.Wording;
import org.barmap.plan.change.term.Figures;
import org.barmap.plan.change.term.NoteValues;

/**
 * A tempo from a bar on, until the next tempo; or from one tempo to another by and by.
 *
 * @param beat note value of the beat as a share of a whole note, "1/4", "3/8"
 * @param perMinute beats a minute
 * @param last the last bar of a change by and by, the first one where none is named; none for a
 *     tempo that stays
 * @param toPerMinute beats a minute after it
 */
@JsonTypeName("tempo")
@JsonPropertyOrder({"first", "last", "beat", "perMinute", "toPerMinute"})
public record Tempo(
    Meta meta,
    String number,
    String first,
    String beat,
    double perMinute,
    Optional<String> last,
    Optional<Double> toPerMinute)
    implements ShowChange {
  static final Wording<ShowChange> WORDING = new Wording<>("tempo", Tempo::read);

  /** "Accel. from 20 to 28, quarter = 100 to 132". */
  static final Wording<ShowChange> LED = new Wording<>("", Tempo::readLed);

  private static final Pattern LEADS =
      phrase(
          "(tempo|rit(?:ard(?:ando)?)?|rall(?:entando)?|accel(?:erando)?)\\.?\\s+(?:from|in|at)?\\s*"
              + "(\\S.*?\\s*(?:\\bto\\b|\\buntil\\b|\\bthrough\\b|[-\\u2013])\\s*.+?),?"
              + "\\s+((?:dotted\\s+)?\\S+(?:\\s+note)?)\\s*=\\s*(\\d{1,3}(?:\\.\\d+)?)"
              + "\\s*(?:to|[-\\u2013])\\s*(\\d{1,3}(?:\\.\\d+)?)");
  private static final Pattern TEMPO =
      phrase(
          "(?:(?:new\\s+)?tempo\\s*:?\\s*)?(?:(.{1,20}?)\\s*=\\s*)?(\\d{2,3}(?:\\.\\d+)?)(?:\\s*bpm)?(?:\\s+(?:at|from|in)\\s+(.+))?");
  private static final Pattern TEMPO_FROM =
      phrase(
          "tempo\\s+(?:from|at)\\s+(.+?)\\s+((?:dotted\\s+)?\\S+(?:\\s+note)?)\\s*=\\s*(\\d{1,3}(?:\\.\\d+)?)");

  /** Takes the last bar of a tempo that stays away. */
  public Tempo {
    String start = first;
    last = toPerMinute.isEmpty() ? Optional.empty() : last.or(() -> Optional.of(start));
  }

  /** Makes a tempo that stays. */
  public Tempo(Meta meta, String number, String first, String beat, double perMinute) {
    this(meta, number, first, beat, perMinute, Optional.empty(), Optional.empty());
  }

  @Override
  public Optional<Stretch> where() {
    return Optional.of(new Stretch(first, last.orElse(first)));
  }

  @Override
  public Effects effects() {
    return Effects.setting(InForce.tempo(new TempoSet(beat, perMinute, toPerMinute)));
  }

  @Override
  public Optional<Marking> marking() {
    String by =
        toPerMinute
            .map(to -> (to < perMinute ? ", rit. to " : ", accel. to ") + Figures.plain(to))
            .orElse("");
    String sign = NoteValues.sign(beat) + " = " + Figures.plain(perMinute) + by;
    return Optional.of(Marking.at("tempo", sign));
  }

  @Override
  public String says() {
    return "tempo from "
        + Saying.one(first)
        + last.map(l -> " to " + Saying.one(l)).orElse("")
        + " "
        + NoteValues.spoken(beat)
        + (beat.equals("1/1") ? " note" : "")
        + " = "
        + Figures.plain(perMinute)
        + toPerMinute.map(to -> " to " + Figures.plain(to)).orElse("");
  }

  private static Optional<Heard<ShowChange>> readLed(Told<ShowChange> told) {
    Matcher m = LEADS.matcher(told.words());
    Optional<String> beat = m.matches() ? NoteValues.share(m.group(3)) : Optional.empty();
    return beat.map(b -> led(told, m, b));
  }

  private static Heard<ShowChange> led(Told<ShowChange> told, Matcher m, String beat) {
    double from = Double.parseDouble(m.group(4));
    double to = Double.parseDouble(m.group(5));
    String word = m.group(1).toLowerCase(Locale.ROOT);
    boolean wrongWay = word.startsWith("a") ? to <= from : word.startsWith("r") && to >= from;
    if (wrongWay || from < 1 || to < 1) {
      String way = word.startsWith("a") ? "An accel. gets faster" : "A rit. gets slower";
      return told.asked(way + "; which tempo is the first?", List.of());
    }
    return told.through(
        m.group(2),
        r ->
            new Tempo(
                told.meta(),
                told.number(),
                r.first(),
                beat,
                from,
                Optional.of(r.last()),
                Optional.of(to)),
        " go from " + NoteValues.spoken(beat) + " = " + m.group(4) + " to " + m.group(5));
  }

  private static Optional<Heard<ShowChange>> read(Told<ShowChange> told) {
    Matcher m = TEMPO_FROM.matcher(told.words());
    Optional<String> beat = m.matches() ? NoteValues.share(m.group(2)) : Optional.empty();
    return beat.map(b -> from(told, m.group(1), b, m.group(3), "")).or(() -> readPlain(told));
  }

  private static Optional<Heard<ShowChange>> readPlain(Told<ShowChange> told) {
    Matcher m = TEMPO.matcher(told.words());
    String lower = told.words().toLowerCase(Locale.ROOT);
    boolean named = lower.contains("tempo") || lower.contains("=") || lower.contains("bpm");
    if (!m.matches() || !named) {
      return Optional.empty();
    }
    String where = m.group(3) == null ? "start" : m.group(3).strip();
    Optional<String> given = Optional.ofNullable(m.group(1));
    Optional<String> note = given.flatMap(NoteValues::share);
    if (given.isPresent() && note.isEmpty()) {
      return Optional.of(
          told.asked(
              "Which note is " + m.group(2) + "?",
              List.of(
                  "quarter = " + m.group(2),
                  "half = " + m.group(2),
                  "dotted quarter = " + m.group(2))));
    }
    Optional<Meter> meter = told.meterAt(where);
    String beat = note.orElseGet(() -> NoteValues.beatOf(meter));
    if (note.isEmpty() && meter.filter(t -> t.unit() >= 8).isPresent() && beat.startsWith("3/")) {
      String figure = "1/" + meter.get().unit();
      return Optional.of(
          told.choose(
              m.group(2) + " of which note?",
              Stream.of(beat, figure).map(b -> which(told, where, b, m.group(2))).toList()));
    }
    String because = note.isPresent() ? "" : " (the beat of the bar)";
    return Optional.of(from(told, where, beat, m.group(2), because));
  }

  private static Heard.Reading<ShowChange> which(
      Told<ShowChange> told, String where, String beat, String figure) {
    Tempo change =
        new Tempo(told.meta(), told.number(), where.strip(), beat, Double.parseDouble(figure));
    return new Heard.Reading<>(
        "from " + where.strip() + " " + NoteValues.spoken(beat) + " = " + figure, List.of(change));
  }

  private static Heard<ShowChange> from(
      Told<ShowChange> told, String where, String beat, String figure, String because) {
    return told.at(
        where,
        new Tempo(told.meta(), told.number(), where.strip(), beat, Double.parseDouble(figure)),
        name -> "from bar " + name + " " + NoteValues.spoken(beat) + " = " + figure + because);
  }
}
