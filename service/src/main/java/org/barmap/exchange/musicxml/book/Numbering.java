package org.barmap.exchange.musicxml.book;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.map.SecondReading.Measure;

/**
 * Bar numbers of the measures of a part. A measure's number is any token: what is no whole number
 * is a label ("23A", "X1") and has the number of the bar it follows; one that is not displayed and
 * no whole number goes on with the bar before it.
 */
final class Numbering {
  private static final Pattern WHOLE = Pattern.compile("\\d{1,6}");
  private static final Pattern LETTERED = Pattern.compile("(\\d{1,6})\\s*\\p{L}.{0,6}");
  private static final int MOST = 100_000;

  private Numbering() {}

  /**
   * What a measure is called.
   *
   * @param number its bar number; 0 for a pickup and for what goes on with the bar before it
   * @param label what it is called where a number can't say it
   * @param goesOn it goes on with the bar before it
   * @param restarts numbers begin again here
   * @param doubt what is to be asked, one sentence
   */
  record Name(
      int number,
      Optional<String> label,
      boolean goesOn,
      boolean restarts,
      Optional<String> doubt) {}

  static List<Name> of(List<Measure> measures) {
    List<Name> names = new ArrayList<>();
    int next = 1;
    boolean useless = useless(measures);
    for (int i = 0; i < measures.size(); i++) {
      Measure m = measures.get(i);
      boolean oneFollows =
          i + 1 < measures.size() && measures.get(i + 1).number().strip().equals("1");
      Name name = useless ? counted(m, i, next) : name(m, i, next, oneFollows);
      if (useless && i == 0) {
        name = doubting(name, "The file does not number its bars; they are counted from here");
      }
      names.add(name);
      next =
          name.number == 0
              ? next(name, next)
              : name.label.isPresent() ? name.number : name.number + 1;
    }
    return names;
  }

  /** Behind a pickup that opens numbers the next bar is 1; behind any other as before. */
  private static int next(Name pickup, int next) {
    return pickup.restarts ? 1 : next;
  }

  /** Nearly all measures are called the same, or nothing. */
  private static boolean useless(List<Measure> measures) {
    return measures.size() > 2
        && measures.stream().map(m -> m.number().strip()).distinct().count() == 1;
  }

  private static Name counted(Measure m, int i, int next) {
    boolean pickup = i == 0 && m.implicit();
    return plain(pickup ? 0 : next, m.implicit() && i > 0);
  }

  private static Name plain(int number, boolean goesOn) {
    return new Name(goesOn ? 0 : number, Optional.empty(), goesOn, false, Optional.empty());
  }

  private static Name doubting(Name name, String doubt) {
    return new Name(name.number, name.label, name.goesOn, name.restarts, Optional.of(doubt));
  }

  private static Name name(Measure m, int i, int next, boolean oneFollows) {
    String token = m.number().strip();
    if (WHOLE.matcher(token).matches()) {
      return whole(Integer.parseInt(token), m.implicit(), i, next, oneFollows);
    }
    if (m.implicit()) {
      return plain(0, i > 0);
    }
    if (token.isEmpty()) {
      return doubting(plain(next, false), "The file gives this bar no number; it is counted on");
    }
    Matcher lettered = LETTERED.matcher(token);
    int before = Math.max(1, next - 1);
    int number = lettered.matches() ? Integer.parseInt(lettered.group(1)) : before;
    return new Name(Math.min(MOST, number), Optional.of(token), false, false, Optional.empty());
  }

  private static Name whole(int number, boolean implicit, int i, int next, boolean oneFollows) {
    if (number > MOST) {
      return doubting(
          plain(next, false), "The file calls this bar " + number + "; it is counted on");
    }
    boolean again = implicit && i > 0 && number > 0 && number == next - 1;
    if (implicit && i == 0 && number == 1 && oneFollows) {
      return plain(0, false); // a pickup that has the number of the bar it leads to
    }
    boolean opens = number == 0 && i > 0 && next > 2 && oneFollows;
    if (again || (number == 0 && i > 0 && implicit && !opens)) {
      // 8 and 8 again, not displayed: one bar in two pieces
      return plain(0, true);
    }
    boolean restarts = opens || (i > 0 && number == 1 && next > 2);
    return new Name(number, Optional.empty(), false, restarts, Optional.empty());
  }
}
