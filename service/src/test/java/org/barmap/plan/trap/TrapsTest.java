package org.barmap.plan.trap;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Locale;
import org.barmap.map.BarMap;
import org.barmap.plan.Changes;
import org.barmap.plan.Plan;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.cases.BookNotation;
import org.barmap.plan.change.ShowChanges;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * What a substitute must be told, one trap a row, and what the print tells him already: common
 * practice, written down before the first run.
 */
class TrapsTest {

  private static List<Trap> traps(String book, String said) {
    BarMap map = BookNotation.read(book).map();
    ShowChanges changes = said.isEmpty() ? ShowChanges.none() : Changes.said(map, said);
    Plan plan = Planner.plan(map, changes, PlanSettings.USUAL);
    return plan.traps();
  }

  /** Book, changes; the kind of the one trap, whether it is grave, what must stand in it. */
  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      quoteCharacter = '"',
      value = {
        "4/4 m20; cut 5 to 8; form; true; 5 | land on 9",
        "4/4 m20; cut 15 to 20; form; true; 15 | end of the number",
        "4/4 m8 / 3/4 m8 / m4; cut 5 to 16; form; true; land on 17 | 3/4",
        "4/4 k+1 m8 / k-3 m8 m4; cut 5 to 12; form; true; land on 13 | 3 flats",
        "4/4 '\u2669 = 90' m8 '\u2669 = 140' m8; cut 5 to 12; form; true; land on 13 | \u2669 = 140",
        "4/4 'pizz.' m8 'arco' m8; cut 5 to 12; form; true; land on 13 | arco",
        "4/4 m20; cut 6 beat 3 to 8 beat 2; form; true; out after beat 2 | 8",
        "4/4 m20; play 5 to 8 three times; form; true; 5 | 8 | play 3 times",
        "4/4 m4 |: m4 :| m8; play 5 to 8 three times; form; true; 5 | 3 times",
        "4/4 m4 |: m4 :| m8; play 5 to 8 once; form; true; 5",
        "4/4 m20; vamp 5 to 8 till the cart stops; form; true; VAMP 5-8 | the cart stops",
        "4/4 m20; vamp 5 to 8, out after bar 6; form; true; VAMP 5-8 | 6",
        "4/4 m20; safety 5 to 6; form; true; SAFETY 5-6",
        "4/4 m20; insert 2 bars of music after 8 called 8A; form; true; 8 | 2 bars | 8A",
        "4/4 m20; G.P. after 8; form; true; 8 | G.P.",
        "4/4 m20; hold in 8; form; true; 8 | HOLD",
        "6/8 m20; in six from 5 to 8; state; false; 5 | in 6",
        "4/4 m20; watch at 9; watch; false; 9 | watch",
        "4/4 m20; cue at 9: Molly breathes; watch; false; 9 | Molly breathes",
        "4/4 '\u2669 = 90' m8 'Broadly' m8; ; state; false; 9 | tempo | Broadly",
        "4/4 m4 R12 @B m4; ; entrance; false; 17 | [B] | 12",
        "4/4 m4 R12 m4; cut 7 to 10; entrance; true; 17 | 8 bars",
        "4/4 m4 R12 m4; vamp 7 to 8 till the bell; entrance; true; 17 | 2, vamp 2 till the bell",
      })
  void eachTrapIsTold(String book, String said, String kind, boolean grave, String mentions) {
    List<Trap> traps =
        traps("#1 " + book, said == null ? "" : "No. 1: " + said).stream()
            .filter(t -> !t.text().contains("in hand at the beginning"))
            .toList();
    assertThat(traps).hasSize(1);
    assertThat(traps.get(0).kind().word()).isEqualTo(kind);
    assertThat(traps.get(0).grave()).isEqualTo(grave);
    for (String word : mentions.split("\\|")) {
      assertThat(traps.get(0).text()).contains(word.strip());
    }
  }

  /** The print says it clearly: nobody needs to be told. */
  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      quoteCharacter = '"',
      value = {
        "4/4 |: m4 :| m8",
        "4/4 |: m3 [1 m :| [2 m ] m8 $dc",
        "4/4 m8 3/4 m8 k-3 m4",
        "4/4 'Vamp' |: m2 :| m8",
        "4/4 '\u2669 = 90' m8 'rit.' m 'a tempo' m8",
        "4/4 m8 R4 m8",
        "4/4 m8 'pizz.' m8 'arco' m8",
        "4/4 m8 $fermata m4",
      })
  void whatThePrintSaysIsNoTrap(String book) {
    assertThat(traps("#1 " + book, ""))
        .filteredOn(t -> !t.text().contains("in hand at the beginning"))
        .isEmpty();
  }

  @Test
  void theNightsOrderAndWhatFollowsAreTraps() {
    List<Trap> traps =
        traps("#1 4/4 m8 #2 m8 #3 m8", "order: 1, 3, 2\nNo. 3: attacca\nNo. 2: watch at 4");
    assertThat(traps).extracting(Trap::number).containsSubsequence("1", "3", "2");
    assertThat(traps)
        .extracting(Trap::text)
        .anyMatch(t -> t.contains("to No. 3"))
        .anyMatch(t -> t.contains("attacca"))
        .anyMatch(t -> t.contains("to No. 2"));
  }

  @Test
  void theGraveOnesStandFirst() {
    List<Trap> traps = traps("#1 4/4 m20", "No. 1: watch at 2, cut 9 to 12");
    assertThat(traps)
        .filteredOn(t -> t.kind() != Trap.Kind.ASK)
        .extracting(Trap::grave)
        .containsExactly(true, false);
  }

  @Test
  void aTurnWithoutTimeIsGrave() {
    assertThat(traps("#1 4/4 '\u2669 = 120' m30 // m30", ""))
        .anyMatch(t -> t.kind() == Trap.Kind.TURN && t.grave() && t.text().contains("Page 1 to 2"));
  }

  @Test
  void whatNobodyLookedAtIsToldWithTheTrap() {
    assertThat(traps("!read #1 4/4 m4 R12 m4", ""))
        .filteredOn(t -> t.kind() == Trap.Kind.ENTRANCE)
        .singleElement()
        .matches(t -> !t.unsure().isEmpty());
  }

  /** Nothing that a change asks to be written is lost on the way to the sheet. */
  @Test
  void everyMarkOfAChangeIsInSomeTrap() {
    BarMap map = BookNotation.read("#1 4/4 k+1 m10 / k-3 m10 R16 m10").map();
    ShowChanges changes =
        Changes.said(
            map,
            "No. 1: cut 5 to 14; 1st time tacet 1 to 2; transpose up a tone; bow at 40; rit. 41 to"
                + " 42; mute on at 43; electric bass at 44");
    Plan plan = Planner.plan(map, changes, PlanSettings.USUAL);
    String told =
        String.join("\n", plan.traps().stream().map(Trap::text).toList()).toLowerCase(Locale.ROOT);
    assertThat(plan.pencil().stream().filter(m -> m.change().isPresent()))
        .isNotEmpty()
        .allMatch(
            m ->
                m.mark().endsWith("-end")
                    || m.mark().equals("land")
                    || told.contains(
                        m.sign()
                            .toLowerCase(Locale.ROOT)
                            .replaceFirst("^(?:\\[ cut to|\\[) ", "")
                            .strip()));
  }
}
