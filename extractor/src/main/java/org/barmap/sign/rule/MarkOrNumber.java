package org.barmap.sign.rule;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.Enclosure;
import org.barmap.sign.kind.Folio;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.set.NumberSettings;
import org.barmap.sign.set.SignSettings;

/**
 * Tells boxed bar numbers from rehearsal marks by what else the page shows; both may be boxed
 * numbers.
 */
public final class MarkOrNumber {

  private static final NumberSettings.Order SET = SignSettings.STANDARD.number().order();

  private MarkOrNumber() {}

  /** Settles the signs of a page, given and returned by system. */
  public static List<List<Sign>> settle(List<List<Sign>> page) {
    List<List<Sign>> systems = MarkBySize.settle(withoutFolio(page, folioSign(page)));
    boolean numbered = linesAreNumbered(systems);
    Enclosure style = style(systems);
    List<List<Sign>> settled = new ArrayList<>();
    int from = 0;
    for (int i = 0; i < systems.size(); i++) {
      // Another musical number may mark its bars in another way.
      if (i + 1 == systems.size() || has(systems.get(i + 1), SignKind.HEADING)) {
        List<List<Sign>> part = systems.subList(from, i + 1);
        boolean lettered = part.stream().flatMap(List::stream).anyMatch(MarkOrNumber::isLetter);
        boolean fives = countsByFives(part.stream().flatMap(List::stream).toList());
        for (List<Sign> s : part) {
          settled.add(
              system(s, systems, new Habit(numbered, lettered, style)).stream()
                  .map(n -> fives && isBareNumber(n) ? n.as(SignKind.BAR_NUMBER) : n)
                  .toList());
        }
        from = i + 1;
      }
    }
    return settled;
  }

  /** Returns the page's own number where one was seen; {@link #settle} leaves it out. */
  public static Optional<Folio> folio(List<List<Sign>> page) {
    return folioSign(page)
        .map(
            s ->
                new Folio(
                    Integer.parseInt(s.text()),
                    s.probability() * s.readings().get(0).probability()))
        .filter(f -> f.number() > 0);
  }

  /**
   * The page's own number stands bare, high over the first staff, and out of the order in which
   * marks follow each other.
   */
  private static Optional<Sign> folioSign(List<List<Sign>> page) {
    List<Sign> numbers =
        page.stream().flatMap(List::stream).filter(MarkOrNumber::isBareNumber).toList();
    if (numbers.size() < 2 || !page.get(0).contains(numbers.get(0))) {
      return Optional.empty();
    }
    Sign first = numbers.get(0);
    boolean folio =
        first.probability() < SET.faint()
            && first.bottom() < SET.high()
            && Integer.parseInt(first.text()) > Integer.parseInt(numbers.get(1).text());
    return folio ? Optional.of(first) : Optional.empty();
  }

  private static List<List<Sign>> withoutFolio(List<List<Sign>> page, Optional<Sign> folio) {
    return folio.isEmpty()
        ? page
        : page.stream().map(l -> l.stream().filter(s -> !s.equals(folio.get())).toList()).toList();
  }

  /**
   * How a page is numbered and marked.
   *
   * @param numbered whether its lines begin with numbers
   * @param lettered whether letters are its marks
   * @param style how those numbers are drawn
   */
  private record Habit(boolean numbered, boolean lettered, Enclosure style) {}

  private static List<Sign> system(List<Sign> signs, List<List<Sign>> page, Habit habit) {
    Enclosure style = habit.style;
    boolean hasNumber =
        signs.stream()
            .anyMatch(
                s -> s.kind() == SignKind.BAR_NUMBER && startsLine(s) && enclosure(s) == style);
    boolean framesAreMarks = habit.numbered && !habit.lettered && style == Enclosure.NONE;
    return signs.stream()
        .map(
            s -> {
              boolean lines =
                  habit.numbered
                      && !hasNumber
                      && startsLine(s)
                      && isDrawn(s, style)
                      && !MarkBySize.isLarge(s, page);
              boolean framed = s.kind() == SignKind.BAR_NUMBER && enclosure(s) != Enclosure.NONE;
              return isNumeric(s) && (habit.lettered || lines || beforeStaff(s))
                  ? s.as(SignKind.BAR_NUMBER)
                  : framed && framesAreMarks ? s.as(SignKind.REHEARSAL) : s;
            })
        .toList();
  }

