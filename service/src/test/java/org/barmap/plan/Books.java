package org.barmap.plan;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.barmap.map.Bar;
import org.barmap.map.BarBuilder;
import org.barmap.map.BarMap;
import org.barmap.map.Barline;
import org.barmap.map.Book;
import org.barmap.map.Content;
import org.barmap.map.Enclosure;
import org.barmap.map.Key;
import org.barmap.map.Meter;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Navigation;
import org.barmap.map.Outline;
import org.barmap.map.Page;
import org.barmap.map.Placement;
import org.barmap.map.RehearsalMark;
import org.barmap.map.StaffSystem;
import org.barmap.map.Word;

/**
 * Bar maps written as one line of text, for tests.
 *
 * <p>One token a bar entry: {@code |:1} repeat start, {@code 4:|} repeat end, {@code :|x3} played
 * three times, {@code 2/1,2} under endings 1 and 2, then signs behind {@code @}: segno, coda, to,
 * fine, dc, ds, fermata, caesura, rest, mr8 (multi-bar rest), p3 and s2 (page and system from here
 * on), mA (rehearsal mark), 6/8 (meter from here on), k-3 (key from here on, three flats), ss1 and
 * se2 (silent beats at its start and end), l24A (label), n0 (bar number), x3 (played three times),
 * w:in_two (words). {@code %7} starts No. 7.
 */
public final class Books {
  private final List<Bar> bars = new ArrayList<>();
  private final List<MusicalNumber> numbers = new ArrayList<>();
  private String label = "";
  private int page = 1;
  private int system = 1;
  private int number = 1;
  private Optional<Meter> meter = Optional.of(new Meter(4, 4, true));
  private Optional<Key> key = Optional.empty();

  private Books() {}

  /** Returns a book of one or more numbers. */
  public static BarMap book(String text) {
    Books book = new Books();
    for (String token : text.strip().split("\\s+")) {
      if (token.startsWith("%")) {
        book.begin(token.substring(1));
      } else {
        book.bar(token);
      }
    }
    close(book.numbers, book.label, book.bars);
    return BarMap.of(
        new Book("Saltmarsh", "Double Bass"), pages(book.bars), book.numbers, book.bars);
  }

  private void begin(String newLabel) {
    close(numbers, label, bars);
    label = newLabel;
    numbers.add(new MusicalNumber(label, "", Optional.empty(), Optional.empty(), false));
    number = 1;
    key = Optional.empty();
  }

  private void bar(String token) {
    String[] parts = token.split("@");
    String head = parts[0];
    boolean end = head.contains(":|");
    String endText = end ? head.substring(head.indexOf(":|") + 2) : "";
    String name = head.replace("|:", "").replaceAll(":\\|.*", "");
    List<Integer> endings = List.of();
    if (name.contains("/")) {
      endings =
          Arrays.stream(name.substring(name.indexOf('/') + 1).split(","))
              .map(Integer::valueOf)
              .toList();
      name = name.substring(0, name.indexOf('/'));
    }
    BarBuilder b = Bar.builder("b" + name, page, system, Outline.box(0, 0, 10, 10));
    b.ending(endings);
    b.startBarline(head.startsWith("|:") ? Barline.REPEAT_START : Barline.NONE);
    b.endBarline(end ? Barline.REPEAT_END : Barline.SINGLE);
    if (endText.startsWith("x")) {
      b.times(Integer.valueOf(endText.substring(1)));
    }
    List<Navigation> signs = new ArrayList<>();
    int count = 1;
    for (String part : Arrays.asList(parts).subList(1, parts.length)) {
      if (part.matches("mr\\d+")) {
        count = Integer.parseInt(part.substring(2));
        b.content(Content.MULTI_REST);
      } else if (!holdsOn(part) && !ofTheBar(part, b)) {
        signs.add(sign(part));
      }
    }
    b.page(page).system(system).number(number).count(count).signs(signs);
    b.meter(meter).key(key);
    key = key.map(k -> k.withPrinted(false));
    meter = meter.map(m -> m.withPrinted(false));
    number += count;
    bars.add(b.build());
    if (!numbers.isEmpty() && numbers.get(numbers.size() - 1).firstBar().isEmpty()) {
      Optional<String> id = Optional.of("b" + name);
      numbers.set(numbers.size() - 1, new MusicalNumber(label, "", id, id, false));
    }
  }

