package org.barmap.plan.words;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.BarMap;
import org.barmap.plan.cases.BookNotation;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.words.earlier.Known;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What is said of an earlier change; what is expected is common practice. */
class EarlierWordsTest {
  private static final BarMap BOOK =
      BookNotation.read(
              "#3'Ballast' 4/4 m8 @A m8 @B m8 @C m8 |] #4'Cormorant' 3/4 m16 @A m8 |] #5'Gannet' 4/4 m12")
          .map();

  /** What was said before, as c0, c1, …; No. 3 has two cuts, the others one change each. */
  private static List<ShowChange> before() {
    List<ShowChange> all = new ArrayList<>();
    for (String words :
        List.of(
            "No. 3: cut 9 to 12",
            "No. 3: cut 21 to 22",
            "No. 3: vamp 25 to 26",
            "No. 4: play 5 to 6 twice",
            "No. 4: hold 20",
            "No. 5: cut 3 to 4")) {
      ShowChange change = understood(BOOK, words, Known.NOTHING).get(0);
      all.add(ChangesJson.readOne(ChangesJson.tree(change).put("id", "c" + all.size())));
    }
    return all;
  }

  private static List<ShowChange> understood(BarMap map, String words, Known known) {
    return ChangeWords.understand(map, words, known).stream()
        .filter(h -> h instanceof Heard.Understood)
        .map(h -> ((Heard.Understood<ShowChange>) h).change())
        .toList();
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          The cut in five is off                              | c5 | taken back: cut 3 to 4
          In No. 5 forget the cut                             | c5 | taken back: cut 3 to 4
          Gannet: we're not doing that cut any more           | c5 | taken back: cut 3 to 4
          That vamp is gone                                   | c2 | taken back: vamp 25 to 26, out at the end of a pass
          No. 3: the vamp at C is cancelled                   | c2 | taken back: vamp 25 to 26, out at the end of a pass
          No. 3: open up the cut at 9                         | c0 | taken back: cut 9 to 12
          No. 3: the second cut is out                        | c1 | taken back: cut 21 to 22
          Scratch the hold in Cormorant                       | c4 | taken back: hold at 20
          No more of the repeat in 4                          |    |
          In three the cut at A goes to 14 now                | c0 | cut 9 to 14
          In three, the cut at 21 starts at 19 already        | c1 | cut 19 to 22
          The cut in Gannet goes from 5 to 8                  | c5 | cut 5 to 8
          Make that vamp a safety                             | c2 | safety 25 to 26
          Make the vamp in three four times                   | c2 | play 25 to 26 four times
          Make that vamp till she sits                        | c2 | vamp 25 to 26 till she sits, out at the end of a pass
          The vamp in three is 27-28, not 25-26               | c2 | vamp 27 to 28, out at the end of a pass
          No. 4: play 5 to 6 three times, not twice           | c3 | play 5 to 6 three times
          Cormorant: instead of the repeat vamp 5 and 6       | c3 | vamp 5 to 6, out at the end of a pass
          No. 5: cut 7 to 8 instead of that cut               | c5 | cut 7 to 8
          No. 5: instead of 3 to 4 cut 5 to 6                 | c5 | cut 5 to 6
          The cut in three is off                             |    |
          The cut in Cormorant is off                         |    |
          """)
  void oneChangeIsMeantOrItIsAsked(String words, String old, String says) {
    List<Heard<ShowChange>> heard =
        ChangeWords.understand(BOOK, words, Known.of(before(), Optional.empty()));
    if (old == null) {
      assertThat(heard).allMatch(h -> h instanceof Heard.AskedBack);
      return;
    }
    assertThat(heard).hasSize(1).allMatch(h -> h instanceof Heard.Understood);
    ShowChange change = ((Heard.Understood<ShowChange>) heard.get(0)).change();
    assertThat(change.says()).isEqualTo(says);
    assertThat(change.meta().replaces()).contains(old);
  }

  @Test
  void whichOfTwoIsMeantCanBeChosen() {
    Heard<ShowChange> heard =
        ChangeWords.understand(
                BOOK, "In three the cut is off", Known.of(before(), Optional.empty()))
            .get(0);
    assertThat(((Heard.AskedBack<ShowChange>) heard).readings())
        .extracting(r -> r.changes().get(0).meta().replaces().orElse(""))
        .containsExactly("c0", "c1");
  }

  @Test
  void whatIsPutRightInTheSameTextStandsThereSwitchedOff() {
    List<ShowChange> all =
        understood(BOOK, "No. 3: vamp 25-26\nIn three make that vamp 25 to 28", Known.NOTHING);
    assertThat(all).extracting(c -> c.meta().on()).containsExactly(false, true);
    assertThat(all.get(1).where().orElseThrow().last()).isEqualTo("28");
    assertThat(all.get(1).meta().replaces()).isEmpty();
  }

  @Test
  void aChangeInThePlaceOfAnotherCountsAloneUntilItIsSwitchedOff() {
    List<ShowChange> all = new ArrayList<>(before());
    ShowChange other =
        understood(BOOK, "The cut in five goes to 6 now", Known.of(all, Optional.empty())).get(0);
    all.add(other);
    assertThat(new ShowChanges(all).active()).contains(other).doesNotContain(all.get(5));
    all.set(6, ChangesJson.readOne(ChangesJson.tree(other).put("on", false)));
    assertThat(new ShowChanges(all).active()).contains(all.get(5));
  }

  @Test
  void twoChangesInEachOthersPlaceLeaveTheLaterOne() {
    List<ShowChange> all = new ArrayList<>();
    for (int i = 0; i < 2; i++) {
      all.add(
          ChangesJson.readOne(
              ChangesJson.tree(before().get(i)).put("id", "c" + i).put("replaces", "c" + (1 - i))));
    }
    assertThat(new ShowChanges(all).active()).containsExactly(all.get(1));
  }
}
