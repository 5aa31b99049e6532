package org.barmap.map;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Predicate;

/**
 * What another source says of the same music, bar by bar: the director's score, or what another
 * reader made of the pages. Evidence, not truth.
 *
 * @param source where it came from, a file name
 * @param parts in the order of the source; at least one
 */
public record SecondReading(String source, List<Part> parts) {

  /** Takes a defensive copy. */
  public SecondReading {
    parts = List.copyOf(parts);
  }

  /**
   * Returns the parts that a text may mean, upper and lower case alike: those called so, or else
   * the one with this id, or else those whose name contains it.
   */
  public List<Part> partsNamed(String text) {
    String wanted = text.strip().toLowerCase(Locale.ROOT);
    List<Part> called = parts(p -> p.name().toLowerCase(Locale.ROOT).equals(wanted));
    List<Part> known = parts(p -> p.id().toLowerCase(Locale.ROOT).equals(wanted));
    if (!called.isEmpty() || !known.isEmpty()) {
      return called.isEmpty() ? known : called;
    }
    return parts(p -> p.name().toLowerCase(Locale.ROOT).contains(wanted));
  }

  private List<Part> parts(Predicate<Part> which) {
    return parts.stream().filter(which).toList();
  }

  /**
   * One part.
   *
   * @param id unique in the source
   * @param name as printed, may be empty
   * @param measures every bar, also each bar inside a multi-bar rest
   */
  public record Part(String id, String name, List<Measure> measures) {

    /** Takes a defensive copy. */
    public Part {
      measures = List.copyOf(measures);
    }
  }

  /**
   * One bar.
   *
   * @param number its number as the source has it, any token: "0", "12", "X1", "24A"; may be empty
   * @param implicit the number is not displayed: a pickup, a bar split in two
   * @param meter the meter in force; {@code printed} where the source changes it
   * @param key the key signature in force; {@code printed} where the source changes it; empty for
   *     unknown
   * @param rest the part rests throughout
   * @param multiRest at the first bar of a multi-bar rest how many bars it has, else 0
   * @param start its left barline, {@code NONE} or {@code REPEAT_START}
   * @param end its right barline
   * @param times at a backward repeat: how often it is played in all
   * @param rehearsal the rehearsal mark over it
   * @param ending which endings it lies under; empty for none
   * @param signs navigation signs and holds at it
   */
  public record Measure(
      String number,
      boolean implicit,
      Optional<Meter> meter,
      Optional<Key> key,
      boolean rest,
      int multiRest,
      Barline start,
      Barline end,
      Optional<Integer> times,
      Optional<String> rehearsal,
      List<Integer> ending,
      List<Navigation> signs) {

    /** Takes defensive copies. */
    public Measure {
      ending = List.copyOf(ending);
      signs = List.copyOf(signs);
    }

    /** Returns the same bar without a number. */
    public Measure unnumbered() {
      return new Measure(
          "", false, meter, key, rest, multiRest, start, end, times, rehearsal, ending, signs);
    }

    /** Returns the same bar with other signs at it. */
    public Measure withSigns(List<Navigation> other) {
      return new Measure(
          number, implicit, meter, key, rest, multiRest, start, end, times, rehearsal, ending,
          other);
    }
  }
}
