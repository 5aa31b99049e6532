package org.barmap.edit.draft;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Finding.Answer;
import org.barmap.map.MusicalNumber;

/**
 * Where the musical numbers of a map contradict their order: two of one name, one after a higher
 * one, one that is nowhere.
 *
 * @param asked what is asked already, as code and bar
 * @param told takes what is found
 */
record OrderContradictions(BarMap map, Set<String> asked, Told told) {

  private static final Pattern FIGURES = Pattern.compile("(\\d{1,4}).*");

  /** Takes a contradiction. */
  @FunctionalInterface
  interface Told {
    void tell(Bar bar, String code, String text, List<Answer> answers, int reach);
  }

  /** Finds them. */
  void find() {
    Map<String, MusicalNumber> named = new HashMap<>();
    OptionalInt highest = OptionalInt.empty();
    Map<String, Bar> bars = map.barsById();
    MusicalNumber before = new MusicalNumber("", "", Optional.empty(), Optional.empty(), false);
    for (MusicalNumber n : map.numbers()) {
      Optional<Bar> first = n.firstBar().map(bars::get);
      OptionalInt own = figure(n.label());
      boolean same = !n.label().isEmpty() && named.put(n.label(), n) != null;
      if (first.isPresent() && same) {
        String text = "Two musical numbers are called No. " + n.label() + ".";
        order(first.get(), Contradictions.SAME, text, "Both are printed so");
      } else if (first.isPresent()
          && own.isPresent()
          && highest.isPresent()
          && own.getAsInt() < highest.getAsInt()) {
        String text =
            "No. %s comes after No. %d: a misread number, or pages in another order?"
                .formatted(n.label(), highest.getAsInt());
        order(first.get(), Contradictions.BACK, text, "It is printed so");
      }
      if (first.isPresent()
          && own.isPresent()
          && highest.isPresent()
          && own.getAsInt() > highest.getAsInt() + 1) {
        gap(first.get(), n.label(), before, highest.getAsInt() + 1, own.getAsInt() - 1);
      }
      highest = own.isPresent() ? own : highest;
      before = n;
    }
  }

  /**
   * Where a number is tacet its name stands over the next one's music ("No. 3 TACET"), so that the
   * music may be called like it.
   */
  private void gap(Bar bar, String label, MusicalNumber before, int after, int next) {
    Set<Integer> there = new HashSet<>();
    map.numbers().forEach(n -> figure(n.label()).ifPresent(there::add));
    // one that stands elsewhere in the book is out of order, which is asked there
    int[] nowhere =
        IntStream.rangeClosed(after, next)
            .dropWhile(there::contains)
            .takeWhile(n -> !there.contains(n))
            .toArray();
    if (nowhere.length == 0 || !asked.add(Contradictions.GAP + "@" + bar.id())) {
      return;
    }
    int from = nowhere[0];
    int to = nowhere[nowhere.length - 1];
    String missing = from == to ? "No. " + from + " is" : "No. " + from + " to No. " + to + " are";
    String text =
        "After No. %s comes No. %s: %s nowhere.".formatted(before.label(), label, missing);
    List<Answer> answers = new ArrayList<>();
    answers.add(
        new Answer(
            "No. " + from + " is tacet",
            Map.of(
                "kind",
                "add-tacet-number",
                "before",
                bar.id(),
                "label",
                Integer.toString(from),
                "title",
                "")));
    before
        .firstBar()
        .ifPresent(
            first ->
                answers.add(
                    new Answer(
                        "The music before is No. " + to,
                        Map.of(
                            "kind",
                            "start-number",
                            "bar",
                            first,
                            "label",
                            Integer.toString(to),
                            "title",
                            before.title()))));
    answers.add(new Answer(missing.replaceFirst("( is| are)$", "$1 not in this part"), Map.of()));
    told.tell(bar, Contradictions.GAP, text, answers, 1);
  }

  private void order(Bar bar, String code, String text, String stays) {
    if (asked.add(code + "@" + bar.id())) {
      told.tell(bar, code, text, List.of(new Answer(stays, Map.of())), 1);
    }
  }

  private static OptionalInt figure(String label) {
    Matcher figures = FIGURES.matcher(label);
    return figures.matches()
        ? OptionalInt.of(Integer.parseInt(figures.group(1)))
        : OptionalInt.empty();
  }
}
