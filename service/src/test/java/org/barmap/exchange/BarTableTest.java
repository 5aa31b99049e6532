package org.barmap.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.barmap.exchange.musicxml.Scores;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.Enclosure;
import org.barmap.map.Outline;
import org.barmap.map.Placement;
import org.barmap.map.RehearsalMark;
import org.barmap.map.Word;
import org.junit.jupiter.api.Test;

class BarTableTest {

  @Test
  void oneLineForEveryEntryOfTheDemoBook() throws Exception {
    BarMap map = Scores.saltmarsh();
    StringBuilder out = new StringBuilder();

    BarTable.write(map, out);

    List<String> lines = out.toString().lines().toList();
    assertThat(lines).hasSize(map.bars().size() + 1);
    assertThat(lines.get(1)).startsWith("1,Flood Tide (Overture),1,1,1,1,,4/4,");
    assertThat(lines.get(lines.size() - 1)).startsWith("8,Saltmarsh (Finale and Bows),9,11,57,1,");
  }

  /** Source: RFC 4180 for quoting; a leading = would run as a formula in a spreadsheet. */
  @Test
  void quotesAndDisarmsText() throws Exception {
    Bar bar =
        Bar.builder("b1", 1, 1, Outline.box(0, 0, 1, 1))
            .rehearsal(new RehearsalMark("=1+1", Enclosure.BOX))
            .words(List.of(new Word("say \"go\", then wait", Placement.ABOVE, Optional.empty())))
            .build();
    StringBuilder out = new StringBuilder();

    BarTable.write(BarMap.of(new Book("", ""), List.of(), List.of(), List.of(bar)), out);

    assertThat(out.toString())
        .contains(",'=1+1,")
        .contains(",\"say \"\"go\"\", then wait\",")
        .endsWith("\r\n");
  }
}
