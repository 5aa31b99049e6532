package org.barmap.plan.words;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.map.Bar;
import org.barmap.map.Meter;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.effect.Stretch;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.change.say.Saying;
import org.barmap.plan.change.say.Told;
import org.barmap.plan.change.say.Wording;
import org.barmap.plan.words.bar.Edge;
import org.barmap.plan.words.bar.Range;
import org.barmap.plan.words.bar.Repeats;
import org.barmap.plan.words.bar.Scope;
import org.barmap.plan.words.bar.Way;

/**
 * One instruction for one number.
 *
 * @param scope the number
 * @param words the instruction, without the number's name
 * @param said the same as it was typed
 * @param meta what the change gets
 */
record Instruction(Scope scope, String words, String said, Meta meta) implements Told<ShowChange> {
  private static final List<Wording<ShowChange>> WORDINGS = ShowChange.wordings();
  private static final Pattern NOTED = phrase("(.+?)\\s*\\(([^()]{1,300})\\)");
  private static final Pattern BAR_FIRST = Pattern.compile("([^:]{1,20}):\\s*(.+)");
  private static final Pattern REMARK = Pattern.compile("(.+?)(?:,\\s+|\\s+-\\s+)(.+)");

  /** Reads it; a remark in brackets behind it is a note. Empty when it is no change at all. */
  Optional<Heard<ShowChange>> read() {
    Optional<String> noDay = Showings.noDay(words);
    return noDay.isPresent()
        ? noDay.map(why -> asked(why, List.of()))
        : barFirst().filter(h -> h instanceof Heard.Understood<ShowChange>).or(this::shown);
  }

  /** "34: watch" is what "watch at 34" is. */
  private Optional<Heard<ShowChange>> barFirst() {
    Matcher first = BAR_FIRST.matcher(words);
    return first.matches() && scope.find(first.group(1)).places().size() == 1
        ? new Instruction(scope, first.group(2) + " at " + first.group(1), said, meta).shown()
        : Optional.empty();
  }

  private Optional<Heard<ShowChange>> shown() {
    Optional<Showings> showings = Showings.off(words, meta);
    if (showings.isPresent()) {
      Optional<Heard<ShowChange>> held =
          new Instruction(scope, showings.get().words(), said, showings.get().meta()).read();
      if (held.filter(h -> h instanceof Heard.Understood<ShowChange>).isPresent()) {
        return held;
      }
    }
    Optional<Heard<ShowChange>> heard = whole();
    if (heard.filter(h -> h instanceof Heard.Understood<ShowChange>).isPresent()) {
      return heard;
    }
    Matcher noted = NOTED.matcher(words);
    if (noted.matches()) {
      Optional<Heard<ShowChange>> without = noted(noted.group(1), noted.group(2));
      if (without.isPresent()) {
        return without;
      }
    }
    return heard.filter(h -> !readings(h).isEmpty()).or(() -> remark()).or(() -> heard);
  }

  private static List<Heard.Reading<ShowChange>> readings(Heard<ShowChange> heard) {
    return heard instanceof Heard.AskedBack<ShowChange> asked ? asked.readings() : List.of();
  }

  private Optional<Heard<ShowChange>> noted(String without, String note) {
    Meta withNote = meta.noted(Optional.of(note));
    return Showings.off(without, withNote)
        .map(s -> new Instruction(scope, s.words(), said, s.meta()))
        .orElseGet(() -> new Instruction(scope, without, said, withNote))
        .whole();
  }

  /** What stands behind a change may take some of it back, so it is not left aside unasked. */
  private Optional<Heard<ShowChange>> remark() {
    Matcher remark = REMARK.matcher(words);
    if (!remark.matches()) {
      return Optional.empty();
    }
    String said = remark.group(2).strip();
    return noted(remark.group(1), said)
        .filter(h -> h instanceof Heard.Understood<ShowChange>)
        .map(h -> (Heard.Understood<ShowChange>) h)
        .map(
            u ->
                choose(
                    "What does \"" + said + "\" change?",
                    List.of(
                        new Heard.Reading<>(
                            u.sentence() + " With \"" + said + "\" as a note.",
                            List.of(u.change())))));
  }

  private Optional<Heard<ShowChange>> whole() {
    return WORDINGS.stream().map(w -> w.reader().apply(this)).flatMap(Optional::stream).findFirst();
  }

  @Override
  public String number() {
    return scope.number().label();
  }

  @Override
  public String chair() {
    return scope.chair();
  }

  @Override
  public Optional<Meter> meterAt(String bar) {
    Scope.Looked looked = scope.find(bar);
    return looked.places().size() == 1
        ? scope.meterAt(looked.places().get(0).slot())
        : Optional.empty();
  }

