package org.barmap.edit.kind;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.barmap.edit.draft.Aspect;
import org.barmap.map.Bar;
import org.barmap.map.Navigation;
import org.barmap.map.Word;

/** Corrections of the signs and words at one bar entry. */
public sealed interface SignCorrection extends OneBar {

  /** It lies under these endings; an empty list for none. */
  record SetEnding(String bar, List<Integer> ending) implements SignCorrection {

    /** Reads an absent list as empty. */
    public SetEnding {
      bar = OneBar.id(bar);
      ending = ending == null ? List.of() : List.copyOf(ending);
    }

    @Override
    public List<String> problems(Bar b) {
      return ending.size() > 20 || ending.stream().anyMatch(e -> e < 1 || e > 99)
          ? List.of("Endings are numbered 1 to 99")
          : List.of();
    }

    @Override
    public Bar change(Bar b) {
      return b.toBuilder().ending(ending.stream().distinct().sorted().toList()).build();
    }

    @Override
    public Set<Aspect> sets() {
      return EnumSet.of(Aspect.ENDING);
    }

    @Override
    public String saysOf(String where, Bar b) {
      return ending.isEmpty()
          ? "No ending at " + where
          : Saying.sentence(where)
              + ": ending "
              + String.join(", ", ending.stream().map(String::valueOf).toList());
    }
  }

  /** A navigation sign stands at it, or does not. */
  record SetSign(String bar, Optional<Navigation> sign, boolean present) implements SignCorrection {

    /** Reads an absent sign as empty. */
    public SetSign {
      bar = OneBar.id(bar);
      sign = sign == null ? Optional.empty() : sign;
    }

    @Override
    public List<String> problems(Bar b) {
      return sign.isEmpty() ? List.of("Say which sign") : List.of();
    }

    @Override
    public Bar change(Bar b) {
      List<Navigation> signs = new ArrayList<>(b.signs());
      signs.remove(sign.orElseThrow());
      if (present) {
        signs.add(sign.orElseThrow());
      }
      return b.toBuilder().signs(signs.stream().sorted().toList()).build();
    }

    @Override
    public Set<Aspect> sets() {
      return EnumSet.of(Aspect.SIGNS);
    }

    @Override
    public String saysOf(String where, Bar b) {
      String name = sign.map(Navigation::word).orElse("?");
      return Saying.sentence(where) + (present ? ": " : ": no ") + name;
    }
  }

  /** It is played so often in all; absent takes the figure away. */
  record SetTimes(String bar, Optional<Integer> times) implements SignCorrection {

    /** Reads an absent figure as empty. */
    public SetTimes {
      bar = OneBar.id(bar);
      times = times == null ? Optional.empty() : times;
    }

    @Override
    public List<String> problems(Bar b) {
      return OneBar.range("A bar can be played 1 to 999 times", times.orElse(1), 1, 999);
    }

    @Override
    public Bar change(Bar b) {
      return b.toBuilder().times(times).build();
    }

    @Override
    public Set<Aspect> sets() {
      return EnumSet.of(Aspect.TIMES);
    }

    @Override
    public String saysOf(String where, Bar b) {
      return Saying.sentence(where)
          + times
              .map(t -> ": played " + (t == 1 ? "once" : t == 2 ? "twice" : t + " times"))
              .orElse(": played as written");
    }
  }

  /** These words stand at it, instead of those read. */
  record SetWords(String bar, List<Word> words) implements SignCorrection {

    /** Reads an absent list as empty. */
    public SetWords {
      bar = OneBar.id(bar);
      words = words == null ? List.of() : List.copyOf(words);
    }

    @Override
    public List<String> problems(Bar b) {
      boolean bad =
          words.stream()
              .anyMatch(
                  w ->
                      w.text() == null
                          || w.text().isBlank()
                          || w.text().length() > 200
                          || w.where() == null);
      return words.size() > 50 || bad
          ? List.of("A bar has up to 50 words of up to 200 characters, each above or below")
          : List.of();
    }

    @Override
    public Bar change(Bar b) {
      return b.toBuilder().words(words).build();
    }

    @Override
    public Set<Aspect> sets() {
      return EnumSet.of(Aspect.WORDS);
    }

    @Override
    public String saysOf(String where, Bar b) {
      return words.isEmpty()
          ? "No words at " + where
          : "Words at " + where + ": " + String.join(", ", words.stream().map(Word::text).toList());
    }
  }
}
