package org.barmap.exchange.musicxml.book;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.map.Bar;
import org.barmap.map.Barline;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Word;

/**
 * The musical numbers of a book: where words say "No. 7 Low Tide", or where bar numbers begin
 * again. A file that says neither has one number if it names a movement, and none if not.
 */
final class Headings {
  /** A letter that stands apart belongs to the number unless a word follows: "No. 4 A Boat". */
  private static final Pattern NUMBER =
      Pattern.compile(
          "(?:No|Nr|Number|#)\\.?\\s*(\\d{1,3})"
              + "([A-Z]|\\s+[A-Z](?=\\s*(?:[.:,;)](?:\\s|$)|$)|\\s+[\\u2013\\u2014-]\\s))?"
              + "(?![\\p{L}\\d])[\\s.:,;)\\u2013\\u2014-]*(.{0,120})",
          Pattern.CASE_INSENSITIVE);

  /** What is drawn where a number ends; before one that follows at once often a double barline. */
  private static final Set<Barline> ENDS = EnumSet.of(Barline.FINAL, Barline.DOUBLE);

  private final List<Bar> bars;
  private final List<MusicalNumber> numbers = new ArrayList<>();
  private final List<Integer> unnamed = new ArrayList<>();

  private Headings(List<Bar> bars) {
    this.bars = new ArrayList<>(bars);
  }

  /** The bars without their headings, the numbers, and the entries where one was only inferred. */
  record Found(List<Bar> bars, List<MusicalNumber> numbers, List<Integer> unnamed) {}

  /** A number's label and title. */
  private record Title(String label, String title) {}

  static Found of(List<Bar> bars, List<Boolean> restarts, Titles titles) {
    Headings headings = new Headings(bars);
    for (int i = 0; i < bars.size(); i++) {
      // such a barline ends a number also where bars are counted through the show
      boolean may =
          i == 0
              || restarts.get(i)
              || bars.get(i).number() <= 1 && bars.get(i).label().isEmpty()
              || ENDS.contains(bars.get(i - 1).endBarline());
      Optional<Title> said = may ? headings.take(i) : Optional.empty();
      if (said.isPresent()) {
        headings.begin(i, said.get());
      } else if (i > 0 && restarts.get(i)) {
        if (headings.numbers.isEmpty()) {
          headings.begin(0, new Title(titles.label().orElse("1"), titles.movement()));
        }
        headings.begin(i, new Title(Integer.toString(headings.numbers.size() + 1), ""));
        headings.unnamed.add(i);
      }
    }
    if (headings.numbers.isEmpty()
        && (titles.label().isPresent() || !titles.movement().isEmpty())) {
      headings.begin(0, new Title(titles.label().orElse("1"), titles.movement()));
    }
    headings.close(bars.size() - 1);
    return new Found(headings.bars, headings.numbers, headings.unnamed);
  }

  private Optional<Title> take(int i) {
    Bar bar = bars.get(i);
    for (Word word : bar.words()) {
      Matcher m = NUMBER.matcher(word.text());
      if (m.matches()) {
        List<Word> rest = new ArrayList<>(bar.words());
        rest.remove(word);
        bars.set(i, bar.toBuilder().words(rest).build());
        String letter = m.group(2) == null ? "" : m.group(2).strip();
        return Optional.of(new Title(m.group(1) + letter, m.group(3).strip()));
      }
    }
    return Optional.empty();
  }

  private void begin(int i, Title title) {
    if (numbers.isEmpty() && i > 0) {
      Optional<String> first = Optional.of(bars.get(0).id());
      numbers.add(new MusicalNumber("before " + title.label, "", first, first, false));
    }
    close(i - 1);
    Optional<String> id = Optional.of(bars.get(i).id());
    numbers.add(new MusicalNumber(title.label, title.title, id, id, false));
  }

  private void close(int last) {
    if (!numbers.isEmpty() && last >= 0) {
      MusicalNumber open = numbers.get(numbers.size() - 1);
      numbers.set(
          numbers.size() - 1, open.withBars(open.firstBar(), Optional.of(bars.get(last).id())));
    }
  }
}
