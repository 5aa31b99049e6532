package org.barmap.edit.kind;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.barmap.edit.draft.Aspect;
import org.barmap.edit.draft.Draft;
import org.barmap.map.Bar;
import org.barmap.map.RehearsalMark;

/**
 * A rehearsal mark stands over another bar than was read.
 *
 * @param bar id of the bar entry it was read at
 * @param to id of the bar entry it stands over; a mark there is replaced
 */
public record MoveRehearsal(String bar, String to) implements Correction {

  private static final Set<Aspect> SET = EnumSet.of(Aspect.REHEARSAL);

  /** Reads absent bars as the empty id. */
  public MoveRehearsal {
    bar = OneBar.id(bar);
    to = OneBar.id(to);
  }

  @Override
  public List<String> validate(Draft draft) {
    for (String id : List.of(bar, to)) {
      if (draft.map().bar(id).isEmpty()) {
        return List.of(OneBar.noBar(id));
      }
    }
    return draft.map().bar(bar).flatMap(Bar::rehearsal).isEmpty()
        ? List.of("There is no rehearsal mark at that bar")
        : List.of();
  }

  @Override
  public Draft applyTo(Draft draft) {
    Bar from = draft.map().bar(bar).orElseThrow();
    RehearsalMark mark = from.rehearsal().orElseThrow();
    Draft less =
        OneBar.put(draft, from.toBuilder().rehearsal(java.util.Optional.empty()).build(), SET);
    Bar there = less.map().bar(to).orElseThrow();
    return OneBar.put(less, there.toBuilder().rehearsal(mark).build(), SET);
  }

  @Override
  public String says(Draft draft) {
    Bar from = draft.map().bar(bar).orElseThrow();
    String mark = from.rehearsal().map(RehearsalMark::text).orElse("");
    return "Mark " + mark + ": " + Saying.bar(draft, bar) + " → " + Saying.bar(draft, to);
  }
}
