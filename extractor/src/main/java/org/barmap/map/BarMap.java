package org.barmap.map;

import com.fasterxml.jackson.annotation.JsonIgnore;
import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonProperty;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;

/**
 * The structure of one book, format {@code barmap/1}.
 *
 * @param format always {@link #FORMAT}
 * @param book title and part
 * @param pages in the order of the book
 * @param numbers musical numbers in the order of the book; may be empty
 * @param bars bar entries in reading order
 * @param findings what a person should look at, most important first; may be empty
 */
public record BarMap(
    @JsonProperty("format") String format,
    Book book,
    List<Page> pages,
    List<MusicalNumber> numbers,
    List<Bar> bars,
    @JsonInclude(JsonInclude.Include.NON_EMPTY) List<Finding> findings) {

  /** The format's name, first key of every document. */
  public static final String FORMAT = "barmap/1";

  /** Takes defensive copies; absent lists are empty. */
  public BarMap {
    pages = pages == null ? List.of() : List.copyOf(pages);
    numbers = numbers == null ? List.of() : List.copyOf(numbers);
    bars = bars == null ? List.of() : List.copyOf(bars);
    findings = findings == null ? List.of() : List.copyOf(findings);
  }

  /** Returns a map without findings. */
  public static BarMap of(
      Book book, List<Page> pages, List<MusicalNumber> numbers, List<Bar> bars) {
    return new BarMap(FORMAT, book, pages, numbers, bars, List.of());
  }

  /** Returns the bar entry with an id. */
  public Optional<Bar> bar(String id) {
    return bars.stream().filter(b -> b.id().equals(id)).findFirst();
  }

  /** Returns all bar entries by id. */
  @JsonIgnore
  public Map<String, Bar> barsById() {
    return bars.stream().collect(Collectors.toMap(Bar::id, Function.identity(), (a, b) -> a));
  }

  /** Returns the number of bars the book has as written: the sum of all counts. */
  @JsonIgnore
  public int writtenBars() {
    return bars.stream().mapToInt(Bar::count).sum();
  }

  /** Returns the bar entries of one musical number, in reading order; empty for a tacet number. */
  public List<Bar> barsOf(MusicalNumber number) {
    int first = indexOf(number.firstBar().orElse(""));
    int last = indexOf(number.lastBar().orElse(""));
    return first < 0 || last < first ? List.of() : bars.subList(first, last + 1);
  }

  /** Returns the position of a bar entry in reading order, or -1. */
  public int indexOf(String id) {
    for (int i = 0; i < bars.size(); i++) {
      if (bars.get(i).id().equals(id)) {
        return i;
      }
    }
    return -1;
  }

  /** Returns the map with other bars. */
  public BarMap withBars(List<Bar> newBars) {
    return new BarMap(format, book, pages, numbers, newBars, findings);
  }

  /** Returns the map with other findings. */
  public BarMap withFindings(List<Finding> newFindings) {
    return new BarMap(format, book, pages, numbers, bars, newFindings);
  }
}
