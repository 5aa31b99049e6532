package org.barmap.plan.words;

import java.util.List;
import java.util.Optional;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.words.bar.Scope;
import org.barmap.plan.words.grammar.Grammar;

/** Reads a line: in which shows it holds, the number it is about, one instruction after another. */
final class OneLine {
  private final Numbers numbers;
  private final Hearing hearing;
  private final Unnamed unnamed;

  OneLine(Numbers numbers, Hearing hearing) {
    this.numbers = numbers;
    this.hearing = hearing;
    this.unnamed = new Unnamed(numbers);
  }

  void read(String typed) {
    Optional<Showings.Ahead> ahead = Showings.ahead(typed);
    String holds = holds(ahead);
    String line = NumberFirst.of(rest(ahead, typed), numbers.names(), hearing.named());
    if (line.isBlank()) {
      hearing.add(
          new Heard.AskedBack<>(
              typed, "Say it with each change, as in \"cut 5 to 8" + holds + "\".", List.of()));
      return;
    }
    String id = hearing.meta().id();
    Optional<Heard<ShowChange>> order =
        Orders.read(line, numbers.all(), id)
            .or(() -> NumberJumps.read(line, numbers.all(), hearing.number(), id));
    if (order.isPresent()) {
      hearing.add(order.get());
      return;
    }
    about(line, holds);
  }

  private static String holds(Optional<Showings.Ahead> ahead) {
    return ahead.map(a -> ", " + a.when()).orElse("");
  }

  private static String rest(Optional<Showings.Ahead> ahead, String line) {
    return ahead.map(Showings.Ahead::rest).orElse(line);
  }

  private void about(String line, String holds) {
    Names.Named said =
        numbers
            .names()
            .read(LinkLines.numberFirst(Frames.number(line), numbers.all(), hearing.number()));
    if (said.unknown().isPresent()) {
      hearing.add(
          new Heard.AskedBack<>(
              line,
              "There is no No. " + said.unknown().get() + " in this book.",
              numbers.names().labels()));
      hearing.still(Optional.empty());
      return;
    }
    said.number().ifPresent(hearing::about);
    Optional<Showings.Ahead> ahead = Showings.ahead(said.rest());
    String when = ahead.isPresent() ? holds(ahead) : holds;
    String rest = Grammar.turned(rest(ahead, said.rest()));
    boolean whole =
        Grammar.whole(rest)
            || hearing.number().filter(n -> called(n).complete(rest).isPresent()).isPresent();
    List<String> all = whole ? List.of(rest) : Sentences.instructions(Frames.places(rest));
    all.forEach(one -> instruction(one + when));
  }

  private Called called(WrittenNumber of) {
    return numbers.called(of, hearing::meta);
  }

  private void instruction(String words) {
    Meta meta = hearing.meta();
    if (!hearing.named()) {
      Optional<Heard<ShowChange>> either = unnamed.numberOrBar(words, meta, hearing.number());
      if (either.isPresent()) {
        hearing.add(either.get());
        return;
      }
    }
    if (hearing.number().isEmpty()) {
      hearing.add(unnamed.whichNumber(words, meta));
      return;
    }
    Called called = called(hearing.number().get());
    Scope scope = called.scope();
    Optional<Heard<ShowChange>> open = called.first(words);
    if (open.isPresent()) {
      hearing.add(scope, open.get());
      return;
    }
    Optional<List<String>> complete = called.complete(words);
    if (complete.isPresent()) {
      complete.get().forEach(one -> hearing.add(scope, called.heard(one, words)));
      return;
    }
    for (String one : Said.parts(words, w -> Sentences.spread(scope, w), called::one)) {
      for (String part : called.parts(one)) {
        hearing.add(scope, said(called, part, one));
      }
    }
  }

  /** As it was said; where that is no change, in other words that say the same. */
  private Heard<ShowChange> said(Called called, String words, String typed) {
    return called
        .one(words)
        .map(h -> words.equals(typed) ? h : Said.as(h, typed))
        .orElseGet(() -> Kept.left(called.scope(), words, hearing.meta(), called.nearest(words)));
  }
}
