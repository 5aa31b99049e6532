package org.barmap.plan.reference.against;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.function.LongFunction;
import org.barmap.plan.reference.against.Comparison.Result;
import org.barmap.plan.reference.books.RandomBook;

/**
 * Many random books compared: how many agree, how many both ask about, and the first that differ.
 */
public final class Tally {

  private final Map<Verdict, Integer> counts = new EnumMap<>(Verdict.class);
  private final List<String> differences = new ArrayList<>();
  private long bars;
  private long facts;

  private Tally() {}

  /**
   * Compares books.
   *
   * @param books the book of a seed
   * @param from first seed
   * @param many how many seeds
   * @param shown at most so many differences are made small and written out
   */
  public static Tally of(
      PlanUnderTest plan, LongFunction<RandomBook> books, long from, int many, int shown) {
    Tally tally = new Tally();
    Comparison comparison = new Comparison(plan);
    for (long seed = from; seed < from + many; seed++) {
      RandomBook book = books.apply(seed);
      Result result = comparison.compare(book);
      tally.counts.merge(result.verdict(), 1, Integer::sum);
      tally.bars += result.bars();
      tally.facts += result.facts();
      boolean differs = result.verdict().group() == Verdict.Group.DIFFER;
      if (differs && tally.differences.size() < shown) {
        tally.differences.add(seed + ": " + small(comparison, book, result));
      }
    }
    return tally;
  }

  private static String small(Comparison comparison, RandomBook book, Result result) {
    RandomBook small = Smaller.of(book, b -> comparison.compare(b).verdict() == result.verdict());
    Result now = comparison.compare(small);
    return now.verdict()
        + (now.number().isEmpty() ? "" : " in No. " + now.number())
        + "\n"
        + small
        + now.says();
  }

  /** Returns how many books came out so. */
  public int count(Verdict verdict) {
    return counts.getOrDefault(verdict, 0);
  }

  /** Returns how many books gave one of the three answers. */
  public int count(Verdict.Group group) {
    return counts.entrySet().stream()
        .filter(e -> e.getKey().group() == group)
        .mapToInt(Map.Entry::getValue)
        .sum();
  }

  /** Returns how many bars were found in the same order. */
  public long bars() {
    return bars;
  }

  /** Returns how many values in force were right where only one is. */
  public long facts() {
    return facts;
  }

  /** Returns the differences, each made small and written as a case. */
  public List<String> differences() {
    return List.copyOf(differences);
  }

  @Override
  public String toString() {
    return counts
        + ", "
        + bars
        + " bars and "
        + facts
        + " facts alike\n\n"
        + String.join("\n\n", differences);
  }
}
