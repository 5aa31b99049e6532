package org.barmap.edit;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.barmap.edit.between.MapChange;
import org.barmap.edit.between.MapChanges;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.kind.AddBarline;
import org.barmap.edit.kind.BarCorrection;
import org.barmap.edit.kind.Correction;
import org.barmap.edit.kind.HeldCorrection;
import org.barmap.edit.kind.MoveBarline;
import org.barmap.edit.kind.PageCorrection;
import org.barmap.edit.kind.RemoveBarline;
import org.barmap.edit.kind.SignCorrection;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Origin;
import org.barmap.map.json.BarMapJson;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What is told between two maps makes the one into the other. */
class MapChangesTest {

  private static final int BOOKS = 60;

  /** Corrections by which bars come, go or are moved. */
  private static boolean isOfShape(Correction correction) {
    return correction instanceof AddBarline
        || correction instanceof MoveBarline
        || correction instanceof RemoveBarline
        || correction instanceof PageCorrection.AddSystem
        || correction instanceof PageCorrection.RemoveSystem;
  }

  private static Draft corrected(long seed, boolean shapes) {
    Draft draft = Draft.of(Made.book(seed));
    RandomCorrections random = new RandomCorrections(seed);
    int many = 1 + new Random(seed).nextInt(15);
    for (int i = 0; i < many; i++) {
      Correction next = random.next(draft);
      if (shapes || !isOfShape(next)) {
        Outcome outcome = Editing.correct(draft, next);
        draft = outcome instanceof Outcome.Done done ? done.draft() : draft;
      }
    }
    return draft;
  }

  private static Bar seen(Bar bar) {
    return bar.toBuilder().confidence(1).origin(Origin.VERIFIED).evidence(Optional.empty()).build();
  }

  private static List<Bar> seen(BarMap map) {
    return map.bars().stream().map(MapChangesTest::seen).toList();
  }

  /** Makes what is told as whoever follows a book does: bars as they come, corrections as said. */
  private static Draft replayed(BarMap before, List<MapChange> changes) {
    Draft draft = Draft.of(before);
    for (MapChange change : changes) {
      if (change.correction().isPresent()) {
        Outcome outcome = Editing.correct(draft, change.correction().get());
        assertThat(outcome).as(change.says()).isInstanceOf(Outcome.Done.class);
        draft = ((Outcome.Done) outcome).draft();
      } else if (change.after().isPresent()) {
        Bar after = change.after().get();
        List<Bar> bars = new ArrayList<>(draft.map().bars());
        bars.replaceAll(b -> b.id().equals(after.id()) ? after : b);
        draft = draft.withBars(bars);
      }
    }
    return draft;
  }

  @ParameterizedTest
  @ValueSource(longs = {0, 1000, 2000})
  void correctionsThatAreToldMakeTheLaterMapAgain(long from) {
    for (long seed = from; seed < from + BOOKS; seed++) {
      BarMap before = Made.book(seed);
      BarMap after = corrected(seed, false).map();
      List<MapChange> changes = MapChanges.between(before, after);
      Draft again = replayed(before, changes);
      assertThat(seen(again.map())).as("book %d: %s", seed, changes).isEqualTo(seen(after));
    }
  }

  @Test
  void nothingIsToldOfTheSameMap() {
    for (long seed = 0; seed < BOOKS; seed++) {
      Draft draft = corrected(seed, true);
      assertThat(MapChanges.between(draft.map(), draft.map())).isEmpty();
      BarMap read = BarMapJson.read(BarMapJson.write(draft.map()));
      assertThat(MapChanges.between(draft.map(), read)).isEmpty();
    }
  }

  @Test
  void everyBarThatCameOrWentIsTold() {
    for (long seed = 0; seed < BOOKS; seed++) {
      BarMap before = Made.book(seed);
      BarMap after = corrected(seed, true).map();
      List<MapChange> changes = MapChanges.between(before, after);
      for (Bar bar : after.bars()) {
        if (before.bar(bar.id()).isEmpty()) {
          assertThat(changes)
              .anyMatch(c -> c.after().filter(bar::equals).isPresent() && c.before().isEmpty());
        }
      }
      for (Bar bar : before.bars()) {
        if (after.bar(bar.id()).isEmpty()) {
          assertThat(changes)
              .anyMatch(c -> c.before().filter(bar::equals).isPresent() && c.after().isEmpty());
        }
      }
    }
  }

  @Test
  void aCorrectionIsToldInItsOwnWords() {
    Draft draft = Draft.of(Made.book(3));
    String bar = draft.map().bars().get(1).id();
    BarMap before = draft.map();
    for (Correction correction :
        List.of(
            new BarCorrection.SetCount(bar, 17),
            new HeldCorrection.SetMeter(bar, 7, 8),
            new SignCorrection.SetTimes(bar, Optional.of(3)))) {
      draft = ((Outcome.Done) Editing.correct(draft, correction)).draft();
    }
    List<MapChange> told = MapChanges.between(before, draft.map());
    assertThat(told).extracting(c -> c.correction().orElseThrow()).hasSize(3);
    assertThat(told).extracting(c -> c.bar().orElseThrow()).containsOnly(bar);
    assertThat(told.get(1).says()).endsWith(": played 3 times");
    assertThat(told.get(2).says()).startsWith("Meter at bar ").endsWith("→ 7/8");
  }
}
