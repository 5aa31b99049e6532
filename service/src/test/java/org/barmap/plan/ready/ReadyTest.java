package org.barmap.plan.ready;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.barmap.plan.Changes;
import org.barmap.plan.Plan;
import org.barmap.plan.turn.Verdict;
import org.junit.jupiter.api.Test;

/** Getting ready: at least 6 s for instrument or mute (NZSM part guidelines, second-hand). */
class ReadyTest {

  @Test
  void theTimeIsTheSilenceAroundTheChange() {
    GetReady enough = one("1@w:q_=_60 2@rest@w:To_Electric_Bass 3@rest 4");
    assertThat(enough.from()).contains("double bass");
    assertThat(enough.to()).isEqualTo("electric bass");
    assertThat(enough.seconds()).contains(8.0);
    assertThat(enough.verdict()).isEqualTo(Verdict.TIME);
    assertThat(one("1@w:q_=_60 2@rest 3@w:electric_bass").verdict()).isEqualTo(Verdict.QUICK);
    GetReady none = one("1@w:q_=_60@rest 2@rest 3 4 5@w:electric_bass");
    assertThat(none.verdict()).isEqualTo(Verdict.NONE);
    assertThat(none.seconds()).contains(0.0);
    assertThat(none.earlier()).contains("b1");
    assertThat(none.text()).contains("earlier rest");
    assertThat(one("1@w:q_=_60 2 3@w:electric_bass").text()).contains("ask the director");
  }

  /** A player plucks with the bow in the hand and asks nobody; common practice. */
  @Test
  void aPizzicatoIsNothingToSettleWithAnyone() {
    List<GetReady> all = Changes.plan("1@w:arco@w:q_=_60 2 3@w:pizz. 4", "").instruments();
    assertThat(all.get(0).text()).contains("Keep the bow in the hand").doesNotContain("director");
  }

  @Test
  void bowAndMuteAreFollowedToo() {
    List<GetReady> all =
        Changes.plan("1@w:arco@w:q_=_60 2 3@w:pizz. 4@rest 5@w:arco 6@w:con_sord. 7", "")
            .instruments();
    assertThat(all)
        .extracting(r -> r.kind().word() + " " + r.to() + " " + r.verdict().word())
        .containsExactly("bow pizz none", "bow arco time", "mute mute on none");
  }

  @Test
  void aJumpAndACutLandWithWhatTheBookHasThere() {
    assertThat(Changes.plan("1@w:q_=_60 2@rest@w:electric_bass 3@rest 4@dc", "").instruments())
        .extracting(r -> r.at() + " " + r.to() + " " + r.pass())
        // Announced in a rest, it is needed at the next note.
        .containsExactly("b4 electric bass 1", "b1 double bass 2", "b4 electric bass 2")
        .hasSize(3);
    assertThat(Changes.plan("1 2@w:electric_bass 3 4", "cut 2 to 3").instruments())
        .extracting(GetReady::at)
        .containsExactly("b4");
  }

  @Test
  void aChangeOfInstrumentSaidInWordsCounts() {
    assertThat(Changes.plan("1 2 3 4", "electric bass at 3").instruments())
        .extracting(GetReady::at)
        .containsExactly("b3");
  }

  @Test
  void whatChangesAtOnceAddsUp() {
    List<GetReady> all =
        Changes.plan("1@w:arco@w:q_=_60 2@rest@w:pizz. 3@w:con_sord.", "").instruments();
    assertThat(all).extracting(GetReady::needed).containsExactly(3.0, 3.0);
    assertThat(all).extracting(GetReady::verdict).containsOnly(Verdict.TIME);
    assertThat(all.get(0).text()).contains("for all that changes here");
  }

  @Test
  void onlyAnInstrumentIsForTheDirectorToSettle() {
    assertThat(one("1@w:arco@w:q_=_60 2 3@w:pizz.").text()).doesNotContain("director");
  }

  @Test
  void overALinkThereIsAsMuchTimeAsTheLinkLeaves() {
    String book = "%1 1@w:q_=_60 2 %2 3@w:electric_bass 4";
    assertThat(Changes.plan(book, "No. 1: attacca").instruments())
        .extracting(GetReady::verdict)
        .containsExactly(Verdict.NONE);
    assertThat(Changes.plan(book, "No. 1: applause, 8 s").instruments())
        .extracting(GetReady::verdict)
        .containsExactly(Verdict.TIME);
    GetReady unsaid = Changes.plan(book, "").instruments().get(0);
    assertThat(unsaid.verdict()).isEqualTo(Verdict.UNKNOWN);
    assertThat(unsaid.because()).isPresent();
  }

  @Test
  void whereTheNumberBeforeIsOutThePageCountsAndIsAsked() {
    Plan plan = Changes.plan("%1 1 2 %2 3@w:electric_bass 4 %3 5 6", "No. 2 is cut");
    assertThat(plan.instruments()).extracting(GetReady::to).containsExactly("electric bass");
    assertThat(plan.findings())
        .anyMatch(f -> f.code().equals("in-hand") && f.question().isPresent());
  }

  private static GetReady one(String written) {
    List<GetReady> all = Changes.plan(written, "").instruments();
    assertThat(all).hasSize(1);
    return all.get(0);
  }
}
