package org.barmap.edit;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.kind.AddBarline;
import org.barmap.edit.kind.BarCorrection;
import org.barmap.edit.kind.Correction;
import org.barmap.edit.kind.NumberCorrection;
import org.barmap.edit.kind.PageCorrection;
import org.barmap.map.BarMap;
import org.barmap.map.Finding;
import org.barmap.map.json.BarMapJson;
import org.junit.jupiter.api.Test;

/**
 * Numbers, prints and order agree, or somebody is asked: of a page with the bars 1, 2, 3 to 5 and,
 * on a line with a printed 6, 6, 7 and 8.
 */
class ContradictionsTest extends SmallBook {

  private static List<String> codes(Draft draft) {
    return draft.open().stream().map(f -> f.code() + "@" + f.bar().orElse("")).toList();
  }

  @Test
  void aBookInOrderIsAskedNothing() throws IOException {
    assertThat(codes(draft)).isEmpty();
    BarMap demo = BarMapJson.read(Path.of("..", "corpus", "saltmarsh", "saltmarsh.barmap.json"));
    assertThat(codes(Draft.of(demo))).isEmpty();
  }

  @Test
  void numbersThatJumpOrGoBackAreAskedAfterAPersonsEdit() {
    Draft on = done(new BarCorrection.SetNumber("b3", 19)).draft();
    assertThat(codes(on)).contains("numbers-jump@b3");
    assertThat(texts(on)).anyMatch(t -> t.contains("from 2 to 19 here: 3 to 18 are nowhere"));
    Draft back = done(new BarCorrection.SetNumber("b2", 135)).draft();
    assertThat(codes(back)).contains("numbers-jump@b2", "print-differs@b4");
    assertThat(texts(back)).anyMatch(t -> t.contains("6 is printed, but it counts as 139"));
  }

  private static List<String> texts(Draft draft) {
    return draft.open().stream().map(Finding::text).toList();
  }

  @Test
  void aLineTakenOutLeavesAGapThatIsAsked() {
    Draft less = done(new PageCorrection.RemoveSystem(1, 1)).draft();
    assertThat(less.map().bars()).hasSize(3);
    Draft split = done(new AddBarline(1, 1, 300, 260)).draft();
    assertThat(codes(split)).as("the print says 6, it counts as 7").contains("print-differs@b4");
  }

  @Test
  void theAnswerGoesAwayAndAnotherContradictionIsAskedAgain() {
    Draft on = done(new BarCorrection.SetNumber("b3", 19)).draft();
    Draft right =
        done(on, new PageCorrection.DismissDoubt("numbers-jump", Optional.of("b3"), Optional.of(1)))
            .draft();
    assertThat(codes(right)).doesNotContain("numbers-jump@b3");
    Draft again = done(right, new BarCorrection.SetNumber("b3", 25)).draft();
    assertThat(codes(again)).contains("numbers-jump@b3");
    Draft counted = done(again, new BarCorrection.SetNumber("b3", 3)).draft();
    assertThat(codes(counted)).isEmpty();
  }

  /** Inserted bars have the number they follow and a letter (common practice). */
  @Test
  void insertedBarsAreNoContradiction() {
    Draft a = done(new BarCorrection.SetLabel("b5", "6A")).draft();
    Draft b = done(a, new BarCorrection.SetLabel("b6", "6B")).draft();
    assertThat(codes(b)).isEmpty();
  }

  @Test
  void aCheckedPageThatIsRenumberedSaysSo() {
    Draft checked = done(new PageCorrection.VerifyPage(1, true)).draft();
    assertThat(codes(checked)).isEmpty();
    Draft off = done(checked, new BarCorrection.SetNumber("b4", 9)).draft();
    assertThat(codes(off)).containsExactlyInAnyOrder("numbers-jump@b4");
    Draft known = done(new BarCorrection.SetNumber("b4", 9)).draft();
    Draft seen = done(known, new PageCorrection.VerifyPage(1, true)).draft();
    assertThat(codes(seen)).as("it was looked at with the page").isEmpty();
  }

  @Test
  void musicalNumbersOutOfOrderAreAsked() {
    Draft back = done(new NumberCorrection.StartNumber("b4", "5", "")).draft();
    assertThat(codes(back)).contains("order-back@b4");
    Draft same = done(new NumberCorrection.StartNumber("b4", "7", "")).draft();
    assertThat(codes(same)).contains("order-same@b4");
    Draft next = done(new NumberCorrection.StartNumber("b4", "7A", "")).draft();
    assertThat(codes(next)).noneMatch(c -> c.startsWith("order"));
  }

  /**
   * A part names the numbers its player rests in, "No. 3 TACET", over the music of the next one
   * (common practice); read together, No. 4's music is called No. 3, and 4 is missing.
   */
  @Test
  void aGapInTheOrderOfNumbersIsAskedWithTacetAmongItsAnswers() {
    Draft gap = done(new NumberCorrection.StartNumber("b4", "9", "")).draft();
    Finding asked =
        gap.open().stream().filter(f -> f.code().equals("order-gap")).findFirst().orElseThrow();
    assertThat(asked.bar()).contains("b4");
    assertThat(asked.text()).contains("No. 7", "No. 9", "No. 8");
    assertThat(asked.answers())
        .extracting(Finding.Answer::label)
        .containsExactly(
            "No. 8 is tacet", "The music before is No. 8", "No. 8 is not in this part");
    Draft tacet = done(gap, correction(asked.answers().get(0).correction())).draft();
    assertThat(tacet.map().numbers()).extracting(n -> n.label()).containsExactly("7", "8", "9");
    assertThat(codes(tacet)).noneMatch(c -> c.startsWith("order"));
    Draft renamed = done(gap, correction(asked.answers().get(1).correction())).draft();
    assertThat(renamed.map().numbers()).extracting(n -> n.label()).containsExactly("8", "9");
    assertThat(renamed.map().numbers().get(0).title()).isEqualTo("Low Tide");
    assertThat(codes(renamed)).noneMatch(c -> c.startsWith("order"));
    Draft right =
        done(gap, new PageCorrection.DismissDoubt("order-gap", Optional.of("b4"), Optional.of(1)))
            .draft();
    assertThat(codes(right)).noneMatch(c -> c.startsWith("order"));
    Draft wide = done(new NumberCorrection.StartNumber("b4", "12", "")).draft();
    assertThat(texts(wide)).anyMatch(t -> t.contains("No. 8 to No. 11"));
  }

  private static Correction correction(Map<String, String> answer) {
    return BarMapJson.mapper().convertValue(answer, Correction.class);
  }
}