  /**
   * How the numbers at the beginnings of lines are drawn, mostly; a frame that stands nowhere else
   * is theirs before one that does: it serves one purpose.
   */
  private static Enclosure style(List<List<Sign>> systems) {
    Map<Enclosure, Integer> starts = new EnumMap<>(Enclosure.class);
    Set<Enclosure> elsewhere = EnumSet.noneOf(Enclosure.class);
    for (Sign s : systems.stream().flatMap(List::stream).filter(MarkOrNumber::isNumber).toList()) {
      if (startsLine(s)) {
        starts.merge(enclosure(s), 1, Integer::sum);
      } else if (isNumeric(s)) {
        elsewhere.add(enclosure(s));
      }
    }
    Comparator<Map.Entry<Enclosure, Integer>> own =
        Comparator.comparing(
            e ->
                e.getKey() != Enclosure.NONE
                    && e.getValue() >= SET.framed()
                    && !elsewhere.contains(e.getKey()));
    return starts.entrySet().stream()
        .max(own.thenComparing(Map.Entry.comparingByValue()))
        .map(Map.Entry::getKey)
        .orElse(Enclosure.NONE);
  }

  /** A mark stands over a staff, never beside it. */
  static boolean beforeStaff(Sign s) {
    return s.to() < SET.beforeStaff() && s.bottom() > SET.overStaff();
  }

  static boolean startsLine(Sign s) {
    return s.from() < SET.lineStart();
  }

  private static Enclosure enclosure(Sign s) {
    return s.enclosure().orElse(Enclosure.NONE);
  }

  /** A circle that was not seen whole is none to the reader; a box is. */
  private static boolean isDrawn(Sign s, Enclosure style) {
    return enclosure(s) == style || style == Enclosure.CIRCLE && enclosure(s) == Enclosure.NONE;
  }

  private static boolean isNumber(Sign s) {
    return isNumeric(s) || s.kind() == SignKind.BAR_NUMBER;
  }

  /**
   * Every fifth or tenth bar numbered, without frames, is a habit of printers, not of rehearsal.
   */
  private static boolean countsByFives(List<Sign> signs) {
    List<Integer> numbers =
        signs.stream()
            .filter(MarkOrNumber::isBareNumber)
            .map(s -> Integer.parseInt(s.text()))
            .toList();
    for (int i = 1; i < numbers.size(); i++) {
      if ((numbers.get(i) - numbers.get(i - 1)) % SET.every() != 0) {
        return false;
      }
    }
    return numbers.size() > 2;
  }

  private static boolean isBareNumber(Sign s) {
    return s.text().matches("\\d{1,4}")
        && s.kind() == SignKind.REHEARSAL
        && enclosure(s) == Enclosure.NONE;
  }

  private static boolean linesAreNumbered(List<List<Sign>> systems) {
    int boxed = 0;
    for (List<Sign> signs : systems) {
      boolean starts = signs.stream().anyMatch(s -> isNumber(s) && startsLine(s));
      boxed += starts ? 1 : 0;
    }
    return systems.size() > SET.systems() && boxed >= SET.usual() * (systems.size() - 1);
  }

  static boolean isNumeric(Sign s) {
    return s.kind() == SignKind.REHEARSAL && s.text().matches("\\d+");
  }

  private static boolean isLetter(Sign s) {
    // I and O may be misread figures.
    return s.kind() == SignKind.REHEARSAL
        && s.probability() >= SET.letter()
        && s.text().matches("[A-HJ-NP-Z].?")
        && s.readings().get(0).probability() > SET.letterRead();
  }

  private static boolean has(List<Sign> signs, SignKind kind) {
    return signs.stream().anyMatch(s -> s.kind() == kind && s.probability() >= SET.heading());
  }
}
