package org.barmap.edit;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.barmap.edit.draft.Aspect;
import org.barmap.edit.draft.Change;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.draft.Parts;
import org.barmap.edit.draft.Recount;
import org.barmap.edit.draft.Resettling;
import org.barmap.edit.kind.BarCorrection;
import org.barmap.edit.kind.Correction;
import org.barmap.edit.merge.Carrying;
import org.barmap.edit.merge.Merging;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.MusicalNumber;
import org.barmap.map.json.BarMapJson;
import org.barmap.map.json.BarMapSchema;
import org.barmap.map.rule.BarMapRules;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What holds for any corrections in any order, on made books from seeds. */
class EditingPropertyTest {

  private static final int STEPS = 60;

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16})
  void everyChangeRevertsAndUndoingAllGivesTheOriginal(long seed) {
    Draft original = Draft.of(Made.book(seed));
    RandomCorrections corrections = new RandomCorrections(seed);
    Deque<Draft> drafts = new ArrayDeque<>();
    Deque<Change> changes = new ArrayDeque<>();
    Draft now = original;
    for (int i = 0; i < STEPS; i++) {
      Outcome outcome = Editing.correct(now, corrections.next(now));
      if (outcome instanceof Outcome.Done done) {
        assertThat(undone(done)).isEqualTo(now);
        assertThat(Editing.redo(now, done.change(), "redo")).isEqualTo(redone(done));
        drafts.push(now);
        changes.push(throughJson(done.change()));
        now = done.draft();
      }
    }
    assertThat(changes.size()).as("corrections that fitted").isGreaterThan(STEPS / 3);
    while (!changes.isEmpty()) {
      Outcome undone = Editing.undo(now, changes.pop(), "undo");
      assertThat(undone).isInstanceOf(Outcome.Done.class);
      now = ((Outcome.Done) undone).draft();
      assertThat(now).isEqualTo(drafts.pop());
    }
    assertThat(now).isEqualTo(original);
  }

  @ParameterizedTest
  @ValueSource(longs = {101, 102, 103, 104, 105, 106, 107, 108})
  void whatAPersonSetHoldsWhenTheBookIsSettledAgain(long seed) {
    RandomCorrections corrections = new RandomCorrections(seed);
    Draft original = Resettling.judged(Draft.of(Made.bookWithEvidence(seed)));
    Draft now = original;
    Deque<Change> changes = new ArrayDeque<>();
    for (int i = 0; i < STEPS; i++) {
      Draft before = now;
      Correction correction = corrections.next(now);
      if (Editing.correct(now, correction) instanceof Outcome.Done done) {
        changes.push(done.change());
        now = done.draft();
        assertThat(undone(done)).isEqualTo(before);
        assertThat(BarMapRules.check(now.map())).as("after " + correction).isEmpty();
        if (correction instanceof BarCorrection one) {
          assertOthersHold(before, now, one);
        }
      }
    }
    while (!changes.isEmpty()) {
      now = ((Outcome.Done) Editing.undo(now, changes.pop(), "undo")).draft();
    }
    assertThat(now).isEqualTo(original);
  }

  private static Draft undone(Outcome.Done done) {
    return ((Outcome.Done) Editing.undo(done.draft(), done.change(), "undo")).draft();
  }

  private static Outcome redone(Outcome.Done done) {
    String text = undone(done).equals(done.draft()) ? "redo (as it was)" : "redo";
    return new Outcome.Done(done.draft(), done.change(), text);
  }

  /** A correction of one bar takes no bar away, and changes nothing a person set of another. */
  private static void assertOthersHold(Draft before, Draft now, BarCorrection correction) {
    for (Bar bar : before.map().bars()) {
      Set<Aspect> set = before.settled().of(bar.id());
      assertThat(now.map().bar(bar.id())).as(bar.id() + " after " + correction).isPresent();
      Bar is = now.map().bar(bar.id()).orElseThrow();
      if (!bar.id().equals(correction.bar()) && set.contains(Aspect.COUNT)) {
        assertThat(is.count()).as(bar.id() + " after " + correction).isEqualTo(bar.count());
      }
      if (!bar.id().equals(correction.bar()) && set.contains(Aspect.NUMBER)) {
        assertThat(is.number()).as(bar.id() + " after " + correction).isEqualTo(bar.number());
      }
    }
  }

  private static Change throughJson(Change change) {
    String json = BarMapJson.mapper().writeValueAsString(change);
    Change read = BarMapJson.mapper().readValue(json, Change.class);
    assertThat(read).isEqualTo(change);
    return read;
  }

  @ParameterizedTest
  @ValueSource(longs = {21, 22, 23, 24, 25, 26, 27, 28, 29, 30, 31, 32})
  void theMapStaysValidAndSane(long seed) {
    RandomCorrections corrections = new RandomCorrections(seed);
    Draft now = Draft.of(Made.book(seed));
    for (int i = 0; i < STEPS; i++) {
      Correction correction = corrections.next(now);
      Outcome outcome = Editing.correct(now, correction);
      if (outcome instanceof Outcome.Done done) {
        now = done.draft();
        BarMap map = now.map();
        assertThat(BarMapRules.check(map)).as("after " + correction).isEmpty();
        assertThat(BarMapSchema.check(BarMapJson.mapper().valueToTree(map)))
            .as("after " + correction)
            .isEmpty();
        assertThat(map.bars()).isSortedAccordingTo(Parts.READING_ORDER);
        assertNumbersCoverInOrder(map);
        assertThat(now.settled().bars().keySet()).isSubsetOf(map.barsById().keySet());
      } else {
        assertThat(((Outcome.Refused) outcome).reasons()).isNotEmpty().doesNotContain("");
      }
    }
  }

  private static void assertNumbersCoverInOrder(BarMap map) {
    int last = -1;
    for (MusicalNumber n : map.numbers()) {
      if (n.firstBar().isPresent()) {
        int first = map.indexOf(n.firstBar().get());
        assertThat(first).as("start of " + n).isGreaterThan(last);
        last = map.indexOf(n.lastBar().orElse(""));
        assertThat(last).as("end of " + n).isGreaterThanOrEqualTo(first);
      }
    }
  }

  @ParameterizedTest
  @ValueSource(longs = {41, 42, 43, 44, 45, 46, 47, 48})
  void aNumberSetByAPersonNeverMovesAndTheOthersCountOn(long seed) {
    RandomCorrections corrections = new RandomCorrections(seed);
    Draft now = Draft.of(Made.book(seed));
    for (int i = 0; i < STEPS; i++) {
      Draft before = now;
      Correction correction = corrections.next(now);
      Outcome outcome = Editing.correct(now, correction);
      now = outcome instanceof Outcome.Done done ? done.draft() : now;
      for (Bar bar : before.map().bars()) {
        boolean byHand = before.settled().has(bar.id(), Aspect.NUMBER);
        boolean same =
            correction instanceof BarCorrection b
                && b.bar().equals(bar.id())
                && b.sets().contains(Aspect.NUMBER);
        if (byHand && !same && now.map().bar(bar.id()).isPresent()) {
          assertThat(now.map().bar(bar.id()).orElseThrow().number())
              .as("number of " + bar.id() + " after " + correction)
              .isEqualTo(bar.number());
        }
      }
    }
  }

  @ParameterizedTest
  @ValueSource(longs = {51, 52, 53, 54, 55, 56, 57, 58})
  void numberingAnUntouchedMapAgainChangesNothing(long seed) {
    Draft draft = Draft.of(Made.book(seed));
    assertThat(Recount.numbered(draft, draft)).isEqualTo(draft);
  }

  @ParameterizedTest
  @ValueSource(longs = {3, 6, 10, 61, 62, 63, 64, 65, 66, 67, 68, 69, 70})
  void theSameReadingAgainChangesNothingAPersonDid(long seed) {
    BarMap read = Made.book(seed);
    RandomCorrections corrections = new RandomCorrections(seed);
    Draft now = Draft.of(read);
    for (int i = 0; i < 25; i++) {
      Outcome outcome = Editing.correct(now, corrections.next(now));
      now = outcome instanceof Outcome.Done done ? done.draft() : now;
    }
    Draft again = Merging.read(now, read);
    assertThat(BarMapRules.check(again.map())).isEmpty();
    assertThat(again.settled()).isEqualTo(now.settled());
    Set<String> kept = new HashSet<>(again.map().barsById().keySet());
    assertThat(kept).containsAll(now.settled().bars().keySet());
    for (String id : now.settled().bars().keySet()) {
      Bar was = now.map().bar(id).orElseThrow();
      Bar is = again.map().bar(id).orElseThrow();
      Set<Aspect> set = EnumSet.copyOf(now.settled().of(id));
      assertThat(Carrying.over(was, is, set)).as("what was set of " + id).isEqualTo(is);
    }
    for (int page : now.settled().verifiedPages()) {
      List<Bar> was =
          new ArrayList<>(now.map().bars().stream().filter(b -> b.page() == page).toList());
      List<Bar> is =
          new ArrayList<>(again.map().bars().stream().filter(b -> b.page() == page).toList());
      assertThat(is).as("verified page " + page).isEqualTo(was);
    }
  }

  @ParameterizedTest
  @ValueSource(longs = {3, 6, 10, 81, 82, 83, 84, 85, 86, 87, 88, 89, 90, 91, 92, 93, 94, 95, 96})
  void afterTheSameReadingTheMapIsTheOneThePersonLeft(long seed) {
    BarMap read = Made.wholeBook(seed);
    RandomCorrections corrections = new RandomCorrections(seed);
    Draft now = Draft.of(read);
    assertThat(Merging.read(now, read)).isEqualTo(now);
    for (int i = 0; i < 25; i++) {
      Correction correction = corrections.next(now);
      Outcome outcome = Editing.correct(now, correction);
      now = outcome instanceof Outcome.Done done ? done.draft() : now;
      Draft again = Merging.read(now, read);
      assertThat(firstDifference(now.map(), again.map())).as("after " + correction).isEmpty();
      assertThat(again.map().numbers()).as("after " + correction).isEqualTo(now.map().numbers());
      assertThat(again.map().pages()).as("after " + correction).isEqualTo(now.map().pages());
    }
  }

  private static String firstDifference(BarMap expected, BarMap is) {
    int most = Math.max(expected.bars().size(), is.bars().size());
    for (int i = 0; i < most; i++) {
      String a = i < expected.bars().size() ? expected.bars().get(i).toString() : "nothing";
      String b = i < is.bars().size() ? is.bars().get(i).toString() : "nothing";
      if (!a.equals(b)) {
        return a + " became " + b;
      }
    }
    return "";
  }

  @Test
  void everyKindIsDrawn() {
    Set<Class<?>> kinds = new HashSet<>();
    Draft draft = Draft.of(Made.book(1));
    RandomCorrections corrections = new RandomCorrections(1);
    for (int i = 0; i < 2000; i++) {
      kinds.add(corrections.next(draft).getClass());
    }
    // all but the answering of doubts, which changes no bar
    assertThat(kinds).hasSize(26);
  }
}
