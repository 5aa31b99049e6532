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

/** What is put right more than once, and what says that a cut is off; common practice. */
class EarlierChainsTest {
  private static final BarMap BOOK =
      BookNotation.read("#3'Ballast' 4/4 m16 |] #5'Gannet' 4/4 m12 |: m4 :| m4 |]").map();
  private static final String TODAY = "2031-03-03";

  private static List<Heard<ShowChange>> heard(String words, List<ShowChange> before) {
    return ChangeWords.understand(BOOK, words, Known.of(before, Optional.of(TODAY)));
  }

  /** Says one after another what is parted by a bar, each to those who know all before it. */
  private static List<ShowChange> said(String... texts) {
    List<ShowChange> all = new ArrayList<>();
    for (String words : texts) {
      for (Heard<ShowChange> each : heard(words, all)) {
        ShowChange change = ((Heard.Understood<ShowChange>) each).change();
        all.add(ChangesJson.readOne(ChangesJson.tree(change).put("id", "c" + all.size())));
      }
    }
    return all;
  }

  /** What counts in the end, without what only takes something back. */
  private static List<String> counts(String... texts) {
    return new ShowChanges(said(texts))
        .active().stream()
            .filter(c -> !c.takesBack())
            .map(c -> c.says() + c.meta().holds())
            .toList();
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      nullValues = "-",
      textBlock =
          """
          The cut in five goes to 4                                        | cut 3 to 4
          The cut in five goes to 6; The cut in five goes to 4             | cut 3 to 4
          The cut in five goes to 6; The cut in five goes to 4; Scratch that | cut 3 to 6
          The cut in five goes to 6; The cut in five is off                | -
          The cut in five goes to 6; The cut in five is off; Scratch that  | cut 3 to 6
          The cut in five goes to 6/The cut in five goes to 4              | cut 3 to 4
          The cut in five goes to 6/Scratch that                           | cut 3 to 8
          """)
  void whatWasPutRightTwiceDoesNotComeBack(String words, String counts) {
    List<String> texts = new ArrayList<>(List.of("No. 5: cut 3 to 8"));
    for (String each : words.split("; ")) {
      texts.add(each.replace("/", "\n"));
    }
    assertThat(counts(texts.toArray(String[]::new)))
        .containsExactlyElementsOf(counts == null ? List.of() : List.of(counts));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          No. 5: vamp 13 to 14 at matinees | In five make the vamp a safety       | safety 13 to 14, version matinee only
          No. 5: vamp 13 to 14 at matinees | In five make the vamp four times     | play 13 to 14 four times, version matinee only
          No. 5: cut 3 to 4 until 9 March  | In five instead of the cut vamp 3 to 4 | vamp 3 to 4, out at the end of a pass, until 2031-03-09
          No. 5: vamp 13 to 14 2nd time    | In five make the vamp a safety       | safety 13 to 14 2nd time
          No. 5: vamp 13 to 14, out any time | In five make the vamp till she sits | vamp 13 to 14 till she sits, out any time
          """)
  void whatHeldForSomeShowsOrOneTimeStillDoes(String old, String words, String says) {
    List<ShowChange> all = said(old, words);
    ShowChange last = all.get(all.size() - 1);
    assertThat(last.says() + last.meta().holds()).isEqualTo(says);
    assertThat(last.meta().replaces()).contains("c0");
  }

  @ParameterizedTest
  @CsvSource({
    "Cut 9 to 12 in 3 is off",
    "'In 3, cut 9 to 12 is cancelled'",
    "My cut in 3 is off",
    "A cut in 3 is gone",
    "Cut in 3 is off"
  })
  void aCutThatIsOffIsTakenBack(String words) {
    assertThat(counts("No. 3: cut 9 to 12", words)).isEmpty();
  }

  @ParameterizedTest
  @CsvSource({
    "Cut 9 to 12 in 3 is off",
    "My cut in 3 is off",
    "The second cut in 3 is off",
    "In 3 the cut from 5 to 8 is off",
    "In 3 cut 9 to 14 instead of 9 to 11",
    "In 3 vamp 9 to 10 instead of 11 to 12"
  })
  void whatWasNotSaidBeforeIsAskedAndNothingElseFollows(String words) {
    List<ShowChange> before = said("No. 3: cut 1 to 2");
    assertThat(heard(words, words.contains("second") ? before : said("No. 5: cut 1 to 2")))
        .isNotEmpty()
        .allMatch(h -> h instanceof Heard.AskedBack)
        .flatExtracting(h -> ((Heard.AskedBack<ShowChange>) h).readings())
        .flatExtracting(r -> ((Heard.Reading<ShowChange>) r).changes())
        .noneMatch(c -> ((ShowChange) c).kind().equals("restore"));
  }

  @Test
  void whereNothingIsKnownACutThatIsOffIsPlayed() {
    assertThat(ChangeWords.understand(BOOK, "No. 3: cut 9 to 12 is off"))
        .singleElement()
        .isInstanceOfSatisfying(
            Heard.Understood.class,
            u -> assertThat(((ShowChange) u.change()).says()).isEqualTo("9 to 12 back in"));
  }

  @ParameterizedTest
  @CsvSource({"In 3 the cut is off tonight", "In 3 no cut tonight", "In 3 a cut is off tonight"})
  void whichOfTwoCutsIsOffTonightIsAsked(String words) {
    List<ShowChange> before = said("No. 3: cut 5 to 6", "No. 3: cut 9 to 12");
    Heard<ShowChange> heard = heard(words, before).get(0);
    assertThat(((Heard.AskedBack<ShowChange>) heard).readings())
        .extracting(r -> r.changes().get(0).says() + r.changes().get(0).meta().holds())
        .containsExactly(
            "5 to 6 back in, until 2031-03-03",
            "9 to 12 back in, until 2031-03-03",
            "start to end back in, until 2031-03-03");
  }
}
