package org.barmap.bench.trust;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** What a book has to hold, kept by who writes into it and from acknowledgements only. */
final class BookLedger {

  final Fact<String> title;

  /** The texts of its reminders; a step back is a fact like any other. */
  final Fact<List<String>> changes = new Fact<>(List.of());

  /** The files of its pages, in the order of the pages; an upload waits at the end. */
  final Fact<List<String>> sources = new Fact<>(List.of());

  /** Files that were seen as pages once, and have to stay. */
  final Set<String> opened = new HashSet<>();

  /** Corrections by the id of their entry, with whether they are taken back. */
  final Map<String, Boolean> corrections = new HashMap<>();

  /** The mark of a correction whose answer never came. */
  Optional<String> perhapsCorrected = Optional.empty();

  /** The entry a step back or forth was about whose answer never came. */
  Optional<String> perhapsStepped = Optional.empty();

  /** The meter of bars after the last correction of each. */
  final Map<String, String> meters = new HashMap<>();

  /** Bars whose meter may be another one, for an answer never came. */
  final Set<String> unsure = new HashSet<>();

  private final List<List<String>> steps = new ArrayList<>(List.of(List.of()));
  private int at;
  private int way;

  BookLedger(String title) {
    this.title = new Fact<>(title);
  }

  /** The changes after one step back; empty at the beginning. */
  Optional<List<String>> before() {
    return at == 0 ? Optional.empty() : Optional.of(steps.get(at - 1));
  }

  /** The changes after one step forth; empty at the end. */
  Optional<List<String>> after() {
    return at + 1 == steps.size() ? Optional.empty() : Optional.of(steps.get(at + 1));
  }

  /** What is asked of the list of changes next: -1 for a step back, 1 forth, 0 for a new one. */
  void going(int step) {
    way = step;
  }

  /** Keeps the step, if the list of changes is another one now. */
  void changed() {
    List<String> now = changes.sure();
    if (steps.get(at).equals(now)) {
      return;
    }
    if (way == 0) {
      steps.subList(at + 1, steps.size()).clear();
      steps.add(now);
      at++;
    } else {
      at += way;
    }
  }
}
