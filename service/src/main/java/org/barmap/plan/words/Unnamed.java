package org.barmap.plan.words;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.words.grammar.Sounds;

/** Asks about what was said while nobody had said of which number. */
final class Unnamed {

  /** So many instructions of one list are tried in every number. */
  private static final int MOST_TRIED = 600;

  private static final Pattern CUT_ONE =
      phrase("(?:cut|omit|skip|drop|lose)\\s+(\\d{1,4}[A-Za-z]{0,2})");

  private final Numbers numbers;
  private int tried;

  Unnamed(Numbers numbers) {
    this.numbers = numbers;
  }

  /** Whether words may be about a number of the show as well as about a bar: "cut 7". */
  static boolean maybeNumber(String words) {
    return CUT_ONE.matcher(words).matches();
  }

  /** "Cut 7" is number 7 or bar 7. */
  Optional<Heard<ShowChange>> numberOrBar(
      String words, Meta meta, Optional<WrittenNumber> spokenOf) {
    Matcher one = CUT_ONE.matcher(words);
    Optional<WrittenNumber> whole =
        one.matches() ? numbers.names().byLabel(one.group(1)) : Optional.empty();
    if (whole.isEmpty()) {
      return Optional.empty();
    }
    String label = whole.get().label();
    List<Heard.Reading<ShowChange>> readings = new ArrayList<>();
    Optional<Heard<ShowChange>> cut = numbers.called(whole.get(), () -> meta).read("cut");
    cut.flatMap(Heard::reading).ifPresent(readings::add);
    readings.addAll(inNumbers(words, meta, spokenOf));
    return readings.size() == 1
        ? cut
        : Optional.of(
            new Heard.AskedBack<>(
                words, "No. " + label + ", or bar " + label + "?", List.of(), readings));
  }

  Heard<ShowChange> whichNumber(String words, Meta meta) {
    List<Heard.Reading<ShowChange>> readings = inNumbers(words, meta, Optional.empty());
    if (!readings.isEmpty() || Sentences.hasVerb(words) || Sounds.formal(words)) {
      return new Heard.AskedBack<>(
          words,
          "Which number is this for?",
          readings.isEmpty() ? numbers.names().labels() : List.of(),
          readings);
    }
    return Kept.ofTheShow(words, meta);
  }

  /** What the words would mean in each number that understands them. */
  private List<Heard.Reading<ShowChange>> inNumbers(
      String words, Meta meta, Optional<WrittenNumber> spokenOf) {
    List<Heard.Reading<ShowChange>> readings = new ArrayList<>();
    for (WrittenNumber each : spokenOf.map(List::of).orElse(numbers.all())) {
      if (readings.size() == PlanFinding.MOST_NUMBERS || tried++ > MOST_TRIED) {
        break;
      }
      NumberJumps.read(words, numbers.all(), Optional.of(each), meta.id())
          .or(() -> numbers.called(each, () -> meta).read(words))
          .flatMap(Heard::reading)
          .ifPresent(readings::add);
    }
    return readings;
  }
}
