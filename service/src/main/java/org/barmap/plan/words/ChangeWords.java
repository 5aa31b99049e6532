package org.barmap.plan.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import org.barmap.map.BarMap;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.words.doubt.Backwards;
import org.barmap.plan.words.doubt.WhichShows;
import org.barmap.plan.words.earlier.Before;
import org.barmap.plan.words.earlier.Known;
import org.barmap.plan.words.grammar.Corrections;
import org.barmap.plan.words.grammar.Tidy;
import org.barmap.plan.words.talk.Days;
import org.barmap.plan.words.talk.Either;
import org.barmap.plan.words.talk.Idioms;
import org.barmap.plan.words.talk.Retelling;
import org.barmap.plan.words.talk.Retold;

/**
 * Reads a director's cut list.
 *
 * <p>One instruction a line, or several behind each other ("No. 7: cut 34 to 49, vamp B to B+1"). A
 * number is named once and holds until the next: "No. 7:", "7.", its title, or "No. 7 Low Tide".
 * What is no change at all is kept as a note; what looks like one and can't be followed is asked
 * back with the reason.
 *
 * <p>A typed line is written in figures and dates here; then it is about an earlier change ({@code
 * earlier}), or a message ({@link Messages}), in other words where it has to be ({@code talk}). A
 * message falls into lines ({@link OneLine}), a line into instructions about one number ({@link
 * Called}).
 */
public final class ChangeWords {
  /** A longer list is no cut list. */
  static final int MOST_LINES = 2000;

  /** A longer line is no instruction. */
  private static final int MOST_LETTERS = 400;

  private static final Pattern LINES = Pattern.compile("[\\r\\n;\\u2028\\u2029\\u0085]+");

  private final Numbers numbers;
  private final Hearing hearing;
  private final Messages messages;
  private final Retelling retelling;
  private final Before before;
  private final Optional<String> today;

  private ChangeWords(BarMap map, Known known) {
    this.numbers = new Numbers(map);
    this.hearing = new Hearing(numbers.only(), known.free());
    this.messages = new Messages(numbers, hearing);
    Names names = numbers.names();
    Retold retold = new Retold(l -> names.byLabel(l).map(WrittenNumber::label), names.titles());
    this.retelling = new Retelling(retold, messages);
    this.before =
        new Before(
            known,
            messages,
            retold,
            numbers.mentions(),
            this::labelled,
            Spoken::figures,
            w -> Showings.off(w, hearing.meta()).map(s -> new Before.Holds(s.words(), s.meta())));
    this.today = known.today();
  }

  /**
   * Returns what was understood of a text and what is asked back, in the order it was said, where
   * nothing is known of what was said before.
   */
  public static List<Heard<ShowChange>> understand(BarMap map, String text) {
    return understand(map, text, Known.NOTHING);
  }

  /** Returns what was understood of a text and what is asked back, in the order it was said. */
  public static List<Heard<ShowChange>> understand(BarMap map, String text, Known known) {
    ChangeWords words = new ChangeWords(map, known);
    String[] lines = LINES.split(Before.joined(text), MOST_LINES + 1);
    for (int i = 0; i < lines.length && i < MOST_LINES; i++) {
      words.typed(lines[i]);
    }
    if (lines.length > MOST_LINES) {
      words.hearing.add(
          new Heard.AskedBack<>(
              "",
              "The list has more than " + MOST_LINES + " lines; the rest was not read.",
              List.of()));
    }
    return Before.settled(words.before.told(words.hearing.all()));
  }

  private void typed(String typed) {
    int start = hearing.all().size();
    String line = understood(typed);
    List<Heard<ShowChange>> those = List.copyOf(hearing.since(start));
    List<Heard<ShowChange>> all =
        Backwards.of(line, WhichShows.of(line, those, today, numbers.names().titles().keySet()));
    if (!all.equals(those)) {
      hearing.instead(start, all);
    }
  }

  /** Reads a line; returns it as it was read. */
  private String understood(String typed) {
    if (typed.length() > MOST_LETTERS) {
      String start = Spoken.plain(typed.substring(0, 40)) + "\u2026";
      hearing.add(
          new Heard.AskedBack<>(
              start,
              "This line is longer than anything said in one breath; say it in several.",
              List.of()));
      return "";
    }
    String line = written(typed);
    if (line.isEmpty() || hearing.all().isEmpty() && numbers.heads(line)) {
      return "";
    }
    Optional<List<Heard<ShowChange>>> earlier =
        before.read(line, hearing.number().map(WrittenNumber::label), hearing.named());
    if (earlier.isPresent()) {
      earlier.get().forEach(hearing::add);
      return line;
    }
    List<String> either = Either.ways(line);
    if (either.isEmpty()) {
      retelling.read(line, Spoken.figures(line));
    } else {
      either(line, either);
    }
    return line;
  }

  /** With figures, dates, plain signs, and what was put right in the same breath. */
  private String written(String typed) {
    String dated = Days.over(Idioms.digits(Spoken.plain(typed)), today);
    String figures = Spoken.figures(dated);
    String idiom = Idioms.over(figures);
    String message = Tidy.message(idiom.equals(figures) ? dated : idiom);
    String said = message.replaceFirst("^[-*\\u2022]\\s+|^[*\\u2022]", "").strip();
    return TwoBars.neighbours(
        Corrections.over(Corrections.corrected(said) ? Spoken.figures(said) : said));
  }

  /** Two ways of which nobody has said which it is; where neither is understood, as it was said. */
  private void either(String line, List<String> ways) {
    Retelling.State start = hearing.state();
    List<Heard.Reading<ShowChange>> readings = new ArrayList<>();
    for (String way : ways) {
      retelling.read(way, Spoken.figures(way));
      List<Heard<ShowChange>> those = hearing.since(start.heard());
      those.stream()
          .filter(h -> those.size() == 1)
          .flatMap(h -> h.reading().stream())
          .filter(r -> r.changes().stream().allMatch(c -> c.kept().isEmpty()))
          .forEach(readings::add);
      hearing.back(start);
    }
    if (readings.isEmpty()) {
      retelling.read(line, Spoken.figures(line));
      return;
    }
    boolean all = readings.size() >= ways.size(); // one way alone is no choice
    hearing.add(new Heard.AskedBack<>(line, "Which of the two?", all ? List.of() : ways, readings));
  }

  private Optional<Before.Of> labelled(String label) {
    return numbers
        .labelled(label)
        .map(
            n ->
                new Before.Of(
                    n.label(), Kept.start(numbers.scope(n)), numbers.called(n, hearing::meta)));
  }
}
