package org.barmap.plan.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Supplier;
import java.util.stream.Stream;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.change.say.Told.PrintedRepeat;
import org.barmap.plan.words.grammar.Bars;
import org.barmap.plan.words.grammar.Grammar;
import org.barmap.plan.words.grammar.Meant;

/**
 * Hears what is called out about one number: as it is said, in the frames of a rehearsal, by the
 * grammar.
 *
 * @param scope the number
 * @param read reads an instruction in the words of the kinds of change
 * @param meta what the next change gets
 */
record Called(Scope scope, Function<String, Optional<Heard<ShowChange>>> read, Supplier<Meta> meta)
    implements Bars {

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
    return slot(way.first()) == 0;
  }

  private boolean ends(Way way) {
    return slot(way.last()) == scope.slots() - 1;
  }

  private int slot(String bar) {
    Scope.Looked looked = scope.find(bar);
    return looked.places().isEmpty() ? -1 : looked.places().get(0).slot();
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
            Grammar.read(base(words), this).stream(), Grammar.sense(base(words), this).stream())
        .filter(m -> m instanceof Meant.Says s && s.instructions().size() > 1)
        .map(m -> ((Meant.Says) m).instructions().stream().map(i -> i + holds(words)).toList())
        .filter(all -> all.stream().allMatch(i -> Said.understood(plain(i))))
        .findFirst()
        .orElse(List.of(words));
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

  private Optional<Heard<ShowChange>> plain(String words) {
    Optional<Heard<ShowChange>> plain = read.apply(words);
    String framed = Frames.plain(words);
    if (Said.understood(plain) || framed.equals(words)) {
      return plain;
    }
    return Said.better(plain, read.apply(framed).map(h -> Said.as(h, words)));
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
    return Grammar.sense(base(words), this)
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
