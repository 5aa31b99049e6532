package org.barmap.plan.words;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.regex.Pattern;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;

/** Which of several ways to hear an instruction is the one that was meant. */
final class Said {
  private static final Pattern BETWEEN =
      phrase("\\s*,\\s*(?:and\\s+)?(?:then\\s+)?|\\s+(?:and\\s+then|and|then)\\s+");

  /** A figure alone is a bar of a list, and no tempo. */
  private static final Pattern WORD = Pattern.compile("\\p{L}{2}");

  /** Nobody says more in one breath. */
  private static final int MOST_PARTS = 8;

  private Said() {}

  static boolean understood(Optional<Heard<ShowChange>> heard) {
    return heard.filter(h -> h instanceof Heard.Understood<ShowChange>).isPresent();
  }

  /** Returns what was heard, about the words as they were typed. */
  static Heard<ShowChange> as(Heard<ShowChange> heard, String words) {
    if (heard instanceof Heard.Understood<ShowChange> understood) {
      return understood.about(words);
    }
    Heard.AskedBack<ShowChange> asked = (Heard.AskedBack<ShowChange>) heard;
    return new Heard.AskedBack<>(words, asked.question(), asked.candidates(), asked.readings());
  }

  /** What is understood goes before what is asked, and a choice before a plain question. */
  static Optional<Heard<ShowChange>> better(
      Optional<Heard<ShowChange>> one, Optional<Heard<ShowChange>> other) {
    boolean choice =
        other
            .filter(h -> h instanceof Heard.AskedBack<ShowChange> a && !a.readings().isEmpty())
            .isPresent();
    return one.isEmpty() || understood(other) || choice ? other.or(() -> one) : one;
  }

  /**
   * Takes an instruction apart: a list of bars, or several things in one breath, each of which is
   * understood by itself while the whole is not ("electric from B, upright at D").
   *
   * @param spread takes a list of bars apart
   * @param read reads one instruction
   */
  static List<String> parts(
      String words,
      Function<String, List<String>> spread,
      Function<String, Optional<Heard<ShowChange>>> read) {
    List<String> bars = spread.apply(words);
    if (bars.size() > 1) {
      return bars;
    }
    if (understood(read.apply(words))) {
      return List.of(words);
    }
    List<String> framed = spread.apply(Frames.plain(words));
    if (framed.size() > 1) {
      return framed;
    }
    List<String> parts = List.of(BETWEEN.split(words));
    boolean all =
        parts.size() > 1
            && parts.size() <= MOST_PARTS
            && parts.stream().allMatch(p -> WORD.matcher(p).find() && changes(either(p, read)));
    return all ? parts : List.of(words);
  }

  private static Optional<Heard<ShowChange>> either(
      String part, Function<String, Optional<Heard<ShowChange>>> read) {
    return better(read.apply(part), read.apply(Frames.plain(part)));
  }

  private static boolean changes(Optional<Heard<ShowChange>> heard) {
    return heard
        .filter(h -> h instanceof Heard.Understood<ShowChange> u && u.change().kept().isEmpty())
        .isPresent();
  }
}
