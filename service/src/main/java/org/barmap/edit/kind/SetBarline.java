package org.barmap.edit.kind;

import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import org.barmap.edit.draft.Aspect;
import org.barmap.edit.draft.Draft;
import org.barmap.map.Bar;
import org.barmap.map.Barline;

/**
 * A barline is of this type.
 *
 * @param bar id of the bar entry
 * @param side which side of it; absent means its end
 * @param type how it is drawn
 */
public record SetBarline(String bar, Side side, Optional<Barline> type) implements Correction {

  /** Reads absent keys as an unknown bar, its end, and no type. */
  public SetBarline {
    bar = OneBar.id(bar);
    side = Side.orEnd(side);
    type = type == null ? Optional.empty() : type;
  }

  @Override
  public List<String> validate(Draft draft) {
    return OneBar.refusals(
        draft, bar, b -> type.isEmpty() ? List.of("Say which barline") : List.of());
  }

  /** Sets it on both bars that share it. */
  @Override
  public Draft applyTo(Draft draft) {
    Bar b = draft.map().bar(bar).orElseThrow();
    Draft now = put(draft, b, side);
    return side.beside(draft, b).map(n -> put(now, n, side.other())).orElse(now);
  }

  private Draft put(Draft draft, Bar b, Side where) {
    Barline wanted = type.orElseThrow();
    return where == Side.END
        ? OneBar.put(
            draft, b.toBuilder().endBarline(wanted).build(), EnumSet.of(Aspect.END_BARLINE))
        : OneBar.put(
            draft, b.toBuilder().startBarline(wanted).build(), EnumSet.of(Aspect.START_BARLINE));
  }

  @Override
  public String says(Draft draft) {
    return "Barline "
        + side.of(Saying.bar(draft, bar))
        + ": "
        + draft
            .map()
            .bar(bar)
            .map(b -> side == Side.END ? b.endBarline() : b.startBarline())
            .map(Barline::word)
            .orElse("?")
        + " → "
        + type.map(Barline::word).orElse("?");
  }
}
