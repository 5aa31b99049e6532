package org.barmap.exchange.chair;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.Enclosure;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Outline;
import org.barmap.map.Page;
import org.barmap.map.RehearsalMark;
import org.barmap.map.StaffSystem;

/**
 * A director's bar numbers as they are written down or read out, one line a musical number: {@code
 * 7 Low Tide: A 9, B 17, C 33, end 48}. Numbers begin with bar 1 unless the line says {@code start
 * 5}. What comes out is a bar map without pictures, so that it can be laid beside a part.
 */
public final class DirectorList {

  /** What its one page says it was made of. */
  private static final String SOURCE = "a list of bar numbers";

  private static final int MOST_BARS = 5000;
  private static final int MOST_LINES = 500;
  private static final double WIDTH = 1000;
  private static final double STEP = 100;
  private static final double SPACE = 10;

  private static final Pattern LINE =
      Pattern.compile("(?:(?i:no\\.?|number)\\s*)?([\\p{L}\\p{N}.-]{1,12})(?:\\s+([^:]*))?:(.*)");
  private static final Pattern ITEM =
      Pattern.compile(
          "(?:(?i:mark|letter)\\s+)?([\\p{L}\\p{N}']{1,12}?)"
              + "(?:\\s*=\\s*|\\s+(?:(?i:at|bar)\\s+)?|(?<!\\p{N}))(\\d{1,5})");

  /**
   * What was read.
   *
   * @param map empty where something could not be read
   * @param problems what, one sentence a line
   */
  public record Read(Optional<BarMap> map, List<String> problems) {
    /** Takes a defensive copy. */
    public Read {
      problems = List.copyOf(problems);
    }
  }

  private final List<Bar> bars = new ArrayList<>();
  private final List<MusicalNumber> numbers = new ArrayList<>();
  private final List<StaffSystem> systems = new ArrayList<>();
  private final List<String> problems = new ArrayList<>();

  private DirectorList() {}

  /**
   * Reads a list.
   *
   * @param title of the show
   * @param whose what the part is called, "Director"
   */
  public static Read read(String text, String title, String whose) {
    DirectorList list = new DirectorList();
    List<String> lines = text.lines().map(String::strip).filter(l -> !l.isEmpty()).toList();
    lines.stream().limit(MOST_LINES).forEach(list::line);
    if (lines.size() > MOST_LINES) {
      list.problems.add("A list has at most " + MOST_LINES + " lines.");
    } else if (list.numbers.isEmpty() && list.problems.isEmpty()) {
      list.problems.add("The list is empty. Write one line a number: 7: A 9, B 17, end 48");
    }
    return list.problems.isEmpty()
        ? new Read(Optional.of(list.map(title, whose)), List.of())
        : new Read(Optional.empty(), list.problems);
  }

  private void line(String line) {
    Matcher m = LINE.matcher(line);
    if (!m.matches()) {
      problems.add("\"" + clip(line) + "\" is not read: write 7: A 9, B 17, end 48");
      return;
    }
    TreeMap<Integer, String> marks = new TreeMap<>();
    int start = 1;
    int end = 0;
    for (String item : m.group(3).split("[,;]")) {
      Matcher one = ITEM.matcher(item.strip());
      if (!one.matches()) {
        problems.add(
            "No. " + m.group(1) + ": \"" + clip(item.strip()) + "\" is no mark with a bar");
        return;
      }
      int bar = Integer.parseInt(one.group(2));
      switch (one.group(1).toLowerCase(java.util.Locale.ROOT)) {
        case "start" -> start = bar;
        case "end", "last" -> end = bar;
        default -> {
          if (marks.put(bar, one.group(1)) != null) {
            problems.add("No. " + m.group(1) + " has two marks at bar " + bar);
            return;
          }
        }
      }
    }
    add(m.group(1), Optional.ofNullable(m.group(2)).orElse("").strip(), marks, start, end);
  }

  private void add(String label, String title, TreeMap<Integer, String> marks, int start, int end) {
    if (end < start) {
      problems.add("No. " + label + ": say at which bar it ends, as in: end 48");
    } else if (!marks.isEmpty() && (marks.firstKey() < start || marks.lastKey() > end)) {
      problems.add("No. " + label + " has a mark outside bars " + start + " to " + end);
    } else if (bars.size() + end - start >= MOST_BARS) {
      problems.add("A list has at most " + MOST_BARS + " bars.");
    } else if (numbers.stream().anyMatch(n -> n.label().equals(label))) {
      problems.add("No. " + label + " is there twice");
    } else {
      lay(label, title, marks, start, end);
    }
  }

  private void lay(String label, String title, TreeMap<Integer, String> marks, int start, int end) {
    int system = systems.size() + 1;
    double top = STEP * system;
    Outline staff = Outline.box(0, top, WIDTH, top + 4 * SPACE);
    systems.add(new StaffSystem(system, staff, SPACE, Optional.empty(), 1, List.of()));
    int many = end - start + 1;
    String first = "b" + (bars.size() + 1);
    for (int i = 0; i < many; i++) {
      Optional<String> mark = Optional.ofNullable(marks.get(start + i));
      Outline place = staff.slice((double) i / many, (i + 1.0) / many).rounded();
      bars.add(
          Bar.builder("b" + (bars.size() + 1), 1, system, place)
              .number(start + i)
              .rehearsal(mark.map(text -> new RehearsalMark(text, Enclosure.BOX)))
              .build());
    }
    Optional<String> last = Optional.of("b" + bars.size());
    numbers.add(new MusicalNumber(label, title, Optional.of(first), last, false));
  }

  private BarMap map(String title, String whose) {
    int height = (int) (STEP * (systems.size() + 1));
    Page page = new Page(1, SOURCE, (int) WIDTH, height, systems);
    return BarMap.of(new Book(title, whose), List.of(page), numbers, bars);
  }

  /** Tells whether a map came from such a list, which says nothing of repeats. */
  static boolean isList(BarMap map) {
    return map.pages().size() == 1 && map.pages().get(0).source().equals(SOURCE);
  }

  private static String clip(String text) {
    return text.length() > 40 ? text.substring(0, 40) + "\u2026" : text;
  }
}
