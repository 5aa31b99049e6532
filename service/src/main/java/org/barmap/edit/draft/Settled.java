package org.barmap.edit.draft;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.IntFunction;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.barmap.map.BarMap;
import org.barmap.map.Finding;
import org.barmap.map.Outline;
import org.barmap.reckon.write.FindingWriter;

/**
 * What people have settled about a book: nothing named here is changed by a reading.
 *
 * @param bars by bar id, what of it a person has set
 * @param verifiedPages indices of pages a person has confirmed
 * @param dismissed keys of doubts that have been answered, see {@link #claim}
 * @param removedSystems where a person said there is no system
 * @param tacetNumbers labels of tacet numbers a person added
 */
@JsonInclude(JsonInclude.Include.NON_EMPTY)
public record Settled(
    Map<String, Set<Aspect>> bars,
    Set<Integer> verifiedPages,
    Set<String> dismissed,
    List<RemovedSystem> removedSystems,
    Set<String> tacetNumbers) {

  private static final Pattern OF_PAGE = Pattern.compile("([^@]*@page )(\\d{1,9})(|#.*)");

  /** What in a correction says where, and may be called otherwise after another reading. */
  private static final Set<String> PLACES =
      Set.of("bar", "to", "before", "page", "system", "x", "y");

  /** Nothing settled yet. */
  public static final Settled NOTHING =
      new Settled(Map.of(), Set.of(), Set.of(), List.of(), Set.of());

  /** Takes ordered defensive copies; absent collections are empty. */
  public Settled {
    bars =
        bars == null
            ? Map.of()
            : bars.entrySet().stream()
                .filter(e -> !e.getValue().isEmpty())
                .collect(
                    Collectors.toMap(
                        Map.Entry::getKey,
                        e -> Set.copyOf(e.getValue()),
                        (a, b) -> a,
                        TreeMap::new));
    verifiedPages = verifiedPages == null ? Set.of() : new TreeSet<>(verifiedPages);
    dismissed = dismissed == null ? Set.of() : new TreeSet<>(dismissed);
    removedSystems = removedSystems == null ? List.of() : List.copyOf(removedSystems);
    tacetNumbers = tacetNumbers == null ? Set.of() : new TreeSet<>(tacetNumbers);
  }

  /**
   * A place where a person said there is no system.
   *
   * @param page page index
   * @param outline pixels of the page image
   */
  public record RemovedSystem(int page, Outline outline) {}

  /** Returns what of a bar entry a person has set; empty for none. */
  public Set<Aspect> of(String bar) {
    return bars.getOrDefault(bar, Set.of());
  }

  /** Tells whether a person has set this of a bar entry. */
  public boolean has(String bar, Aspect aspect) {
    return of(bar).contains(aspect);
  }

  /** Returns a copy in which more of a bar entry is set by a person. */
  public Settled with(String bar, Set<Aspect> aspects) {
    Map<String, Set<Aspect>> now = new TreeMap<>(bars);
    Set<Aspect> all = EnumSet.noneOf(Aspect.class);
    all.addAll(of(bar));
    all.addAll(aspects);
    now.put(bar, all);
    return withBars(now);
  }

  /** Returns a copy without a bar entry. */
  public Settled without(String bar) {
    Map<String, Set<Aspect>> now = new TreeMap<>(bars);
    now.remove(bar);
    return withBars(now);
  }

  /** Returns a copy in which doubts are answered. */
  public Settled withDismissed(Set<String> keys) {
    Set<String> now = new HashSet<>(dismissed);
    now.addAll(keys);
    return new Settled(bars, verifiedPages, now, removedSystems, tacetNumbers);
  }

  /**
   * Returns a copy in which the answers to doubts about whole pages go with their pages.
   *
   * @param indices of an old index the new one; empty where the page goes
   */
  public Settled movingPages(IntFunction<Optional<Integer>> indices) {
    Set<String> now = new HashSet<>();
    for (String key : dismissed) {
      Matcher page = OF_PAGE.matcher(key);
      if (page.matches()) {
        indices
            .apply(Integer.parseInt(page.group(2)))
            .ifPresent(i -> now.add(page.group(1) + i + page.group(3)));
      } else {
        now.add(key);
      }
    }
    return new Settled(bars, verifiedPages, now, removedSystems, tacetNumbers);
  }

  /** Returns a copy with other verified pages. */
  public Settled withVerifiedPages(Set<Integer> pages) {
    return new Settled(bars, pages, dismissed, removedSystems, tacetNumbers);
  }

  /** Returns a copy with other removed systems. */
  public Settled withRemovedSystems(List<RemovedSystem> systems) {
    return new Settled(bars, verifiedPages, dismissed, systems, tacetNumbers);
  }

  /** Returns a copy with other tacet numbers added by people. */
  public Settled withTacetNumbers(Set<String> labels) {
    return new Settled(bars, verifiedPages, dismissed, removedSystems, labels);
  }

  /** Returns a copy with other bars. */
  public Settled withBars(Map<String, Set<Aspect>> now) {
    return new Settled(now, verifiedPages, dismissed, removedSystems, tacetNumbers);
  }

  /** Returns the kind of a doubt and its place. */
  public static String key(Finding finding) {
    return finding.code() + "@" + finding.bar().orElseGet(() -> "page " + finding.page().orElse(0));
  }

  /**
   * Returns under what a doubt is remembered as answered: its kind, its place and what it claims,
   * that is what its answers would set. Where a printed number contradicts the counting it claims
   * what counting gives as well. Another claim at the same place is another doubt.
   *
   * @param map in which it was raised
   */
  public static String claim(Finding finding, BarMap map) {
    List<String> values = new ArrayList<>();
    if (finding.code().equals(FindingWriter.MISREAD) || isContradiction(finding)) {
      finding.bar().flatMap(map::bar).ifPresent(b -> values.add(Integer.toString(b.number())));
    }
    for (Finding.Answer answer : finding.answers()) {
      new TreeMap<>(answer.correction())
          .entrySet().stream()
              .filter(e -> !PLACES.contains(e.getKey()))
              .map(Map.Entry::getValue)
              .forEach(values::add);
    }
    return key(finding) + "#" + String.join(",", values);
  }

  private static boolean isContradiction(Finding finding) {
    return finding.code().equals(Contradictions.JUMP)
        || finding.code().equals(Contradictions.PRINT)
        || finding.code().equals(Contradictions.BEGINS);
  }

  /** Tells whether a doubt was answered; an answer kept without a claim is one to every claim. */
  boolean isAnswered(Finding finding, BarMap map) {
    return !dismissed.isEmpty()
        && (dismissed.contains(key(finding)) || dismissed.contains(claim(finding, map)));
  }
}
