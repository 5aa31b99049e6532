package org.barmap.plan.reference.against;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.reference.Aspect;
import org.barmap.plan.reference.Walked.Playing;
import org.barmap.plan.reference.against.PlanUnderTest.Planned;
import org.barmap.plan.reference.against.PlanUnderTest.PlannedBar;
import org.barmap.plan.reference.against.PlanUnderTest.PlannedOpen;
import org.barmap.plan.reference.books.ChangeNotation;
import org.barmap.plan.reference.books.Notation;
import org.barmap.plan.reference.books.RandomBook;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** Plans written by hand from {@code barplan-1.schema.json} are read and compared. */
class ReferenceBarplanTest {

  private static final RandomBook BOOK =
      new RandomBook(
          "No.1 1<4/4>{♩_=_100} R2*4 6 |: 7 8 :| 9 No.2 1",
          List.of(
              "No.1 cut 3..4",
              "No.1 cut 6 beat 3..6",
              "No.1 insert after 9 2 9A",
              "No.1 vamp 7..8"),
          false);

  private static JsonNode plan(String order, String findings) {
    return BarMapJson.mapper()
        .readTree(
            """
            {"format": "barplan/1", "turns": [], "rests": [], "instruments": [], "pencil": [],
             "findings": [%s],
             "numbers": [
               {"label": "1", "played": {"bars": 0}, "open": [{"kind": "vamp", "first": "b4", "last": "b5"}],
                "pace": [{"from": 0, "beats": 4, "perMinute": 100}], "order": [%s]},
               {"label": "2", "state": "played", "played": {"bars": 1}, "open": [],
                "order": [{"bar": "b7", "pass": 1}]}]}
            """
                .formatted(findings, order));
  }

  private static final String RIGHT =
      """
      {"bar": "b1", "pass": 1}, {"bar": "b2", "pass": 1, "bars": 1}, {"bar": "b2", "pass": 1, "from": 4, "bars": 1},
      {"bar": "b3", "pass": 1, "beatsCut": 2, "beatsCutEnd": 2}, {"bar": "b4", "pass": 1}, {"bar": "b5", "pass": 1},
      {"bar": "b6", "pass": 1}, {"bar": "b6", "pass": 1, "inserted": "9A", "bars": 2}
      """;

  private static PlanUnderTest reads(JsonNode plan) {
    return (map, changes, repeats) ->
        BarplanReader.read(plan, map, changes, f -> !f.get("severity").asString().equals("info"));
  }

  @Test
  void thePlanThatIsRightAgrees() {
    Comparison.Result result = new Comparison(reads(plan(RIGHT, ""))).compare(BOOK);
    assertThat(result.says()).isEmpty();
    assertThat(result.verdict()).isEqualTo(Verdict.AGREE);
    assertThat(result.bars()).isEqualTo(10);
  }

  @Test
  void aPlanThatForgetsTheBeatsOfACutDiffers() {
    String wrong = RIGHT.replace(", \"beatsCut\": 2, \"beatsCutEnd\": 2", "");
    Comparison.Result result = new Comparison(reads(plan(wrong, ""))).compare(BOOK);
    assertThat(result.verdict()).isEqualTo(Verdict.ORDER);
    assertThat(result.says()).contains("walker b1 b2 b2/3 b3-0.0-0.0-2.0").contains("b2/3 b3 b4");
  }

  @Test
  void findingsOfANumberAreItsQuestions() {
    BarMap map = Notation.book("No.1 1 2 No.2 1");
    List<JsonNode> changes = List.of(ChangeNotation.change("c1", "No.2 cut 7..7"));
    JsonNode plan =
        BarMapJson.mapper()
            .readTree(
                """
                {"findings": [
                   {"severity": "doubt", "text": "no bar 7", "change": "c1"},
                   {"severity": "info", "text": "nothing", "at": "b1"}],
                 "numbers": [
                   {"label": "1", "open": [], "order": []},
                   {"label": "2", "state": "tacet", "order": [], "open": [{"kind": "safety", "first": "b3", "last": "b3"}]}]}
                """);
    Planned read =
        BarplanReader.read(plan, map, changes, f -> !f.get("severity").asString().equals("info"));
    assertThat(read.asked()).isFalse();
    assertThat(read.numbers().get(0).asked()).isFalse();
    assertThat(read.numbers().get(1).asked()).isTrue();
    assertThat(read.numbers().get(1).playing()).isEqualTo(Playing.TACET);
    assertThat(read.numbers().get(1).open().orElseThrow())
        .containsExactly(new PlannedOpen("safety", "b3", 0, "b3", 0));
  }

  @Test
  void paceTellsBeatsAndTempo() {
    Planned read = reads(plan(RIGHT, "")).plan(BOOK.map(), BOOK.json(), BOOK.repeatsAfterJump());
    PlannedBar last = read.numbers().get(0).order().get(8);
    assertThat(last.inserted()).contains("9B");
    assertThat(last.state()).containsEntry(Aspect.TEMPO, "100").containsEntry(Aspect.BEATS, "4");
  }
}
