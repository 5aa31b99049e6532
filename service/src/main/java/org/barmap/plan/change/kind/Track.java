package org.barmap.plan.change.kind;

import com.fasterxml.jackson.annotation.JsonTypeName;
import org.barmap.plan.change.effect.Course;
import org.barmap.plan.change.effect.Effects;
import org.barmap.plan.change.effect.Marking;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.change.say.Wording;

/** The number runs with a track: no vamps, no waiting, every count is fixed. */
@JsonTypeName("track")
public record Track(Meta meta, String number) implements ShowChange.Whole {
  static final Wording<ShowChange> WORDING =
      Wording.whole(
          "",
          "(?:(?:is|runs|goes|plays|played)\\s+)?(?:to|with|on)\\s+(?:(?:a|the)\\s+)?(?:(?:click\\s+|backing\\s+)?tracks?|click)|tracked",
          told -> new Track(told.meta(), told.number()),
          "it runs with a track, every count is fixed");

  @Override
  public Same same() {
    return new Same(Effects.on(Course.TRACKED), Marking.at("track", "TRACK"), "to track");
  }
}
