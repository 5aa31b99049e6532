package org.barmap.plan.change.kind;

import com.fasterxml.jackson.annotation.JsonTypeName;
import java.util.Optional;
import java.util.regex.Pattern;
import org.barmap.plan.change.effect.Course;
import org.barmap.plan.change.effect.Effects;
import org.barmap.plan.change.effect.Marking;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.change.say.Told;
import org.barmap.plan.change.say.Wording;

/** The number runs with a track: no vamps, no waiting, every count is fixed. */
@JsonTypeName("track")
public record Track(Meta meta, String number) implements ShowChange.OfNumber {
  static final Wording<ShowChange> WORDING = new Wording<>("", Track::read);

  private static final Pattern TRACK =
      Pattern.compile(
          "(?:(?:is|runs|goes|plays|played)\\s+)?(?:to|with|on)\\s+(?:(?:a|the)\\s+)?(?:click\\s+|backing\\s+)?tracks?|tracked",
          Wording.FLAGS);

  @Override
  public Effects effects() {
    return Effects.on(Course.TRACKED);
  }

  @Override
  public Optional<Marking> marking() {
    return Optional.of(Marking.at("track", "TRACK"));
  }

  @Override
  public String says() {
    return "to track";
  }

  private static Optional<Heard<ShowChange>> read(Told<ShowChange> told) {
    return TRACK.matcher(told.words()).matches()
        ? Optional.of(
            told.understood(
                new Track(told.meta(), told.number()),
                "it runs with a track, every count is fixed"))
        : Optional.empty();
  }
}
