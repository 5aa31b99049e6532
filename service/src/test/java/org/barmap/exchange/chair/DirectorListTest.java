package org.barmap.exchange.chair;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Barline;
import org.barmap.map.Book;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Page;
import org.barmap.map.RehearsalMark;
import org.barmap.plan.Books;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Lists as they are written down or read out; the bars are counted by hand. */
class DirectorListTest {

  private static final BarMap LIST =
      DirectorList.read("7: A 9, end 16", "Saltmarsh", "Director").map().orElseThrow();

  @Test
  void aDirectorsListIsABook() {
    DirectorList.Read read =
        DirectorList.read(
            "No. 7 Low Tide: A 6, B 9, end 11\n9: end 4; start 2", "Saltmarsh", "Director");
    BarMap map = read.map().orElseThrow();
    BarMap part = Books.book("%7 1 2 3 4@mA 5 6 7@mB 8 9");
    assertThat(map.numbers()).extracting(MusicalNumber::label).containsExactly("7", "9");
    assertThat(map.barsOf(map.numbers().get(1))).extracting(Bar::number).containsExactly(2, 3, 4);
    assertThat(TwoParts.of(part, map, List.of()).of("7", "5")).contains("7");
    assertThat(DirectorList.read("7: A 6", "", "").problems())
        .containsExactly("No. 7: say at which bar it ends, as in: end 48");
    assertThat(DirectorList.read("hello", "", "").problems().get(0)).contains("is not read");
    assertThat(DirectorList.read("", "", "").problems()).hasSize(1);
    assertThat(DirectorList.read("7: A 60, end 40", "", "").map()).isEmpty();
    assertThat(DirectorList.read("7: A 6, B 6, end 40", "", "").problems())
        .containsExactly("No. 7 has two marks at bar 6");
  }

  /** However the mark and its bar stand together, the figures are one figure. */
  @ParameterizedTest
  @CsvSource({
    "A17, A",
    "A 17, A",
    "A=17, A",
    "A = 17, A",
    "A at 17, A",
    "letter A bar 17, A",
    "B2 17, B2",
    "12 17, 12",
    "A'17, A'"
  })
  void aMarkAndItsBar(String item, String mark) {
    BarMap map = DirectorList.read("7: " + item + ", end48", "", "").map().orElseThrow();

    assertThat(map.bars()).hasSize(48);
    assertThat(map.bars().get(16).rehearsal().map(RehearsalMark::text)).contains(mark);
  }

  /** The same bars as a page of a book. */
  private static BarMap read(String part, List<Bar> bars) {
    Page page = LIST.pages().get(0);
    Page photographed = new Page(1, "page-1.png", page.width(), page.height(), page.systems());
    return BarMap.of(new Book("Saltmarsh", part), List.of(photographed), LIST.numbers(), bars);
  }

  private static List<AlignTable.Difference> differences(BarMap here, BarMap there) {
    return AlignTable.of(TwoParts.of(here, there, List.of()), here, there).differences();
  }

  /** Bar numbers say nothing of repeats. */
  @Test
  void itDisputesNoRepeat() {
    List<Bar> bars = new ArrayList<>(LIST.bars());
    bars.set(11, bars.get(11).toBuilder().endBarline(Barline.REPEAT_END).build());
    BarMap bass = read("Bass", bars);
    assertThat(differences(bass, read("Drums", LIST.bars())))
        .extracting(AlignTable.Difference::kind)
        .as("two books can't both be right")
        .containsExactly("repeat");
    assertThat(differences(bass, LIST)).as("bar numbers say nothing of repeats").isEmpty();
    assertThat(differences(LIST, bass)).isEmpty();
  }
}
