package org.barmap.reckon.write;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.map.Evidence;
import org.barmap.map.Finding.Answer;

/**
 * A rest that is longer or shorter in a second reading than its numeral on the page says.
 *
 * @param text what either has
 * @param answers the page's first
 */
public record SecondDifference(String text, List<Answer> answers) {

  static final String CODE = "second-differs";

  /** The answer that leaves the map as it is. */
  public static final Answer PAGE = new Answer("The page is right", Map.of());

  /** What differs at an entry; it goes with the count that is settled for the entry. */
  static Optional<SecondDifference> at(Item item) {
    Bar bar = item.bar();
    if (!item.open() || !bar.isRest()) {
      return Optional.empty();
    }
    int said = bar.evidence().flatMap(Evidence::second).map(Evidence.Second::count).orElse(0);
    int page = item.rest() ? item.readCount().orElse(0) : bar.count();
    boolean settled = bar.count() == page || bar.count() == said;
    if (said == 0 || page == 0 || page == said || !settled) {
      // a rest without a numeral, or one that the numbers around it bend: asked as such
      return Optional.empty();
    }
    String now = bar.count() == page ? "" : " It counts as " + said + " for now.";
    String text =
        "The second reading has "
            + FindingWriter.bars(said)
            + " here, the page "
            + FindingWriter.bars(page)
            + "."
            + now;
    Answer stays = bar.count() == page ? PAGE : FindingWriter.isCount(bar, page);
    return Optional.of(
        new SecondDifference(text, List.of(stays, FindingWriter.isCount(bar, said))));
  }
}
