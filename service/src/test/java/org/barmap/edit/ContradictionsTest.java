package org.barmap.edit;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.kind.AddBarline;
import org.barmap.edit.kind.BarCorrection;
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
}
