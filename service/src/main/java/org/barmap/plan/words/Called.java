package org.barmap.plan.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.Supplier;
import java.util.stream.Stream;
import org.barmap.plan.change.Place;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.change.say.Told.PrintedRepeat;
import org.barmap.plan.words.bar.Printed;
import org.barmap.plan.words.bar.Range;
import org.barmap.plan.words.bar.Repeats;
import org.barmap.plan.words.bar.Scope;
import org.barmap.plan.words.bar.Way;
import org.barmap.plan.words.clause.Sense;
import org.barmap.plan.words.grammar.Bars;
import org.barmap.plan.words.grammar.Grammar;
import org.barmap.plan.words.grammar.Meant;

/**
 * Hears what is called out about one number: as it is said, in the frames of a rehearsal, by the
 * grammar.
 *
 * @param scope the number
 * @param meta what the next change gets
 */
record Called(Scope scope, Supplier<Meta> meta) implements Bars {

  @Override
  public Optional<Ends> ends(String said) {
    Range range = Range.read(scope, said.strip(), true);
    if (range.ways().size() != 1) {
      return Optional.empty();
    }
    Way way = range.ways().get(0);
    List<String> names = List.of(way.first(), way.last());
    return Optional.of(new Ends(names.get(0), names.get(1), begins(way), ends(way)));
  }

  private boolean begins(Way way) {
    return slot(way.first()).orElse(-1) == 0;
  }

  private boolean ends(Way way) {
    return slot(way.last()).orElse(-1) == scope.slots() - 1;
  }

  @Override
  public OptionalInt slot(String bar) {
    List<Place> places = scope.find(bar).places();
    return places.isEmpty() ? OptionalInt.empty() : OptionalInt.of(places.get(0).slot());
  }

  @Override
  public boolean jumpsBack() {
    return Repeats.jumpsBack(scope.number());
  }

  @Override
  public int times(String said) {
    return ends(said)
        .map(
            e ->
                Printed.times(
                    scope, slot(e.first()).orElse(-1), slot(e.last()).orElse(Integer.MAX_VALUE)))
        .orElse(1);
  }

  @Override
  public Optional<String> repeat() {
    return Printed.repeat(scope);
  }

  @Override
  public Optional<String> toKey(String key, int way) {
    return Printed.toKey(scope, key, way);
  }

  @Override
  public Optional<Ends> rest(String said) {
    return Printed.rest(scope, slot(said).orElse(-1));
  }

  @Override
  public int length(Ends ends) {
    return slot(ends.last()).orElse(0) - slot(ends.first()).orElse(0) + 1;
  }

  @Override
  public Optional<String> landmark(String printed, boolean behind) {
    return Printed.landmark(scope, printed, behind);
  }

  @Override
  public Optional<String> tempo(String bar) {
    return Printed.tempo(scope, slot(bar).orElse(0));
  }

  @Override
  public boolean named(String said) {
    return !said.isBlank() && !Range.read(scope, said.strip(), true).ways().isEmpty();
  }

  @Override
  public Optional<String> open(String word) {
    List<PrintedRepeat> signed =
        scope.repeats().stream().filter(r -> r.open().equals(word)).toList();
    List<PrintedRepeat> those = signed.isEmpty() ? Repeats.unsigned(scope.number(), word) : signed;
    return those.size() == 1
        ? those.stream().map(r -> r.bars().first() + " to " + r.bars().last()).findFirst()
        : Optional.empty();
  }

  /** A part without a name may be anybody's, and this trade's part is a bass's. */
  @Override
  public boolean chair(String instrument) {
    String said = instrument.toLowerCase(Locale.ROOT).replaceFirst("^the\\s+", "");
    String chair = scope.chair().toLowerCase(Locale.ROOT);
    String one = said.replaceFirst("(?:es|s)$", "");
    return chair.isEmpty()
        ? one.endsWith("bas") || one.endsWith("bass") || one.equals("b")
        : chair.contains(one) || said.contains(chair);
  }

  /** What has to be asked before the words are taken as they stand. */
  Optional<Heard<ShowChange>> first(String words) {
    return Grammar.first(words, this)
        .filter(m -> m instanceof Meant.Asks)
        .map(m -> asked(words, (Meant.Asks) m));
  }

  /** Returns the instructions that words come to; themselves where that is one, or none. */
  List<String> parts(String words) {
    if (Said.understood(plain(words)) || choice(plain(words))) {
      return List.of(words);
    }
    return Stream.concat(
            Grammar.read(base(words), this).stream(), Sense.of(base(words), this).stream())
        .filter(m -> m instanceof Meant.Says s && s.instructions().size() > 1)
        .map(m -> ((Meant.Says) m).instructions().stream().map(i -> i + holds(words)).toList())
        .filter(all -> all.stream().allMatch(i -> Said.understood(plain(i))))
        .findFirst()
        .orElse(List.of(words));
  }

