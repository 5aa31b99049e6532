package org.barmap.plan.reference;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * What a person at the stand would ask before going on. Every question has its readings; the walk
 * goes on with the one that was picked beforehand, the first unless said otherwise, so that the
 * same number can be walked once for each reading.
 */
public final class Questions {

  /**
   * One question.
   *
   * @param key a short word for what is asked, "cut-repeat-end"
   * @param place the bar it is asked at
   * @param why in a sentence
   * @param readings at least one; the walk can be done with each
   */
  public record Ask(String key, String place, String why, List<String> readings) {
    String id() {
      return key + "@" + place;
    }
  }

  private final Map<String, Integer> picked;
  private final Map<String, Ask> asked = new LinkedHashMap<>();

  Questions(Map<String, Integer> picked) {
    this.picked = picked;
  }

  /** Asks; returns the reading to go on with. */
  int ask(String key, Object place, String why, String... readings) {
    Ask question = new Ask(key, String.valueOf(place), why, List.of(readings));
    asked.putIfAbsent(question.id(), question);
    return picked.getOrDefault(question.id(), 0);
  }

  List<Ask> asked() {
    return List.copyOf(asked.values());
  }

  /** All ways to answer, at most as many as said; the first answers every question with 0. */
  static List<Map<String, Integer>> ways(List<Ask> asked, int most) {
    List<Map<String, Integer>> ways = new ArrayList<>();
    ways.add(Map.of());
    for (Ask question : asked) {
      List<Map<String, Integer>> more = new ArrayList<>(ways);
      for (int r = 1; r < question.readings().size(); r++) {
        for (Map<String, Integer> way : ways) {
          Map<String, Integer> other = new LinkedHashMap<>(way);
          other.put(question.id(), r);
          more.add(other);
        }
      }
      ways = more.size() > most ? new ArrayList<>(more.subList(0, most)) : more;
    }
    return ways;
  }
}
