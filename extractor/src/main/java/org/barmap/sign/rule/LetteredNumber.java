package org.barmap.sign.rule;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalInt;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.set.NumberSettings;
import org.barmap.sign.set.SignSettings;

/**
 * Bars put in later are called after the one before them, "23A", "23B" (common practice). The
 * network takes that for words; it is a bar's number where the numbers around it leave room for it.
 */
public final class LetteredNumber {

  private static final NumberSettings.Lettered SET = SignSettings.STANDARD.number().lettered();

  private static final Pattern LETTERED = Pattern.compile("(\\d{1,4})[A-H]");

  private LetteredNumber() {}

  /**
   * Settles the signs of a page whose numbers are settled.
   *
   * @param page its signs by system, from top to bottom
   * @return the same signs in the same order, lettered numbers among the words as bar numbers
   */
  public static List<List<Sign>> settle(List<List<Sign>> page) {
    List<List<Sign>> settled = new ArrayList<>(page);
    OptionalInt before = OptionalInt.empty();
    for (int i = 0; i < page.size(); i++) {
      List<Sign> signs = new ArrayList<>(page.get(i));
      if (signs.stream().anyMatch(s -> s.kind() == SignKind.HEADING)) {
        // another musical number counts anew
        before = OptionalInt.empty();
      }
      for (Sign s : alongStaff(signs)) {
        OptionalInt own = own(s);
        boolean fits = own.isPresent() && fits(own.getAsInt(), before, after(page, i, s));
        if (fits) {
          signs.set(signs.indexOf(s), s.as(SignKind.BAR_NUMBER));
        }
        before = fits ? own : counts(s) ? OptionalInt.of(Integer.parseInt(s.text())) : before;
      }
      settled.set(i, List.copyOf(signs));
    }
    return List.copyOf(settled);
  }

  private static List<Sign> alongStaff(List<Sign> signs) {
    return signs.stream().sorted(Comparator.comparingDouble(Sign::at)).toList();
  }

  /** The number a word over the staff names with a letter behind it. */
  private static OptionalInt own(Sign s) {
    Matcher m = LETTERED.matcher(s.text());
    boolean over = s.kind() == SignKind.WORD && s.bottom() < SET.overStaff();
    return over && m.matches() && s.readings().get(0).probability() >= SET.read()
        ? OptionalInt.of(Integer.parseInt(m.group(1)))
        : OptionalInt.empty();
  }

  private static boolean fits(int own, OptionalInt before, OptionalInt after) {
    return before.isPresent()
        && own >= before.getAsInt()
        && own <= before.getAsInt() + SET.ahead()
        && own <= after.orElse(own);
  }

  /** The next plain number printed behind a sign, before another musical number begins. */
  private static OptionalInt after(List<List<Sign>> page, int system, Sign sign) {
    for (int i = system; i < page.size(); i++) {
      boolean here = i == system;
      if (!here && page.get(i).stream().anyMatch(s -> s.kind() == SignKind.HEADING)) {
        return OptionalInt.empty();
      }
      for (Sign s : alongStaff(page.get(i))) {
        if (counts(s) && (!here || s.at() > sign.at())) {
          return OptionalInt.of(Integer.parseInt(s.text()));
        }
      }
    }
    return OptionalInt.empty();
  }

  private static boolean counts(Sign s) {
    return (s.kind() == SignKind.BAR_NUMBER || s.kind() == SignKind.REHEARSAL)
        && s.text().matches("\\d{1,4}");
  }
}
