package org.barmap.edit;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.stream.Collectors;
import org.barmap.edit.draft.Change;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.draft.Resettling;
import org.barmap.edit.draft.Settled;
import org.barmap.edit.kind.BarCorrection;
import org.barmap.edit.kind.Correction;
import org.barmap.edit.kind.PageCorrection;
import org.barmap.edit.merge.Merging;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Evidence;
import org.barmap.map.Finding;
import org.barmap.map.json.BarMapJson;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * What holds of doubts whatever people answer, correct, take back and read again, on made books of
 * which some was misread.
 */
class DoubtsPropertyTest {

  private static final int STEPS = 40;

  /** A step, and what was asked before it. */
  private record Step(Draft before, Change change, Set<String> answered) {}

  private final Deque<Step> done = new ArrayDeque<>();
  private int answers;
  private int undone;
  private int contradictions;

  @ParameterizedTest
  @ValueSource(longs = {201, 202, 203, 204, 205, 206, 207, 208, 209, 210, 211, 212})
  void noAnsweredDoubtComesBackAndNoContradictionIsLeftUnasked(long seed) {
    BarMap read = Made.bookWithEvidence(seed);
    Random random = new Random(seed);
    RandomCorrections corrections = new RandomCorrections(seed);
    Draft now = Resettling.settled(Draft.of(read));
    Set<String> answered = Set.of("nobody asked this");
    for (int i = 0; i < STEPS; i++) {
      int what = random.nextInt(10);
      if (what < 2 && !done.isEmpty()) {
        Step back = done.pop();
        now = undo(now, back);
        answered = back.answered();
        assertThat(now).as("undone").isEqualTo(back.before());
        undone++;
      } else {
        boolean answers = what < 6 && !now.open().isEmpty();
        Draft before = now;
        Optional<Finding> doubt =
            answers
                ? Optional.of(before.open().get(random.nextInt(before.open().size())))
                : Optional.empty();
        Correction correction =
            doubt.map(f -> answer(f, random)).orElseGet(() -> corrections.next(before));
        if (Editing.correct(now, correction) instanceof Outcome.Done step) {
          done.push(new Step(now, step.change(), answered));
          Set<String> more = new HashSet<>(answered);
          doubt.ifPresent(f -> more.add(said(f)));
          answered = more;
          now = step.draft();
          this.answers += answers ? 1 : 0;
        }
      }
      assertThat(now.open())
          .extracting(DoubtsPropertyTest::said)
          .doesNotContainAnyElementsOf(answered);
      assertThat(unasked(now)).isEmpty();
      assertThat(Resettling.settled(now)).as("settled once more").isEqualTo(now);
    }
    assertThat(answers).as("doubts answered").isPositive();
    assertThat(undone).as("steps taken back").isPositive();
    Draft again = Merging.read(now, read);
    assertThat(again.settled().dismissed()).isEqualTo(now.settled().dismissed());
    assertThat(again.open())
        .extracting(DoubtsPropertyTest::said)
        .doesNotContainAnyElementsOf(answered);
  }

  private static Draft undo(Draft now, Step step) {
    return ((Outcome.Done) Editing.undo(now, step.change(), "undo")).draft();
  }

  private static Correction answer(Finding f, Random random) {
    return f.answers().isEmpty() || random.nextBoolean()
        ? dismissing(f)
        : f.answers().stream()
            .skip(random.nextInt(f.answers().size()))
            .map(Finding.Answer::correction)
            .filter(c -> !c.isEmpty())
            .findFirst()
            .<Correction>map(c -> BarMapJson.mapper().convertValue(c, Correction.class))
            .orElseGet(() -> dismissing(f));
  }

  private static Correction dismissing(Finding f) {
    return new PageCorrection.DismissDoubt(f.code(), f.bar(), f.page());
  }

  /** A doubt as a person sees it. */
  private static String said(Finding f) {
    return f.bar().orElse("") + ": " + f.text();
  }

  /** Bars whose printed number is another one than counted, and nobody asks nor answered. */
  private List<String> unasked(Draft draft) {
    Set<String> asked =
        draft.open().stream()
            .filter(f -> f.code().equals("number-misread"))
            .map(f -> f.bar().orElse(""))
            .collect(Collectors.toSet());
    Set<String> silent =
        draft.settled().dismissed().stream()
            .filter(k -> k.startsWith("number-misread@"))
            .map(k -> k.substring(k.indexOf('@') + 1))
            .collect(Collectors.toSet());
    List<Bar> wrong =
        draft.map().bars().stream()
            .filter(b -> !draft.settled().verifiedPages().contains(b.page()))
            .filter(DoubtsPropertyTest::contradicts)
            .toList();
    contradictions += wrong.size();
    return wrong.stream()
        .filter(b -> !asked.contains(b.id()))
        .filter(b -> silent.stream().noneMatch(k -> k.startsWith(b.id() + "#" + b.number() + ",")))
        .map(Bar::toString)
        .toList();
  }

  private static boolean contradicts(Bar bar) {
    return bar.evidence().map(Evidence::numbers).orElse(List.of()).stream()
        .limit(1)
        .anyMatch(a -> !a.text().equals(Integer.toString(bar.number())));
  }

  /** The same printed number against another count is another doubt; an older answer is to all. */
  @Test
  void anotherClaimAtTheSameBarIsAskedAndAnAnswerOfAnOlderProgramHolds() {
    Draft draft = Resettling.settled(Draft.of(Made.bookWithEvidence(201)));
    Finding doubt = Made.open(draft, "number-misread");
    assertThat(unasked(draft)).isEmpty();
    assertThat(contradictions).as("printed numbers that contradict the counting").isPositive();
    String bar = doubt.bar().orElseThrow();
    int at = draft.map().indexOf(bar);
    Draft dismissed = done(draft, dismissing(doubt));
    assertThat(kinds(dismissed, bar)).doesNotContain("number-misread");
    String earlier = draft.map().bars().get(at - 1).id();
    int number = draft.map().bars().get(at - 1).number();
    Draft shifted = done(dismissed, new BarCorrection.SetNumber(earlier, number + 3));
    assertThat(shifted.map().bars().get(at).number())
        .isNotEqualTo(draft.map().bars().get(at).number());
    assertThat(kinds(shifted, bar)).contains("number-misread");
    Settled old = draft.settled().withDismissed(Set.of("number-misread@" + bar));
    Draft older = Resettling.judged(draft.with(old));
    assertThat(kinds(older, bar)).doesNotContain("number-misread");
  }

  private static List<String> kinds(Draft draft, String bar) {
    return draft.open().stream()
        .filter(f -> f.bar().orElse("").equals(bar))
        .map(Finding::code)
        .toList();
  }

  private static Draft done(Draft draft, Correction correction) {
    return ((Outcome.Done) Editing.correct(draft, correction)).draft();
  }
}
