package org.barmap.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.kind.Cut;
import org.barmap.plan.change.kind.CutNumber;
import org.barmap.plan.change.kind.Insert;
import org.barmap.plan.change.kind.Play;
import org.barmap.plan.change.kind.Reorder;
import org.barmap.plan.change.kind.Tacet;
import org.barmap.plan.change.say.Meta;
import org.junit.jupiter.api.Test;

class CutListTest {
  private static final Path BOOK =
      Path.of(System.getProperty("barmap.home", ".."), "corpus", "saltmarsh");

  /** The demo book's list was written by hand, its changes apart from it. */
  @Test
  void theDemoBooksChangesSayWhatItsCutListSays() throws Exception {
    ShowChanges changes = ChangesJson.read(Files.readString(BOOK.resolve("changes.json")));
    List<String> written =
        Files.readAllLines(BOOK.resolve("cutlist.txt")).stream()
            .filter(l -> l.startsWith("No. "))
            .toList();

    assertThat(CutList.lines(changes)).containsExactlyElementsOf(written);
  }

  @Test
  void saysWhatTheDemoBookHasNot() {
    Meta meta = Meta.of("c1");

    assertThat(CutList.line(new Cut(meta, "7", "34", "34"))).isEqualTo("No. 7: cut 34");
    assertThat(CutList.line(new CutNumber(meta, "13"))).isEqualTo("No. 13: cut the number");
    assertThat(CutList.line(new Reorder(meta, List.of("3", "2"))))
        .isEqualTo("order of numbers: 3, 2");
    assertThat(CutList.line(new Play(meta, "9", "10", "13", 1)))
        .isEqualTo("No. 9: play 10 to 13 once");
    assertThat(CutList.line(new Insert(meta, "9", "24", 1, Optional.empty())))
        .isEqualTo("No. 9: insert 1 bar after 24");
  }

  @Test
  void aChangeSwitchedOffIsNotOnTheList() {
    Meta off = Meta.of("c1").switched(false);

    assertThat(CutList.lines(ShowChanges.of(new Tacet(off, "3")))).isEmpty();
  }

  @Test
  void aNoteStaysOnItsLine() {
    Meta meta =
        new Meta("c1", true, Optional.empty(), Optional.empty(), Optional.of("short\nNo. 8: cut"));

    assertThat(CutList.line(new Tacet(meta, "3"))).isEqualTo("No. 3: tacet (short No. 8: cut)");
  }
}
