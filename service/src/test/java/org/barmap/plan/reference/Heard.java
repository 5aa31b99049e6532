package org.barmap.plan.reference;

import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.barmap.plan.reference.Questions.Ask;

/** What is heard in the readings of a number, and which of its questions that makes needless. */
final class Heard {

  /** What is asked about the bars at the place itself. */
  private static final Set<String> OF_BARS =
      Set.of(
          "vamp-print",
          "pass-word",
          "meter-shorter",
          "meter-and-beats",
          "cut-pass",
          "cut-repeat-end",
          "cut-repeat-start",
          "cut-ending-edge",
          "play-over-repeat",
          "play-once-over",
          "play-over-vamp",
          "play-twice",
          "open-over-repeat",
          "open-overlap");

  /** What is asked about bars that sound only. */
  private static final Set<String> OF_SOUND =
      Set.of("vamp-print", "pass-word", "meter-shorter", "meter-and-beats");

  /** What is walked in each of its readings. */
  private static final Set<String> WALKED =
      Set.of(
          "play-and-jump",
          "repeat-start-missing",
          "jump-in-repeat",
          "cut-repeat-end",
          "cut-repeat-start",
          "play-over-repeat",
          "play-once-over",
          "cut-jump",
          "open-over-repeat");

  private final Map<Integer, String> places = new HashMap<>();
  private final Set<String> reached = new HashSet<>();
  private final Set<String> sounding = new HashSet<>();
  private final Map<Map<String, Integer>, List<Object>> played = new HashMap<>();

  void add(Map<String, Integer> way, NumberWalk walk) {
    for (Walk.Step step : walk.steps()) {
      String name = places.computeIfAbsent(step.at(), walk.number()::asked);
      reached.add(name);
      if (step.sounds()) {
        sounding.add(name);
      }
    }
    played.put(
        way, List.of(walk.sounding().stream().map(Walked.Sounding::key).toList(), walk.open()));
  }

  /** What is heard when one way to answer is gone: the bars, and what is held open. */
  List<Object> of(Map<String, Integer> way) {
    return played.getOrDefault(way, List.of());
  }

  /**
   * Source: common practice: about bars that nobody comes to in any reading nothing is asked, nor
   * where whatever is answered comes to the same bars.
   */
  boolean matters(Ask ask) {
    Set<String> met = OF_SOUND.contains(ask.key()) ? sounding : reached;
    if (OF_BARS.contains(ask.key()) && !met.contains(ask.place())) {
      return false;
    }
    boolean differ = ask.readings().size() < 2 || !WALKED.contains(ask.key());
    for (int r = 1; r < ask.readings().size(); r++) {
      List<Object> other = played.get(Map.of(ask.id(), r));
      differ |= other == null || !other.equals(played.get(Map.<String, Integer>of()));
    }
    return differ;
  }
}
