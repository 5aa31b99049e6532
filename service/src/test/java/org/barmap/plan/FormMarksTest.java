package org.barmap.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;

import com.fasterxml.jackson.annotation.JsonTypeName;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.FormMark.Place;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.kind.Kinds;
import org.barmap.plan.change.kind.ShowChange;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.node.ObjectNode;

/** Every change of the show stands somewhere in the form. */
class FormMarksTest {

  private static final BarMap BOOK =
      Books.book("%1 1 2 3 4@mr8 12 13 14 15@mA 16 17 18 19 20 %2 a1 a2 a3 a4 %3 c1 c2");

  /** What is looked for of every kind: place, sign, where it begins and ends. */
  private static final String ALL =
      """
      cut: bars cut 2 to 3 b2+0.0 b3+1.0
      restore: bars 3 back in b3+0.0 b3+1.0
      vamp: bars vamp 5-6 till cue, out any time b4+0.125 b4+0.375
      safety: bars safety 12 if needed b12+0.0 b12+1.0
      play: bars 3X b13+0.0 b14+1.0
      insert: new-bars + 2 bars b14+1.0
      tacet: head TACET
      cut-number: head CUT, on to the next number
      order: show order of numbers: 1, 3, 2
      tempo: bars \u2669 = 90 b15+0.0
      tempo-word: bars a little faster b15+0.0
      without: bars no hold b20+0.0
      key: bars 3 flats b16+0.0
      beats: bars in 2 b16+0.0 b17+1.0
      instrument: bars to electric bass b17+0.0
      remind: bars glasses (watch) b18+0.0
      link: end attacca
      only: bars 2nd X only b18+0.0 b19+1.0
      not: bars tacet b19+0.0 b20+1.0
      hold: bars HOLD b20+0.0
      gp: bars G.P. // b16+0.0
      rit: bars rit. b18+0.0 b20+1.0
      accel: bars accel. b12+0.0 b13+1.0
      a-tempo: bars a tempo b14+0.0
      meter: bars 3/4 b19+0.0 b19+1.0
      transpose: bars UP A WHOLE TONE b1+0.0 b20+1.0
      track: head TRACK
      jump: bars 2X b19+0.0 b20+1.0
      repeats-after-jump: head D.C./D.S. with repeats
      note: bars note at 2: loud clock b2+0.0 b2+1.0
      """;

  private static ShowChange change(String json, int i) {
    ObjectNode node = (ObjectNode) BarMapJson.mapper().readTree(json);
    return ChangesJson.readOne(node.put("id", "c" + i));
  }

  private static List<FormMark> marks(String... json) {
    List<ShowChange> made = new ArrayList<>();
    for (String one : json) {
      made.add(change(one, made.size()));
    }
    ShowChanges changes = new ShowChanges(made);
    return FormMarks.of(BOOK, changes, Planner.plan(BOOK, changes, PlanSettings.USUAL));
  }

  private static String said(FormMark mark) {
    return (mark.place().word()
            + " "
            + mark.sign()
            + mark.from().map(f -> " " + f.bar() + "+" + f.at()).orElse("")
            + mark.to().map(t -> " " + t.bar() + "+" + t.at()).orElse(""))
        .strip();
  }

  @Test
  void everyKindOfChangeHasItsPlaceAndNoneIsForgotten() {
    TreeSet<String> tried = new TreeSet<>();
    for (String line : ALL.strip().split("\n")) {
      String[] both = line.split(": ", 2);
      tried.add(both[0]);
      String example = Optional.ofNullable(Kinds.examples().get(both[0])).orElseThrow();
      assertThat(marks(example).stream().map(FormMarksTest::said).toList())
          .as(both[0])
          .containsExactly(both[1]);
    }
    assertThat(tried)
        .isEqualTo(
            Kinds.all()
                .map(k -> k.getAnnotation(JsonTypeName.class).value())
                .collect(Collectors.toCollection(TreeSet::new)));
  }

  @Test
  void newBarsKeepTheirNames() {
    FormMark mark =
        marks(
                "{\"number\":\"1\",\"kind\":\"insert\",\"after\":\"14\",\"bars\":2,\"label\":\"14A\"}")
            .get(0);
    assertThat(mark.added()).containsExactly("14A", "14B");
    assertThat(mark.says()).isEqualTo("insert 2 bars after 14 (14A)");
  }

  /** A goes-on in another number is a cut here, the numbers between, and a cut there. */
  @Test
  void oneChangeStandsInEveryNumberItIsAbout() {
    assertThat(
            marks(
                "{\"number\":\"1\",\"kind\":\"jump\",\"from\":\"12\",\"toNumber\":\"3\",\"to\":\"2\"}"))
        .extracting(FormMark::number, FormMark::place)
        .containsExactlyInAnyOrder(
            tuple("1", Place.BARS),
            tuple("1", Place.END),
            tuple("2", Place.HEAD),
            tuple("3", Place.BARS));
  }

  @Test
  void whatNamesABarThatIsNotThereIsNotDropped() {
    assertThat(marks("{\"number\":\"1\",\"kind\":\"cut\",\"first\":\"70\",\"last\":\"80\"}"))
        .extracting(FormMark::place)
        .containsExactly(Place.LOST);
    assertThat(marks("{\"number\":\"9\",\"kind\":\"cut\",\"first\":\"1\",\"last\":\"2\"}"))
        .extracting(FormMark::place)
        .containsExactly(Place.LOST);
  }

  @Test
  void aCutThatIsBackInHasNoPlaceAnyMore() {
    assertThat(
            marks(
                "{\"number\":\"1\",\"kind\":\"cut\",\"first\":\"2\",\"last\":\"3\"}",
                "{\"number\":\"1\",\"kind\":\"restore\",\"first\":\"2\",\"last\":\"3\"}"))
        .extracting(FormMark::says)
        .containsExactly("2 to 3 back in");
  }

  /** From beat to beat, and bars inside a multi-bar rest. */
  @Test
  void aPartOfABarIsAPartOfIt() {
    FormMark cut =
        marks("{\"number\":\"1\",\"kind\":\"cut\",\"first\":\"2 beat 3\",\"last\":\"3 beat 1\"}")
            .get(0);
    assertThat(said(cut)).endsWith("b2+0.5 b3+0.25");
  }
}
