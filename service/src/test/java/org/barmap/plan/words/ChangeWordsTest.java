package org.barmap.plan.words;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.barmap.map.BarMap;
import org.barmap.map.MusicalNumber;
import org.barmap.plan.Books;
import org.barmap.plan.Plan;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** A director's cut list, read back. */
class ChangeWordsTest {
  private static final BarMap BOOK =
      titled(
          Books.book(
              "%7 "
                  + Books.run("", 1, 19, "")
                  + "20@mB 21@6/8 22@mr40 62@mC@4/4 63 %9 901 902@mr30 932 %12 121 %13 131"));

  private static BarMap titled(BarMap map) {
    List<MusicalNumber> numbers =
        map.numbers().stream()
            .map(
                n ->
                    n.label().equals("7")
                        ? new MusicalNumber("7", "Low Tide", n.firstBar(), n.lastBar(), false)
                        : n)
            .toList();
    return BarMap.of(map.book(), map.pages(), numbers, map.bars());
  }

  /**
   * Bars 34 and 49 are 6/8, shown in two: there is no third beat, so the eighths are meant. One
   * number put before another is told with all numbers, so that nothing of the order is left open.
   *
   * <p>Source of "from the end of 6 to the beginning of 12" being bars 7 to 11, five bars out: a
   * pit vocabulary page; of "3X" being played three times in all: the same; the others: common
   * practice.
   */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          No. 7: cut 34 to 49                              | cut 34 49
          No. 7 Low Tide: cut bars 34-49                   | cut 34 49
          Low Tide - cut 34 through 49                     | cut 34 49
          7. cut from 34 to bar 49                         | cut 34 49
          No. 7: 34 to 49 is cut                           | cut 34 49
          No. 7: cut 34 beat 3 to 49 beat 2                | cut 34 eighth 3 49 eighth 2
          No. 7: cut from the end of 6 to the beginning of 12 | cut 7 11
          No. 7: go from 33 to 50                          | cut 34 49
          No. 7: cut from 40 to the end                    | cut 40 the end
          No. 7: cut the last 4 bars                       | cut 60 end
          No. 7: cut the four bars before B                | cut 16 19
          No. 7: cut 12                                    | cut 12 12
          No. 7: vamp B to B+1, out at the end of a pass   | vamp B B+1 end-of-pass
          No. 7: vamp 10-11, out any time                  | vamp 10 11 any-time
          No. 7: safety 60-61                              | safety 60 61
          No. 9: play 10 to 13 three times                 | play 10 13 3
          No. 9: 10-13 3X                                  | play 10 13 3
          No. 9: play 10 to 13 twice                       | play 10 13 2
          No. 9: insert 2 bars after 24 called 24A         | insert 24 2 24A
          No. 12 tacet                                     | tacet
          tacet No. 12                                     | tacet
          No. 13 is cut                                    | cut-number
          Cut No. 13                                       | cut-number
          No. 7: tempo 132 at 1                            | tempo 1 1/4 132.0
          No. 7: half = 66 from B                          | tempo B 1/2 66.0
          No. 7: accel. from 20 to 28, quarter = 100 to 132 | tempo 20 28 1/4 100.0 132
          No. 7: rit. 4 before C to C, half = 60 to 40     | tempo 4 before C C 1/2 60.0 40
          No. 7: in two from 20 to 40                      | beats 20 40 2
          No. 7: 20 to 40 in two                           | beats 20 40 2
          No. 7: 3 flats from B                            | key B -3
          No. 7: two sharps at 34                          | key 34 2
          No. 7: key at C: 3 flats                         | key C -3
          No. 7: key at C 3 flats                          | key C -3
          No. 7: key of 1 sharp from 4 before B            | key 4 before B 1
          No. 7: no sharps or flats from C                 | key C 0
          No. 7: electric bass at 50                       | instrument 50 electric bass
          No. 7: watch at 57                               | remind 57 watch
          No. 7: pizz. at B                                | remind B pizz
          No. 7: mute off at C                             | remind C mute
          No. 9 before No. 7                               | order [9, 7, 12, 13]
          order: 9, 7, 12                                  | order [9, 7, 12]
          """)
  void isUnderstoodAs(String said, String change) {
    List<Heard<ShowChange>> heard = ChangeWords.understand(BOOK, said);
    assertThat(heard).hasSize(1);
    assertThat(heard.get(0)).as(heard.toString()).isInstanceOf(Heard.Understood.class);
    Heard.Understood<ShowChange> understood = (Heard.Understood<ShowChange>) heard.get(0);
    assertThat(spoken(understood.change())).isEqualTo(change);
    assertThat(understood.sentence()).endsWith(".").doesNotContain("null");
  }

  private static String spoken(ShowChange change) {
    var tree = ChangesJson.tree(change);
    tree.remove("id");
    tree.remove("number");
    StringBuilder text = new StringBuilder();
    tree.properties()
        .forEach(
            e -> {
              if (!e.getKey().equals("note")) {
                String value =
                    e.getValue().isArray() ? list(e.getValue()) : e.getValue().asString();
                text.append(e.getKey().equals("perMinute") ? value + ".0" : value).append(' ');
              }
            });
    return text.toString().strip();
  }

  private static String list(tools.jackson.databind.JsonNode array) {
    List<String> values = new java.util.ArrayList<>();
    array.forEach(v -> values.add(v.asString()));
    return values.toString();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "cut 34 to 49",
        "No. 99: cut 3 to 4",
        "No. 7: cut 340 to 349",
        "No. 7: cut 49 to 34",
        "No. 9: repeat 10 to 13 three times",
        "No. 7: rit. from 20 to 28 quarter = 100 to 132",
        "No. 7: 9 flats from B",
        "No. 7: key of E flat from B",
        "No. 7: J = 120",
        "No. 7: tempo 80 at 21",
        "No. 77 before No. 7"
      })
  void isAskedBack(String said) {
    List<Heard<ShowChange>> heard = ChangeWords.understand(BOOK, said);
    assertThat(heard).hasSize(1);
    assertThat(heard.get(0)).as(heard.toString()).isInstanceOf(Heard.AskedBack.class);
    assertThat(((Heard.AskedBack<ShowChange>) heard.get(0)).question()).isNotBlank();
  }

  /** Nothing that was said is lost, and nothing follows from what is no change. */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          No. 7: make it nicer                    | 7 | ''
          No. 7: kazoo at 50                      | 7 | 50
          No. 7: lighter in bar 12, please        | 7 | 12
          No. 7: more weight from B               | 7 | B
          Ask Mary about the trumpet              | '' | ''
          """)
  void isKeptAsANote(String said, String number, String bar) {
    List<Heard<ShowChange>> heard = ChangeWords.understand(BOOK, said);
    assertThat(heard).hasSize(1);
    assertThat(heard.get(0)).as(heard.toString()).isInstanceOf(Heard.Understood.class);
    ShowChange change = ((Heard.Understood<ShowChange>) heard.get(0)).change();
    assertThat(change.kept()).as(heard.toString()).isPresent();
    assertThat(change.number()).isEqualTo(number);
    assertThat(change.kept().orElseThrow().first().orElse("")).isEqualTo(bar);
    Plan plan = Planner.plan(BOOK, ShowChanges.of(change), PlanSettings.USUAL);
    assertThat(plan.notes()).hasSize(1);
    assertThat(plan.numbers())
        .isEqualTo(Planner.plan(BOOK, ShowChanges.none(), PlanSettings.USUAL).numbers());
    assertThat(plan.pencil()).isEmpty();
  }

  @Test
  void aWholeListIsReadAtOnceAndCanBePlanned() {
    List<Heard<ShowChange>> heard =
        ChangeWords.understand(
            BOOK,
            """
            Saltmarsh, changes after Tuesday
            As agreed with Ann

            No. 7 "Low Tide"
             - cut 34 to 49, vamp B to B+1, out at the end of a pass
             - in two from 21
            No. 9: play 10 to 13 three times; insert two bars after 24
            No. 12 tacet. No. 13 is cut
            """);
    List<ShowChange> changes =
        heard.stream()
            .filter(h -> h instanceof Heard.Understood)
            .map(h -> ((Heard.Understood<ShowChange>) h).change())
            .toList();
    assertThat(changes)
        .extracting(ShowChange::kind)
        .as("what is no change is kept")
        .containsExactly("note", "cut", "vamp", "beats", "play", "insert", "tacet", "cut-number");
    assertThat(changes.stream().map(c -> c.meta().id()).distinct()).hasSize(8);
    assertThat(Planner.plan(BOOK, new ShowChanges(changes), PlanSettings.USUAL).numbers())
        .hasSize(4);
  }

  @Test
  void nonsenseOfAnySizeIsAnswered() {
    assertThat(ChangeWords.understand(BOOK, "")).isEmpty();
    assertThat(ChangeWords.understand(BOOK, "\u0000(((((" + "a ".repeat(20_000))).isNotEmpty();
    assertThat(ChangeWords.understand(BOOK, "x\n".repeat(50_000)).size()).isLessThan(2_100);
  }
}
