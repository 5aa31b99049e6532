package org.barmap.edit;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.draft.Resettling;
import org.barmap.edit.draft.Settled;
import org.barmap.edit.kind.BarCorrection;
import org.barmap.edit.kind.Correction;
import org.barmap.edit.kind.PageCorrection;
import org.barmap.map.BarMap;
import org.barmap.map.Finding;
import org.barmap.map.json.BarMapJson;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Whatever is asked can be answered, by every answer it offers and by "it is right as it is". */
class AnsweringTest {

  @ParameterizedTest
  @ValueSource(longs = {301, 302, 303, 304, 305, 306})
  void everyAnswerOfEveryDoubtIsTakenAndTheDoubtIsGone(long seed) {
    Draft now = Resettling.settled(Draft.of(Made.bookWithEvidence(seed)));
    RandomCorrections corrections = new RandomCorrections(seed);
    List<String> wrong = new ArrayList<>();
    for (int i = 0; i < 12; i++) {
      BarMap asking = now.map();
      for (Finding f : now.open()) {
        for (Correction c : answers(f)) {
          Outcome outcome = Editing.correct(now, c);
          if (outcome instanceof Outcome.Refused refused) {
            wrong.add(f.code() + " " + c + " refused: " + refused.reasons());
          } else if (outcome instanceof Outcome.Done done
              && done.draft().open().stream()
                  .map(o -> Settled.claim(o, done.draft().map()))
                  .anyMatch(Settled.claim(f, asking)::equals)) {
            wrong.add(f.code() + " " + c + " is asked again");
          }
        }
      }
      if (Editing.correct(now, corrections.next(now)) instanceof Outcome.Done done) {
        now = done.draft();
      }
    }
    assertThat(wrong).isEmpty();
  }

  /** A bar whose print looks like 23 is called 23A: what its number was asked for is answered. */
  @Test
  void aNameAnswersWhatWasAskedOfTheNumber() {
    Draft draft = Resettling.settled(Draft.of(Made.bookWithEvidence(201)));
    Finding doubt = Made.open(draft, "number-misread");
    String bar = doubt.bar().orElseThrow();
    int number = draft.map().bar(bar).orElseThrow().number();
    Draft named =
        ((Outcome.Done) Editing.correct(draft, new BarCorrection.SetLabel(bar, number + "A")))
            .draft();
    assertThat(named.open())
        .noneMatch(f -> f.code().equals(doubt.code()) && f.bar().equals(doubt.bar()));
  }

  /** Two people at one doubt, or two clicks: said twice is said once. */
  @Test
  void aDoubtDismissedTwiceIsNoMistake() {
    Draft draft = Resettling.settled(Draft.of(Made.bookWithEvidence(301)));
    Finding doubt = draft.open().get(0);
    Correction right = answers(doubt).get(0);
    Draft once = ((Outcome.Done) Editing.correct(draft, right)).draft();
    Outcome twice = Editing.correct(once, right);
    assertThat(twice).isInstanceOf(Outcome.Done.class);
    assertThat(((Outcome.Done) twice).draft()).isEqualTo(once);
    assertThat(
            Editing.correct(
                once, new PageCorrection.DismissDoubt("nothing", doubt.bar(), Optional.empty())))
        .isInstanceOf(Outcome.Refused.class);
  }

  private static List<Correction> answers(Finding f) {
    List<Correction> all = new ArrayList<>();
    all.add(new PageCorrection.DismissDoubt(f.code(), f.bar(), Optional.empty()));
    f.answers().stream()
        .map(Finding.Answer::correction)
        .filter(c -> !c.isEmpty())
        .forEach(c -> all.add(BarMapJson.mapper().convertValue(Map.copyOf(c), Correction.class)));
    return all;
  }
}