  @Override
  public Heard<ShowChange> range(String said, Function<Stretch, ShowChange> make, String says) {
    return bars(said, true, make, w -> w.says() + verb(w, says));
  }

  @Override
  public Heard<ShowChange> through(String said, Function<Stretch, ShowChange> make, String says) {
    return bars(said, false, make, w -> w.says() + verb(w, says));
  }

  @Override
  public Heard<ShowChange> out(String said, Function<Stretch, ShowChange> make, String only) {
    return bars(Saying.section(said), true, make, w -> "out: " + w.out() + ", " + w.lands() + only);
  }

  private static String verb(Way way, String says) {
    return way.says().startsWith("bar ") ? says.replaceFirst("^ are ", " is ") : says;
  }

  private Heard<ShowChange> bars(
      String said,
      boolean landing,
      Function<Stretch, ShowChange> make,
      Function<Way, String> says) {
    Range range = Range.read(scope, said, landing);
    if (range.ways().isEmpty()) {
      return asked(range.why(), range.candidates());
    }
    if (range.ways().size() == 1 && !range.none()) {
      Way way = range.ways().get(0);
      return understood(make.apply(new Stretch(way.first(), way.last())), says.apply(way));
    }
    List<Heard.Reading<ShowChange>> readings = new ArrayList<>();
    if (range.none()) {
      readings.add(
          new Heard.Reading<>(
              "you play to the next mark and straight on, nothing is out",
              List.of(Kept.note(scope, this.said, meta))));
    }
    for (Way way : range.ways()) {
      Stretch bars = new Stretch(way.first(), way.last());
      readings.add(new Heard.Reading<>(says.apply(way), List.of(make.apply(bars))));
    }
    return choose(question(range.why()), readings);
  }

  private static String question(String why) {
    return why.isEmpty() ? "Which bars are meant?" : why + "?";
  }

  @Override
  public Heard<ShowChange> at(
      String where, Function<String, ShowChange> make, Function<String, String> says) {
    Edge edge = Edge.at(scope, where);
    if (edge.refused()) {
      return asked(edge.why(), edge.candidates());
    }
    List<Heard.Reading<ShowChange>> readings =
        edge.ats().stream()
            .map(
                a ->
                    new Heard.Reading<>(
                        says.apply(scope.nameAt(a.place().slot())), List.of(make.apply(a.name()))))
            .toList();
    return readings.size() == 1
        ? understood(readings.get(0).changes().get(0), readings.get(0).says())
        : choose(question(edge.why()), readings);
  }

  @Override
  public Heard<ShowChange> at(String where, ShowChange change, Function<String, String> says) {
    Scope.Looked looked = scope.find(where);
    return looked.places().size() == 1
        ? understood(change, says.apply(scope.nameAt(looked.places().get(0).slot())))
        : asked(looked.why(), looked.candidates());
  }

  @Override
  public List<PrintedRepeat> repeats() {
    return scope.repeats();
  }

  @Override
  public List<PrintedRepeat> open(String word) {
    List<PrintedRepeat> signed =
        scope.repeats().stream().filter(r -> r.open().equals(word)).toList();
    return signed.isEmpty() ? Repeats.unsigned(scope.number(), word) : signed;
  }

  @Override
  public List<String> bars(Predicate<Bar> printed) {
    WrittenNumber number = scope.number();
    List<String> names = new ArrayList<>();
    for (int i = 0; i < number.bars().size(); i++) {
      if (printed.test(number.bars().get(i))) {
        names.add(number.nameAt(number.starts()[i]));
      }
    }
    return names;
  }

  @Override
  public boolean jumpsBack() {
    return Repeats.jumpsBack(scope.number());
  }

  @Override
  public boolean namesBars(String said) {
    return !Range.read(scope, said, true).ways().isEmpty();
  }

  @Override
  public Heard<ShowChange> understood(ShowChange change, String says) {
    String start = start();
    String sentence =
        start.isEmpty()
            ? says.substring(0, 1).toUpperCase(Locale.ROOT) + says.substring(1)
            : start + says;
    return new Heard.Understood<>(said, change, sentence + change.meta().holds() + ".");
  }

  @Override
  public Heard<ShowChange> asked(String question, List<String> candidates) {
    return new Heard.AskedBack<>(said, start() + question, candidates);
  }

  @Override
  public Heard<ShowChange> choose(String question, List<Heard.Reading<ShowChange>> readings) {
    return new Heard.AskedBack<>(said, start() + question, List.of(), readings);
  }

  private String start() {
    return scope.number().label().isEmpty() ? "" : scope.number().spoken() + ": ";
  }
}
