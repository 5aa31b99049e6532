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
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Evidence;
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
    assertThat(codes(Draft.of(demoBook()))).isEmpty();
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

  /** One error moves every number after it: that is asked once, before the first of them. */
  @Test
  void printedNumbersThatAreOffByAsMuchAreOneDoubt() throws IOException {
    Draft demo = Draft.of(demoBook());
    Draft less = done(demo, new PageCorrection.RemoveSystem(1, 3)).draft();
    assertThat(codes(less)).containsExactly("print-differs@b14");
    assertThat(texts(less))
        .containsExactly(
            "At this line 19 is printed, but it counts as 14; the next 13 printed numbers are off"
                + " by as much.");
    Draft said = done(less, correction(less.open().get(0).answers().get(1).correction())).draft();
    assertThat(codes(said))
        .as("then the five bars that are gone")
        .containsExactly("numbers-jump@b14");
    assertThat(texts(said)).anyMatch(t -> t.contains("from 13 to 19"));
    Draft misread = done(less, dismissed(less.open().get(0))).draft();
    assertThat(codes(misread)).as("the next one says so, too").containsExactly("print-differs@b19");
    Draft checked = done(less, new PageCorrection.VerifyPage(1, true)).draft();
    assertThat(codes(checked)).as("another page says so, too").containsExactly("print-differs@b55");
  }

  private static PageCorrection.DismissDoubt dismissed(Finding doubt) {
    return new PageCorrection.DismissDoubt(doubt.code(), doubt.bar(), doubt.page());
  }

  /**
   * What was read of the first two lines: 5 is printed at the second, the rest can't be another.
   */
  @Test
  void aBeginningThatALineTakenOutMovedIsAsked() throws IOException {
    BarMap read =
        demoBook()
            .withBars(
                demoBook().bars().stream()
                    .map(b -> b.page() > 1 ? b : b.toBuilder().evidence(evidence(b)).build())
                    .toList());
    Draft without = done(Draft.of(read), new PageCorrection.RemoveSystem(1, 2)).draft();
    assertThat(without.map().bars().get(0).number())
        .as("as the print at bar 14 asks")
        .isEqualTo(10);
    assertThat(codes(without)).containsExactly("number-begins@b1");
    Draft said = done(without, new BarCorrection.SetNumber("b1", 1)).draft();
    assertThat(codes(said))
        .as("then where the bars are missing")
        .containsExactly("bars-missing@b9");
  }

  private static Optional<Evidence> evidence(Bar b) {
    List<Evidence.Alternative> count =
        b.count() > 1
            ? List.of(new Evidence.Alternative(Integer.toString(b.count()), 0.99))
            : List.of();
    boolean line = List.of(5, 14, 19, 26, 31).contains(b.number());
    List<Evidence.Alternative> number =
        line ? List.of(new Evidence.Alternative(Integer.toString(b.number()), 0.99)) : List.of();
    return Optional.of(new Evidence(count, number, 0.99));
  }

  private static BarMap demoBook() throws IOException {
    return BarMapJson.read(Path.of("..", "corpus", "saltmarsh", "saltmarsh.barmap.json"));
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