  /** Takes what holds from a bar on; false when it is something else. */
  private boolean holdsOn(String part) {
    if (part.matches("p\\d+")) {
      page = Integer.parseInt(part.substring(1));
      system = 1;
    } else if (part.matches("s\\d+")) {
      system = Integer.parseInt(part.substring(1));
    } else if (part.matches("\\d+/\\d+")) {
      String[] figures = part.split("/");
      meter =
          Optional.of(new Meter(Integer.parseInt(figures[0]), Integer.parseInt(figures[1]), true));
    } else if (part.matches("k-?\\d")) {
      key = Optional.of(new Key(Integer.parseInt(part.substring(1)), true));
    } else if (part.matches("n\\d+")) {
      number = Integer.parseInt(part.substring(1));
    } else {
      return false;
    }
    return true;
  }

  /** Takes what belongs to one bar; false when it is something else. */
  private boolean ofTheBar(String part, BarBuilder b) {
    if (part.equals("rest")) {
      b.content(Content.REST);
    } else if (part.startsWith("w:")) {
      List<Word> words = new ArrayList<>(b.build().words());
      words.add(new Word(part.substring(2).replace('_', ' '), Placement.ABOVE, Optional.empty()));
      b.words(words);
    } else if (part.matches("ss[\\d.]+")) {
      b.silentStart(Double.valueOf(part.substring(2)));
    } else if (part.matches("se[\\d.]+")) {
      b.silentEnd(Double.valueOf(part.substring(2)));
    } else if (part.matches("l\\w+")) {
      b.label(part.substring(1));
      number--;
    } else if (part.matches("x\\d+")) {
      b.times(Integer.valueOf(part.substring(1)));
    } else if (part.matches("m\\w+")) {
      b.rehearsal(new RehearsalMark(part.substring(1), Enclosure.BOX));
    } else {
      return false;
    }
    return true;
  }

  private static void close(List<MusicalNumber> numbers, String label, List<Bar> bars) {
    if (numbers.isEmpty() || numbers.get(numbers.size() - 1).firstBar().isEmpty()) {
      return;
    }
    MusicalNumber open = numbers.get(numbers.size() - 1);
    numbers.set(
        numbers.size() - 1,
        new MusicalNumber(
            label, "", open.firstBar(), Optional.of(bars.get(bars.size() - 1).id()), false));
  }

  private static Navigation sign(String word) {
    return switch (word) {
      case "to" -> Navigation.TO_CODA;
      case "dc" -> Navigation.DA_CAPO;
      case "ds" -> Navigation.DAL_SEGNO;
      default -> Navigation.valueOf(word.toUpperCase(Locale.ROOT));
    };
  }

  private static List<Page> pages(List<Bar> bars) {
    TreeMap<Integer, Integer> systems = new TreeMap<>();
    bars.forEach(b -> systems.merge(b.page(), b.system(), Math::max));
    List<Page> pages = new ArrayList<>();
    systems.forEach(
        (page, most) ->
            pages.add(
                new Page(
                    page,
                    "page-" + page + ".png",
                    100,
                    100,
                    IntStream.rangeClosed(1, most)
                        .mapToObj(
                            s ->
                                new StaffSystem(
                                    s,
                                    Outline.box(0, 0, 100, 10),
                                    2.5,
                                    Optional.empty(),
                                    1,
                                    List.of()))
                        .toList())));
    return pages;
  }

  /**
   * Writes bars {@code first..last} as tokens; what is given stands before the first and behind the
   * last of them.
   */
  public static String run(String before, int first, int last, String after) {
    return IntStream.rangeClosed(first, last)
        .mapToObj(i -> (i == first ? before : "") + i + (i == last ? after : ""))
        .collect(Collectors.joining(" ", "", " "));
  }

  /** Returns the names of the bars in the order they sound, without their leading "b". */
  public static String order(Plan plan) {
    return plan.numbers().stream()
        .flatMap(n -> n.order().stream())
        .map(e -> e.inserted().orElse(e.bar().substring(1)))
        .collect(Collectors.joining(" "));
  }
}
