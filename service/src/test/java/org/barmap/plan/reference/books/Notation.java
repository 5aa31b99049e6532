package org.barmap.plan.reference.books;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
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

/** Books in one line of text; the notation is described at the head of {@code cases.txt}. */
public final class Notation {

  private static final Pattern BAR =
      Pattern.compile(
          "(?:\\((?<mark>[^)]+)\\))?(?<rest>R)?(?<number>\\d+)(?<label>[A-Z]?)(?:-(?<to>\\d+))?"
              + "(?:\\*(?<count>\\d+))?(?<more>.*)");
  private static final Pattern MORE =
      Pattern.compile(
          "@(?<sign>segno|coda|fine|dc|ds|tocoda|fermata|caesura)|x(?<times>\\d+)|<(?<angle>[^>]+)>|\\{(?<words>[^}]*)}");

  /** The book's part, the instrument before any word. */
  static final String PART = "Double Bass";

  private final List<Bar> bars = new ArrayList<>();
  private final List<Page> pages = new ArrayList<>();
  private final List<MusicalNumber> numbers = new ArrayList<>();
  private Optional<String> label = Optional.empty();
  private boolean tacet;
  private int firstOfNumber;
  private List<Integer> ending = List.of();
  private Optional<Meter> meter = Optional.empty();
  private Optional<Key> key = Optional.empty();
  private Barline pendingStart = Barline.NONE;
  private int system = 1;

  private Notation() {}

  /** Returns the book a text writes. */
  public static BarMap book(String text) {
    Notation notation = new Notation();
    for (String token : text.strip().split("\\s+")) {
      notation.token(token);
    }
    notation.endNumber();
    notation.endPage();
    return BarMap.of(new Book("Small", PART), notation.pages, notation.numbers, notation.bars);
  }

  private void token(String token) {
    switch (token) {
      case "|:" -> line(Barline.REPEAT_START);
      case ":|:" -> line(Barline.REPEAT_BOTH);
      case "||" -> line(Barline.DOUBLE);
      case "]" -> ending = List.of();
      case "/" -> system++;
      case "//" -> endPage();
      default -> {
        if (token.startsWith(":|")) {
          line(Barline.REPEAT_END);
          if (token.length() > 2) {
            int times = Integer.parseInt(token.substring(2));
            bars.set(bars.size() - 1, last().times(Integer.valueOf(times)).build());
          }
        } else if (token.startsWith("[")) {
          ending = Arrays.stream(token.substring(1).split(",")).map(Integer::valueOf).toList();
        } else if (token.startsWith("No.")) {
          endNumber();
          tacet = token.endsWith("!");
          label = Optional.of(token.substring(3).replace("!", ""));
        } else {
          bars(token);
        }
      }
    }
  }

  private void endPage() {
    List<StaffSystem> systems = new ArrayList<>();
    for (int k = 1; k <= system; k++) {
      Outline staff = Outline.box(0, k * 50.0, 1000, k * 50.0 + 20);
      systems.add(new StaffSystem(k, staff, 5, Optional.empty(), 1, List.of()));
    }
    int index = pages.size() + 1;
    pages.add(new Page(index, "page-" + index + ".png", 1000, 100 + 50 * system, systems));
    system = 1;
  }

  /** Whether the next bar begins a line of music or a number. */
  private boolean beginsLine() {
    if (bars.size() == firstOfNumber) {
      return true;
    }
    Bar before = bars.get(bars.size() - 1);
    return before.system() != system || before.page() != pages.size() + 1;
  }

  private BarBuilder last() {
    return bars.get(bars.size() - 1).toBuilder();
  }

  /** A barline: the end of the bar before it in mid-line, the start of the next in a new line. */
  private void line(Barline line) {
    boolean newLine = beginsLine();
    boolean start = line == Barline.REPEAT_START;
    if (newLine && start) {
      pendingStart = line;
    } else if (!start || bars.get(bars.size() - 1).endBarline() != Barline.REPEAT_END) {
      bars.set(bars.size() - 1, last().endBarline(line).build());
    } else {
      bars.set(bars.size() - 1, last().endBarline(Barline.REPEAT_BOTH).build());
    }
  }

