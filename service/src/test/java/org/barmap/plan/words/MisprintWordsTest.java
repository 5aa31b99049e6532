package org.barmap.plan.words;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.List;
import org.barmap.exchange.Errata;
import org.barmap.map.BarMap;
import org.barmap.plan.Changes;
import org.barmap.plan.KeptNote;
import org.barmap.plan.Plan;
import org.barmap.plan.PlanJson;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.cases.BookNotation;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.ShowChanges;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Misprints as players say them (common practice), kept for the hirer; nothing else follows. */
class MisprintWordsTest {
  private static final BarMap BOOK =
      BookNotation.read("#7'Low Tide' 4/4 m20 / m20 // @B m20 #8 4/4 m8").map();

  @ParameterizedTest
  @CsvSource({
    "misprint: bar 12 should be B flat, 12, bar 12 should be B flat",
    "misprint at 12: should be B flat, 12, should be B flat",
    "Misprint in bar 12: should be B flat, 12, should be B flat",
    "erratum at B: no repeat sign, 41, no repeat sign",
    "errata: the slur is missing, '', the slur is missing",
    "wrong note bar 40, 40, wrong note",
    "wrong note in bar 40., 40, wrong note",
    "missing flat at bar 7, 7, missing flat",
    "misprint bar 9, 9, misprint",
  })
  void aMisprintIsKeptForTheHirer(String said, String bar, String text) {
    Plan plan = plan("No. 7: " + said);
    assertThat(plan.notes()).singleElement().matches(KeptNote::errata);
    assertThat(plan.notes().get(0).bar().orElse("")).isEqualTo(bar);
    assertThat(plan.notes().get(0).text()).isEqualTo(text);
    Plan without = Planner.plan(BOOK, ShowChanges.none(), PlanSettings.USUAL);
    assertThat(plan.numbers()).isEqualTo(without.numbers());
    assertThat(plan.pencil()).isEqualTo(without.pencil());
  }

  @ParameterizedTest
  @CsvSource({"note: the misprint was mended", "note at 12: wrong note last night"})
  void aNoteStaysANote(String said) {
    assertThat(plan("No. 7: " + said).notes()).singleElement().matches(n -> !n.errata());
  }

  @Test
  void theTableNamesNumberPageLineAndBar() throws IOException {
    StringBuilder table = new StringBuilder();
    Plan plan =
        plan("No. 8: misprint: =no key signature\nNo. 7: wrong note bar 40\nNo. 7: note: loud");
    Errata.write(Errata.of(BOOK, plan.notes()), table);
    assertThat(table.toString().split("\r\n"))
        .containsExactly(
            "musical number,title,page,line,bar,misprint,noted on",
            "7,Low Tide,1,2,40,wrong note,",
            "8,,,,,'=no key signature,");
  }

  /** Documents written before misprints were told have no key for them, and get none. */
  @Test
  void anOldNoteStaysAsItWas() throws IOException {
    String old =
        "{\"format\":\"changes/1\",\"changes\":[{\"id\":\"a\",\"number\":\"7\",\"kind\":\"note\","
            + "\"text\":\"loud\"}]}";
    assertThat(ChangesJson.write(ChangesJson.read(old))).doesNotContain("errata");
    assertThat(PlanJson.write(plan("No. 7: note: loud"))).doesNotContain("errata");
    assertThat(PlanJson.write(plan("No. 7: misprint: loud"))).contains("\"errata\"");
  }

  private static Plan plan(String said) {
    return Planner.plan(BOOK, Changes.said(BOOK, said), PlanSettings.USUAL);
  }

  @Test
  void saidAgainItIsTheSame() {
    List<String> lines =
        org.barmap.exchange.CutList.lines(Changes.said(BOOK, "No. 7: wrong note bar 40"));
    assertThat(lines).containsExactly("No. 7: misprint at 40: wrong note");
  }
}
