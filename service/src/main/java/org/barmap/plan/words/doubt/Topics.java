package org.barmap.plan.words.doubt;

import java.util.List;
import java.util.Optional;
import org.barmap.plan.change.Question.Topic;
import org.barmap.plan.change.effect.Effects;
import org.barmap.plan.change.effect.Rounds;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;

/** What a question about words is about, as the ways tell that may be meant. */
public final class Topics {
  private Topics() {}

  /** Returns it; empty where the ways are none, or of several sorts. */
  public static Optional<Topic> of(Heard.AskedBack<ShowChange> asked) {
    List<Topic> topics =
        asked.readings().stream()
            .flatMap(r -> r.changes().stream())
            .filter(c -> c.kept().isEmpty())
            .flatMap(c -> of(c.effects()).stream())
            .distinct()
            .toList();
    return topics.size() == 1 ? Optional.of(topics.get(0)) : Optional.empty();
  }

  private static Optional<Topic> of(Effects effects) {
    if (effects.rounds().isPresent()) {
      boolean counted = effects.rounds().get().until() == Rounds.Until.COUNTED;
      return Optional.of(counted ? Topic.REPEAT : Topic.VAMP);
    }
    if (effects.link().isPresent()) {
      return Optional.of(Topic.LINK);
    }
    if (effects.added().isPresent()) {
      return Optional.of(Topic.INSERT);
    }
    if (effects.order().isPresent()) {
      return Optional.of(Topic.ORDER);
    }
    if (effects.course().inPass().isPresent()) {
      return Optional.of(Topic.PASS);
    }
    return effects.leavesOut() ? Optional.of(Topic.LANDING) : Optional.empty();
  }
}
