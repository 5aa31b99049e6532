package org.barmap.plan.change;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.plan.change.kind.ShowChange;

/**
 * What is asked while one number is worked out, and with which answers it is gone on with.
 *
 * <p>Who meets a question asks it here and goes on with the way that comes back, the first unless
 * another was picked beforehand. So the number can be worked out once more for each other way, and
 * what is shown of it is what would be played.
 */
public final class Choices {

  /**
   * One way to go on.
   *
   * @param says it, short enough for a button
   * @param instead the changes that say it beyond doubt, see {@link Question.Reading}
   */
  public record Way(String says, List<ShowChange> instead) {
    /** Takes a defensive copy. */
    public Way {
      instead = List.copyOf(instead);
    }

    /** Returns a way that no change says. */
    public static Way of(String says) {
      return new Way(says, List.of());
    }
  }

  /**
   * One question.
   *
   * @param finding what the player is told
   * @param topic what it is about
   * @param about the bar it is about as the player names it
   * @param ways at least one
   * @param heard id of a change of whose bars some must sound in a way that is worth asking for
   * @param tells it is told even where all ways come to the same bars
   */
  public record Asked(
      PlanFinding finding,
      Question.Topic topic,
      Optional<String> about,
      List<Way> ways,
      Optional<String> heard,
      boolean tells) {
    /** Takes a defensive copy. */
    public Asked {
      ways = List.copyOf(ways);
    }

    /** Makes a question of which every way is worth asking for. */
    public Asked(PlanFinding finding, Question.Topic topic, String about, List<Way> ways) {
      this(finding, topic, Optional.of(about), ways, Optional.empty(), true);
    }

    /** Returns the same question, for ways in which bars of a change sound. */
    public Asked hearing(ShowChange change) {
      return new Asked(finding, topic, about, ways, Optional.of(change.meta().id()), tells);
    }

    /** Returns the same question, of which nothing is told where all ways are alike. */
    public Asked onlyIfWaysDiffer() {
      return new Asked(finding, topic, about, ways, heard, false);
    }

    /** Returns what tells it from other questions of the number. */
    public String key() {
      return finding.code() + "|" + finding.at().orElse("") + "|" + finding.change().orElse("");
    }
  }

  private final Map<String, Integer> picked;
  private final Map<String, Asked> asked = new LinkedHashMap<>();
  private final List<PlanFinding> told = new ArrayList<>();

  private Choices(Map<String, Integer> picked) {
    this.picked = Map.copyOf(picked);
  }

  /** Returns choices that go the first way everywhere. */
  public static Choices first() {
    return new Choices(Map.of());
  }

  /** Returns fresh choices that go another way at one question, else the first. */
  public static Choices at(String key, int way) {
    Map<String, Integer> picked = new HashMap<>();
    picked.put(key, way);
    return new Choices(picked);
  }

  /** Asks; returns the index of the way to go on with. */
  public int ask(Asked question) {
    asked.putIfAbsent(question.key(), question);
    int way = picked.getOrDefault(question.key(), 0);
    return way < question.ways().size() ? way : 0;
  }

  /** Tells something that leaves no choice. */
  public void tell(PlanFinding finding) {
    told.add(finding);
  }

  /** Returns the questions in the order they were met. */
  public List<Asked> asked() {
    return List.copyOf(asked.values());
  }

  /** Returns what was told. */
  public List<PlanFinding> told() {
    return List.copyOf(told);
  }
}