  /**
   * Returns the instructions that a sentence comes to of which no word is left over; empty where
   * the kinds know it as it stands, or where something is left.
   */
  Optional<List<String>> complete(String words) {
    if (Said.understood(plain(words))) {
      return Optional.empty();
    }
    return Sense.of(Spoken.figures(base(words)), this)
        .filter(m -> m instanceof Meant.Says)
        .map(
            m ->
                ((Meant.Says) m)
                    .instructions().stream()
                        .flatMap(i -> Sentences.spread(scope, i).stream())
                        .map(i -> i + holds(words))
                        .toList())
        .filter(all -> all.stream().anyMatch(i -> !i.startsWith("note: ")))
        .filter(all -> all.stream().allMatch(this::heard));
  }

  /** Returns what {@link #complete} does, or the words themselves where the kinds know them. */
  Optional<List<String>> known(String words) {
    return Said.understood(plain(words)) ? Optional.of(List.of(words)) : complete(words);
  }

  private boolean heard(String instruction) {
    Optional<Heard<ShowChange>> plain = plain(instruction);
    return Said.understood(plain) || choice(plain);
  }

  /** Hears an instruction of a sentence that came to it. */
  Heard<ShowChange> heard(String instruction, String typed) {
    return plain(instruction)
        .map(h -> Said.as(h, typed))
        .orElseGet(() -> Kept.left(scope, typed, meta.get(), List.of()));
  }

  /** Hears one instruction; empty where it is no change. */
  Optional<Heard<ShowChange>> one(String words) {
    Optional<Heard<ShowChange>> plain = plain(words);
    if (Said.understood(plain) || choice(plain)) {
      return plain;
    }
    Optional<Heard<ShowChange>> other =
        Grammar.read(base(words), this).stream()
            .flatMap(m -> meant(words, m).stream())
            .findFirst()
            .or(() -> sense(words, plain));
    if (other.isPresent() && (plain.isEmpty() || Said.understood(other) || more(other.get()))) {
      return other;
    }
    Optional<Heard<ShowChange>> tidy = plain(Grammar.tidy(words)).map(h -> Said.as(h, words));
    return Said.better(plain, tidy);
  }

  /** Returns what words are near to that nobody could follow. */
  List<Heard.Reading<ShowChange>> nearest(String words) {
    return Grammar.nearest(words, this).stream()
        .flatMap(near -> plain(near).flatMap(Heard::reading).stream())
        .toList();
  }

  /** Reads an instruction in the words of the kinds of change; empty where it is none. */
  Optional<Heard<ShowChange>> read(String words) {
    return TwoBars.read(scope, words, this::figured).or(() -> figured(words));
  }

  private Optional<Heard<ShowChange>> figured(String words) {
    Meta next = meta.get();
    Optional<Heard<ShowChange>> plain = new Instruction(scope, words, words, next).read();
    String figures = Spoken.figures(words);
    if (figures.equals(words) || Said.understood(plain)) {
      return plain;
    }
    return new Instruction(scope, figures, words, next).read().or(() -> plain);
  }

  private Optional<Heard<ShowChange>> plain(String words) {
    Optional<Heard<ShowChange>> plain = read(words);
    String framed = Frames.plain(words);
    if (Said.understood(plain) || framed.equals(words)) {
      return plain;
    }
    return Said.better(plain, read(framed).map(h -> Said.as(h, words)));
  }

  private static boolean choice(Optional<Heard<ShowChange>> heard) {
    return heard
        .filter(h -> h instanceof Heard.AskedBack<ShowChange> a && !a.readings().isEmpty())
        .isPresent();
  }

  /** The words without what stands behind them for when they hold. */
  private String base(String words) {
    String base = Showings.off(words, meta.get()).map(Showings::words).orElse(words);
    return words.startsWith(base) ? base : words;
  }

  private String holds(String words) {
    return words.substring(base(words).length());
  }

  /** By what it names; a question only where nobody knows better what is wrong. */
  private Optional<Heard<ShowChange>> sense(String words, Optional<Heard<ShowChange>> plain) {
    return Sense.of(Spoken.figures(base(words)), this)
        .flatMap(m -> meant(words, m))
        .filter(h -> plain.isEmpty() || h instanceof Heard.Understood<ShowChange>);
  }

  /** Whether a question offers more than to keep the words as a note. */
  private static boolean more(Heard<ShowChange> heard) {
    return heard instanceof Heard.AskedBack<ShowChange> asked && asked.readings().size() > 1;
  }

  private Optional<Heard<ShowChange>> meant(String words, Meant meant) {
    if (meant instanceof Meant.Asks asks) {
      return Optional.of(asked(words, asks));
    }
    if (meant instanceof Meant.Says says) {
      return says.instructions().size() == 1
          ? Optional.of(plain(says.instructions().get(0) + holds(words)))
              .filter(h -> Said.understood(h) || choice(h))
              .flatMap(h -> h)
              .map(h -> Said.as(h, words))
          : Optional.empty();
    }
    return Optional.of(Kept.remark(scope, words, meta.get()));
  }

  private Heard<ShowChange> asked(String words, Meant.Asks asks) {
    List<Heard.Reading<ShowChange>> readings = new ArrayList<>();
    for (String near : asks.nearest()) {
      plain(near + holds(words)).flatMap(Heard::reading).ifPresent(readings::add);
    }
    readings.add(
        new Heard.Reading<>(
            "keep it as a note, nothing else", List.of(Kept.note(scope, words, meta.get()))));
    return new Heard.AskedBack<>(words, Kept.start(scope) + asks.question(), List.of(), readings);
  }
}
