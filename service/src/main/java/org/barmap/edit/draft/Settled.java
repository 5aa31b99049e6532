package org.barmap.edit.draft;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.barmap.map.Finding;
import org.barmap.map.Outline;

/**
 * What people have settled about a book: nothing named here is changed by a reading.
 *
 * @param bars by bar id, what of it a person has set
 * @param verifiedPages indices of pages a person has confirmed
 * @param dismissed keys of doubts that have been answered, see {@link #key}
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

  /** Returns the key under which a doubt is remembered as answered: its code and its place. */
  public static String key(Finding finding) {
    return finding.code() + "@" + finding.bar().orElseGet(() -> "page " + finding.page().orElse(0));
  }
}