  private void bars(String token) {
    Matcher bar = BAR.matcher(token);
    if (!bar.matches()) {
      throw new IllegalArgumentException("no bar: " + token);
    }
    int from = Integer.parseInt(bar.group("number"));
    int to = bar.group("to") == null ? from : Integer.parseInt(bar.group("to"));
    if (to > from && !bar.group("more").isEmpty()) {
      throw new IllegalArgumentException("a stretch with signs: " + token);
    }
    for (int number = from; number <= to; number++) {
      boolean first = number == from;
      bars.add(
          bar(
              number,
              first && bar.group("mark") != null ? bar.group("mark") : "",
              bar.group("label").isEmpty() ? "" : number + bar.group("label"),
              bar.group("rest") == null ? 0 : Integer.parseInt(bar.group("count")),
              first ? bar.group("more") : ""));
    }
  }

  private Bar bar(int number, String mark, String label, int rest, String more) {
    BarBuilder bar =
        Bar.builder("b" + (bars.size() + 1), pages.size() + 1, system, Outline.box(0, 0, 10, 10))
            .number(number)
            .ending(ending)
            .startBarline(start());
    pendingStart = Barline.NONE;
    if (rest > 0) {
      bar.count(rest).content(rest == 1 ? Content.REST : Content.MULTI_REST);
    }
    if (!mark.isEmpty()) {
      bar.rehearsal(new RehearsalMark(mark, Enclosure.BOX));
    }
    if (!label.isEmpty()) {
      bar.label(label);
    }
    decorate(bar, more);
    Bar built = bar.meter(meter).key(key).build();
    meter = meter.map(m -> m.withPrinted(false));
    key = key.map(k -> k.withPrinted(false));
    return built;
  }

  private Barline start() {
    boolean newLine = beginsLine();
    return newLine ? pendingStart : bars.get(bars.size() - 1).endBarline();
  }

  private void decorate(BarBuilder bar, String more) {
    List<Navigation> signs = new ArrayList<>();
    List<Word> words = new ArrayList<>();
    Matcher part = MORE.matcher(more);
    while (part.find()) {
      if (part.group("sign") != null) {
        signs.add(sign(part.group("sign")));
      } else if (part.group("times") != null) {
        bar.times(Integer.valueOf(part.group("times")));
      } else if (part.group("words") != null) {
        String text = part.group("words").replace('_', ' ');
        words.add(new Word(text, Placement.ABOVE, Optional.empty()));
      } else if (part.group("angle").startsWith("k")) {
        key = Optional.of(new Key(Integer.parseInt(part.group("angle").substring(1)), true));
      } else {
        String[] figures = part.group("angle").split("/");
        meter =
            Optional.of(
                new Meter(Integer.parseInt(figures[0]), Integer.parseInt(figures[1]), true));
      }
    }
    bar.signs(signs).words(words);
  }

  private static Navigation sign(String said) {
    return switch (said) {
      case "segno" -> Navigation.SEGNO;
      case "coda" -> Navigation.CODA;
      case "fine" -> Navigation.FINE;
      case "dc" -> Navigation.DA_CAPO;
      case "ds" -> Navigation.DAL_SEGNO;
      case "tocoda" -> Navigation.TO_CODA;
      case "fermata" -> Navigation.FERMATA;
      case "caesura" -> Navigation.CAESURA;
      default -> throw new IllegalArgumentException("no sign: " + said);
    };
  }

  private void endNumber() {
    if (label.isPresent() || bars.size() > firstOfNumber) {
      boolean empty = bars.size() == firstOfNumber;
      numbers.add(
          new MusicalNumber(
              label.orElse("1"),
              "",
              empty ? Optional.empty() : Optional.of(bars.get(firstOfNumber).id()),
              empty ? Optional.empty() : Optional.of(bars.get(bars.size() - 1).id()),
              tacet));
      system += bars.isEmpty() ? 0 : 1;
    }
    firstOfNumber = bars.size();
    key = Optional.empty();
    meter = meter.map(m -> m.withPrinted(false));
    tacet = false;
  }
}
