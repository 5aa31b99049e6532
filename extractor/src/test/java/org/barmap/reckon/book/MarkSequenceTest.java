package org.barmap.reckon.book;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Enclosure;
import org.barmap.map.Outline;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;
import org.junit.jupiter.api.Test;

/** Letters follow letters, and a house draws its marks in one way (common practice). */
class MarkSequenceTest {

  @Test
  void aFaintLetterOutOfTheSequenceIsNoMark() {
    assertThat(kept(mark("A", 0.5, Enclosure.NONE), boxed("A"), boxed("B"))).containsExactly(1, 2);
    assertThat(kept(boxed("C"), mark("JJ", 0.52, Enclosure.NONE), boxed("D")))
        .containsExactly(0, 2);
  }

  @Test
  void aFaintLetterThatFollowsIsOne() {
    assertThat(
            kept(
                mark("C", 0.8, Enclosure.NONE),
                mark("D", 0.6, Enclosure.NONE),
                mark("E", 0.8, Enclosure.NONE)))
        .containsExactly(0, 1, 2);
  }

  @Test
  void aMarkWellSeenIsKeptWhateverItSays() {
    assertThat(kept(boxed("C"), boxed("R"), boxed("D"))).containsExactly(0, 1, 2);
    assertThat(kept(mark("Y", 0.85, Enclosure.NONE))).containsExactly(0);
  }

  @Test
  void aNumberHalfWayIsReadAsTheLetterBetween() {
    Sign between =
        mark("H", 0.8, Enclosure.BOX).saying(List.of(new Reading("1", 0.6), new Reading("I", 0.3)));
    List<MarkSequence.Settled> settled =
        MarkSequence.settle(List.of(boxed("H"), between, boxed("J")), List.of(true, false, false));
    assertThat(settled).extracting(MarkSequence.Settled::text).containsExactly("H", "I", "J");
    assertThat(settled.get(1).changed()).isTrue();
  }

  /** A house that numbers every fifth bar numbers no other one. */
  @Test
  void bareNumbersOverEveryFifthBarAreNoMarks() {
    List<Sign> fives =
        List.of(
            mark("15", 0.6, Enclosure.NONE),
            mark("28", 0.55, Enclosure.NONE),
            mark("50", 0.55, Enclosure.NONE),
            mark("55", 0.5, Enclosure.NONE));
    assertThat(CountingMarks.areMarks(fives, List.of(15, 37, 50, 55)))
        .containsExactly(false, false, false, false);
    assertThat(CountingMarks.areMarks(fives, List.of(15, 28, 50, 56)))
        .containsExactly(true, true, true, false);
    List<Sign> framed = List.of(boxed("15"), boxed("50"), boxed("55"));
    assertThat(CountingMarks.areMarks(framed, List.of(15, 50, 55)))
        .containsExactly(true, true, true);
  }

  private static List<Integer> kept(Sign... marks) {
    List<Boolean> restarts = new ArrayList<>(List.of(true));
    while (restarts.size() < marks.length) {
      restarts.add(false);
    }
    List<MarkSequence.Settled> settled = MarkSequence.settle(List.of(marks), restarts);
    List<Integer> kept = new ArrayList<>();
    for (int i = 0; i < settled.size(); i++) {
      if (settled.get(i).mark()) {
        kept.add(i);
      }
    }
    return kept;
  }

  private static Sign boxed(String text) {
    return mark(text, 0.8, Enclosure.BOX);
  }

  private static Sign mark(String text, double probability, Enclosure enclosure) {
    return new Sign(
        SignKind.REHEARSAL,
        10,
        12,
        -6,
        enclosure == Enclosure.NONE ? -4 : -3,
        Outline.box(0, 0, 1, 1),
        probability,
        List.of(new Reading(text, 0.98)),
        Optional.of(enclosure));
  }
}
