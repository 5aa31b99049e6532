package org.barmap.reckon;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.map.Evidence;
import org.barmap.map.Finding.Answer;
import org.barmap.map.Point;

/**
 * A place where a second reading has another number of bars than the page.
 *
 * @param text what either has
 * @param answers the page's first
 */
record SecondDifference(String text, List<Answer> answers) {

  static final String CODE = "second-differs";

  private static final Answer PAGE = new Answer("The page is right", Map.of());

  /**
   * What differs at an entry; bars that the second reading lacks in a row are told at the first.
   *
   * @param items all entries
   * @param i which of them
   */
  static Optional<SecondDifference> at(List<Item> items, int i) {
    Item item = items.get(i);
    Optional<Evidence.Second> second = second(item);
    if (!item.open() || second.isEmpty()) {
      return Optional.empty();
    }
    int said = second.get().count();
    Bar bar = item.bar();
    if (said == 0) {
      return lacking(items, i);
    }
    int page = item.rest() ? item.readCount().orElse(0) : bar.count();
    boolean settled = bar.count() == page || bar.count() == said;
    if (page == 0 || page == said || !settled) {
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
    if (!bar.isRest()) {
      return Optional.of(new SecondDifference(text, List.of(PAGE, split(bar))));
    }
    Answer stays = bar.count() == page ? PAGE : FindingWriter.isCount(bar, page);
    return Optional.of(
        new SecondDifference(text, List.of(stays, FindingWriter.isCount(bar, said))));
  }

  private static Optional<SecondDifference> lacking(List<Item> items, int i) {
    if (i > 0 && lacks(items.get(i - 1))) {
      return Optional.empty();
    }
    int end = i + 1;
    while (end < items.size() && lacks(items.get(end))) {
      end++;
    }
    Bar bar = items.get(i).bar();
    if (end == i + 1) {
      String text =
          "The second reading has no such "
              + (bar.count() == 1 ? "bar." : "rest; the page has " + bar.count() + " bars.");
      Answer other = new Answer("It is no bar of its own", FindingWriter.joined(bar));
      return Optional.of(new SecondDifference(text, List.of(PAGE, other)));
    }
    int bars = items.subList(i, end).stream().mapToInt(x -> x.bar().count()).sum();
    String text =
        "The second reading lacks the "
            + bars
            + " bars from here to "
            + (items.get(end - 1).bar().nextNumber() - 1)
            + ".";
    return Optional.of(new SecondDifference(text, List.of(PAGE)));
  }

  private static boolean lacks(Item item) {
    return item.open() && second(item).filter(s -> s.count() == 0).isPresent();
  }

  private static Optional<Evidence.Second> second(Item item) {
    return item.bar().evidence().flatMap(Evidence::second);
  }

  private static Answer split(Bar bar) {
    Point left = bar.outline().leftMiddle();
    Point right = bar.outline().rightMiddle();
    Point middle = new Point((left.x() + right.x()) / 2, (left.y() + right.y()) / 2);
    return FindingWriter.isBarline("A barline is missing here", bar, middle);
  }
}
