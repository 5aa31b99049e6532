package org.barmap.exchange.chair;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.barmap.map.BarMap;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.reckon.compare.BookAlignment;

/**
 * Two parts beside each other as a table.
 *
 * @param numbers those both have, in this book's order
 * @param onlyHere labels of those the other book doesn't have
 * @param onlyThere labels of those this book doesn't have
 * @param problems what is wrong with the places a person named
 * @param differences what can't be right in both, number by number
 */
public record AlignTable(
    List<Row> numbers,
    List<String> onlyHere,
    List<String> onlyThere,
    List<String> problems,
    List<Difference> differences) {

  /**
   * What can't be right in both.
   *
   * @param number label of the musical number
   * @param kind bars, mark, meter, repeat or number
   * @param text one sentence
   */
  public record Difference(String number, String kind, String text) {}

  /**
   * A musical number.
   *
   * @param bars how many it has here
   * @param otherBars how many it has in the other book
   * @param same every bar is called the same in both
   * @param stretches in order
   */
  public record Row(
      String number,
      String title,
      int bars,
      int otherBars,
      boolean same,
      List<Stretch> stretches) {}

  /**
   * Bars that stand alike in both.
   *
   * @param how same, otherwise, unsure, only-here or only-there
   * @param first what the first is called here; absent where this book has none of them
   * @param last likewise
   * @param otherFirst what the first is called in the other book; absent where it has none of them
   * @param otherLast likewise
   * @param bars how many here
   * @param otherBars how many in the other book
   */
  @JsonInclude(JsonInclude.Include.NON_ABSENT)
  public record Stretch(
      String how,
      Optional<String> first,
      Optional<String> last,
      Optional<String> otherFirst,
      Optional<String> otherLast,
      int bars,
      int otherBars) {}

  /**
   * Makes the table of two parts.
   *
   * @param here the map of this one
   * @param there the map of the other
   */
  public static AlignTable of(TwoParts parts, BarMap here, BarMap there) {
    boolean list = DirectorList.isList(here) || DirectorList.isList(there);
    return new AlignTable(
        parts.numbers().stream().map(AlignTable::row).toList(),
        parts.onlyHere().stream().map(WrittenNumber::label).toList(),
        parts.onlyThere().stream().map(WrittenNumber::label).toList(),
        parts.problems(),
        BookAlignment.compare(here, there).stream()
            .filter(d -> !list || !d.kind().equals("repeat"))
            .map(d -> new Difference(d.number(), d.kind(), d.text()))
            .toList());
  }

  /**
   * Returns the numbers whose bars are called otherwise in the other book, or not surely the same.
   */
  public static List<Row> otherwise(TwoParts parts) {
    return parts.numbers().stream().map(AlignTable::row).filter(r -> !r.same()).toList();
  }

  private static Row row(NumberPair pair) {
    List<Stretch> stretches = new ArrayList<>();
    for (NumberPair.Stretch s : pair.stretches()) {
      stretches.add(
          new Stretch(
              s.how().name().toLowerCase(Locale.ROOT).replace('_', '-'),
              name(pair.here(), s.here(), s.bars()),
              name(pair.here(), s.here() + s.bars() - 1, s.bars()),
              name(pair.there(), s.there(), s.otherBars()),
              name(pair.there(), s.there() + s.otherBars() - 1, s.otherBars()),
              s.bars(),
              s.otherBars()));
    }
    boolean same = stretches.stream().allMatch(s -> s.how().equals("same"));
    return new Row(
        pair.here().label(),
        pair.here().title(),
        pair.here().slots(),
        pair.there().slots(),
        same,
        List.copyOf(stretches));
  }

  private static Optional<String> name(WrittenNumber number, int slot, int bars) {
    return bars > 0 ? Optional.of(number.nameAt(slot)) : Optional.empty();
  }
}
