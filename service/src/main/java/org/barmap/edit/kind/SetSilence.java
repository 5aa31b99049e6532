package org.barmap.edit.kind;

import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.barmap.edit.draft.Aspect;
import org.barmap.map.Bar;
import org.barmap.map.Meter;

/**
 * So many beats are free at a side of a bar with notes.
 *
 * @param bar id of the bar entry
 * @param side before its first note or after its last
 * @param beats in notes of the meter's lower figure; empty when nobody knows
 */
public record SetSilence(String bar, Optional<Side> side, Optional<Double> beats)
    implements OneBar {

  private static final double MOST = 99;

  /** Reads absent keys as empty. */
  public SetSilence {
    bar = OneBar.id(bar);
    side = side == null ? Optional.empty() : side;
    beats = beats == null ? Optional.empty() : beats;
  }

  @Override
  public List<String> problems(Bar b) {
    if (side.isEmpty()) {
      return List.of("Say which side of the bar: start or end");
    }
    double now = beats.orElse(0.0);
    if (!(now >= 0 && now <= MOST)) {
      return List.of("A bar has 0 to 99 free beats at a side, not " + now);
    }
    if (b.isRest() && now > 0) {
      return List.of("This bar is a rest: all of it is free");
    }
    double other = (side.get() == Side.START ? b.silentEnd() : b.silentStart()).orElse(0.0);
    Optional<Integer> whole = b.meter().map(Meter::beats);
    return now > 0 && whole.filter(w -> now + other >= w).isPresent()
        ? List.of("With that no note is left in the bar: call it a rest instead")
        : List.of();
  }

  @Override
  public Bar change(Bar b) {
    return side.orElseThrow() == Side.START
        ? b.toBuilder().silentStart(beats).build()
        : b.toBuilder().silentEnd(beats).build();
  }

  @Override
  public Set<Aspect> sets() {
    return EnumSet.of(side.orElseThrow() == Side.START ? Aspect.SILENT_START : Aspect.SILENT_END);
  }

  @Override
  public String saysOf(String where, Bar b) {
    String place = side.orElseThrow() == Side.START ? " before its first note" : " after its last";
    return Saying.sentence(where)
        + ": "
        + beats.map(SetSilence::figure).orElse("unknown beats free")
        + place;
  }

  private static String figure(double beats) {
    String plain =
        beats == Math.rint(beats) ? Long.toString(Math.round(beats)) : Double.toString(beats);
    return beats == 0 ? "nothing free" : plain + (beats == 1 ? " beat free" : " beats free");
  }
}
