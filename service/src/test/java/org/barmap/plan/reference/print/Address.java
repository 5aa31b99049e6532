package org.barmap.plan.reference.print;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalInt;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A bar as a player says it. Source of all forms: plan-format.md, Addresses, and the address of
 * changes-1.schema.json.
 *
 * @param places bars it may mean, counted in the number; exactly one when it can be followed
 * @param beat the beat said with it
 */
public record Address(List<Integer> places, OptionalInt beat) {

  private static final Pattern BEAT = Pattern.compile("(.*\\S)\\s+beat\\s+(\\d+)");
  private static final Pattern ENDING =
      Pattern.compile("(.*\\S)\\s+in the (\\d+)(?:st|nd|rd|th) ending");
  private static final Pattern BEFORE = Pattern.compile("(\\S+)\\s+before\\s+(\\S.*)");
  private static final Pattern OF = Pattern.compile("(\\S+)\\s+of\\s+(\\S.*)");
  private static final Pattern PLUS = Pattern.compile("(.*\\S)\\s*(?:\\+|\\bplus\\b)\\s*(\\S+)");
  private static final List<String> COUNT =
      List.of("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine");
  private static final List<String> ORDINAL =
      List.of("", "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth");

  public static Address find(WrittenNumber number, String said) {
    Matcher beat = BEAT.matcher(said.strip());
    if (beat.matches()) {
      return new Address(
          places(number, beat.group(1)), OptionalInt.of(Integer.parseInt(beat.group(2))));
    }
    return new Address(places(number, said.strip()), OptionalInt.empty());
  }

  private static List<Integer> places(WrittenNumber number, String said) {
    List<Integer> itself = named(number, said);
    if (!itself.isEmpty()) {
      return itself;
    }
    if (said.equalsIgnoreCase("end")) {
      return number.size() == 0 ? List.of() : List.of(number.size() - 1);
    }
    Matcher ending = ENDING.matcher(said);
    if (ending.matches()) {
      int pass = Integer.parseInt(ending.group(2));
      return places(number, ending.group(1)).stream()
          .filter(at -> number.endingAt(at).contains(pass))
          .toList();
    }
    Matcher before = BEFORE.matcher(said);
    if (before.matches()) {
      return moved(number, before.group(2), -count(before.group(1), COUNT));
    }
    Matcher of = OF.matcher(said);
    if (of.matches()) {
      // Source: plan-format.md, Addresses: "third of B", B itself is the first.
      return moved(number, of.group(2), count(of.group(1), ORDINAL) - 1);
    }
    Matcher plus = PLUS.matcher(said);
    return plus.matches() ? moved(number, plus.group(1), count(plus.group(2), COUNT)) : List.of();
  }

  private static List<Integer> named(WrittenNumber number, String said) {
    List<Integer> places = new ArrayList<>();
    for (WrittenBar bar : number.bars()) {
      boolean mark =
          bar.first() && bar.entry().rehearsal().filter(m -> m.text().equals(said)).isPresent();
      if (mark || bar.name().equals(said)) {
        places.add(bar.at());
      }
    }
    return places;
  }

  // Source: common practice: bars are counted along the page.
  private static List<Integer> moved(WrittenNumber number, String from, int by) {
    if (by < -900_000) {
      return List.of();
    }
    List<Integer> places = new ArrayList<>();
    for (int at : places(number, from)) {
      if (at + by < 0 || at + by >= number.size()) {
        continue;
      }
      if (inOneEnding(number, at, at + by)) {
        // Source: common practice: who counts from a bar of an ending to another bar of it has not
        // left it, whatever bars of the next ending are called (this reader asked about these).
        places.add(at + by);
        continue;
      }
      int first = Math.min(at, at + by);
      while (first > 0
          && !number.endingAt(first).isEmpty()
          && number.endingAt(first - 1).equals(number.endingAt(first))) {
        first--; // an ending one is in may be numbered like the next from its first bar on
      }
      boolean alike = alike(number, first, Math.max(at, at + by));
      List<Integer> numbered = alike ? numbered(number, at, by) : List.of();
      if (numbered.size() == 1) {
        // Source: common practice: over endings whose bars are numbered alike one counts as the
        // numbers do, which is also how they sound.
        places.addAll(numbered);
      } else {
        places.add(at + by);
        // Where the numbers don't tell, one may count along the page or by numbers.
        if (alike) {
          places.add(at);
        }
        // Source: common practice: a bar of a later ending that has the number one counted to may
        // be meant as well: counted in its own pass it is as many bars on. Counted back from behind
        // the endings one comes to the last of them, as one plays.
        String reached = number.bar(at + by).name();
        boolean inEnding = !number.endingAt(at + by).isEmpty();
        numbered(number, at, by).stream()
            .filter(b -> inEnding && by > 0 && b > at + by)
            .filter(b -> number.bar(b).name().equals(reached))
            .forEach(places::add);
        if (inEnding && by > 0) {
          later(number, at + by).stream().filter(b -> !places.contains(b)).forEach(places::add);
        }
      }
    }
    return places;
  }

  /** Bars whose number is so many on; none where bars without a number of their own are about. */
  private static List<Integer> numbered(WrittenNumber number, int from, int by) {
    if (number.bars().stream().anyMatch(b -> b.entry().label().isPresent())) {
      return List.of();
    }
    int wanted = number.bar(from).number() + by;
    return number.bars().stream().filter(b -> b.number() == wanted).map(WrittenBar::at).toList();
  }

  /** Bars as far into later endings that begin with a bar of the same name. */
  private static List<Integer> later(WrittenNumber number, int at) {
    int first = at;
    while (first > 0 && number.endingAt(first - 1).equals(number.endingAt(at))) {
      first--;
    }
    List<Integer> later = new ArrayList<>();
    for (int k = at + 1; k < number.size() && !number.endingAt(k).isEmpty(); k++) {
      boolean begins = !number.endingAt(k).equals(number.endingAt(k - 1));
      int there = k + at - first;
      if (begins
          && number.bar(k).name().equals(number.bar(first).name())
          && there < number.size()
          && number.endingAt(there).equals(number.endingAt(k))) {
        later.add(there);
      }
    }
    return later;
  }

  private static boolean inOneEnding(WrittenNumber number, int one, int other) {
    List<Integer> ending = number.endingAt(one);
    boolean all = !ending.isEmpty();
    for (int at = Math.min(one, other); at <= Math.max(one, other); at++) {
      all &= number.endingAt(at).equals(ending);
    }
    return all;
  }

  /**
   * Whether an ending between two bars, or at them, begins like a bar of the one before it. Source:
   * common practice: behind a first ending alone what follows is the second.
   */
  private static boolean alike(WrittenNumber number, int from, int to) {
    for (int one = from; one <= to; one++) {
      for (int other = one + 1; other <= to; other++) {
        boolean named = number.bar(one).name().equals(number.bar(other).name());
        List<Integer> ending = number.endingAt(one);
        boolean next = number.endingAt(other - 1).equals(ending);
        boolean another = !number.endingAt(other).equals(ending);
        if (named && !ending.isEmpty() && next && another) {
          return true;
        }
      }
    }
    return false;
  }

  private static int count(String said, List<String> words) {
    int word = words.indexOf(said.toLowerCase(Locale.ROOT));
    if (word > 0) {
      return word;
    }
    Matcher figures = Pattern.compile("(\\d{1,5})(?:st|nd|rd|th)?").matcher(said);
    return figures.matches() ? Integer.parseInt(figures.group(1)) : -1_000_000;
  }
}
