package org.barmap.reckon;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.Content;
import org.barmap.map.Evidence;
import org.barmap.map.Evidence.Alternative;
import org.barmap.map.Finding;
import org.barmap.map.Finding.Answer;
import org.barmap.map.Outline;
import org.barmap.map.Page;
import org.barmap.map.Severity;
import org.barmap.map.StaffSystem;
import org.barmap.map.Stage;
import org.junit.jupiter.api.Test;

/**
 * What a person set and the print contradicts is asked, also where nothing was in doubt before: a
 * rest that was read as 8, in a line from a printed 60, before a printed 69. The numbers are
 * invented.
 */
class SetByHandTest {

  private static final Outline LINE = Outline.box(100, 200, 1300, 280);

  private static BarMap read(int systemOfLast) {
    List<Bar> bars = new ArrayList<>();
    bars.add(bar(1, 1, 59, 1, List.of(), says("59")));
    bars.add(bar(2, 1, 60, 8, says("8"), List.of()));
    bars.add(bar(3, 1, 68, 1, List.of(), List.of()));
    bars.add(bar(4, systemOfLast, 69, 1, List.of(), says("69")));
    StaffSystem first = new StaffSystem(1, LINE, 20, Optional.empty(), 1, List.of());
    StaffSystem second = new StaffSystem(2, LINE, 20, Optional.empty(), 1, List.of());
    Page page = new Page(1, "page-01.png", 1400, 2000, List.of(first, second));
    return BarMap.of(new Book("Saltmarsh", "Bass"), List.of(page), List.of(), bars);
  }

  private static Bar bar(
      int id, int system, int number, int count, List<Alternative> rest, List<Alternative> print) {
    return Bar.builder("b" + id, 1, system, LINE.slice((id - 1) / 10.0, id / 10.0))
        .number(number)
        .count(count)
        .content(count > 1 ? Content.MULTI_REST : Content.MUSIC)
        .evidence(Optional.of(new Evidence(rest, print, 1)))
        .build();
  }

  private static List<Alternative> says(String text) {
    return List.of(new Alternative(text, 0.97));
  }

  private static BarMap with(BarMap map, Bar changed) {
    return map.withBars(
        map.bars().stream().map(b -> b.id().equals(changed.id()) ? changed : b).toList());
  }

  private static BarMap typedThree(int systemOfLast) {
    BarMap map = read(systemOfLast);
    assertThat(new Settler().settle(map, Fixed.NOTHING).findings()).isEmpty();
    BarMap typed = with(map, map.bars().get(1).toBuilder().count(3).build());
    return new Settler().settle(typed, new Fixed(Set.of("b2"), Set.of(), Set.of()));
  }

  @Test
  void aWrongRestIsQuestionedByTheNextPrintedNumber() {
    BarMap settled = typedThree(1);
    assertThat(settled.bars()).extracting(Bar::number).containsExactly(59, 60, 63, 64);
    assertThat(settled.findings()).hasSize(1);
    Finding doubt = settled.findings().get(0);
    assertThat(doubt.bar()).hasValue("b4");
    assertThat(doubt.text())
        .isEqualTo(
            "A printed 69 was read here, but counting gives 64, because the rest at 60 was set"
                + " to 3.");
    assertThat(doubt.answers())
        .containsExactly(
            new Answer("The rest at 60 stays 3: the printed 69 was misread", Map.of()),
            new Answer(
                "The rest at 60 is 8", Map.of("kind", "set-count", "bar", "b2", "count", "8")),
            new Answer(
                "This bar is 69", Map.of("kind", "set-number", "bar", "b4", "number", "69")));
  }

  @Test
  void alsoWhereTheNumbersJumpFromALineToTheNext() {
    BarMap settled = typedThree(2);
    assertThat(settled.findings()).hasSize(1);
    assertThat(settled.findings().get(0).bar()).hasValue("b4");
    assertThat(settled.findings().get(0).answers())
        .extracting(Answer::label)
        .contains("The rest at 60 is 8");
  }

  /** Bars with letters count as the one before them (common practice); here nobody read any. */
  @Test
  void whereThePrintGoesBackNoPageIsMissing() {
    List<Bar> bars = new ArrayList<>();
    for (int id = 1; id <= 3; id++) {
      bars.add(bar(id, 1, 21 + id, 1, List.of(), says(Integer.toString(21 + id))));
    }
    for (int id = 4; id <= 9; id++) {
      bars.add(bar(id, 2, 20 + id, 1, List.of(), says(Integer.toString(20 + id))));
    }
    Finding jump =
        Finding.ofBar(Severity.DOUBT, Stage.RECKON, bars.get(3), "bars-missing", "", List.of(), 1);
    BarMap map = read(2).withBars(bars).withFindings(List.of(jump));
    List<Finding> asked = new Settler().settle(map, Fixed.NOTHING).findings();
    assertThat(asked).hasSize(1);
    assertThat(asked.get(0).text())
        .startsWith("The printed numbers go back here to 24, but counting gives 25: ")
        .doesNotContain("missing");
    assertThat(asked.get(0).answers())
        .extracting(Answer::label)
        .containsExactly("The print is right", "This bar is 25");
  }

  @Test
  void aNumberTypedAgainstThePrintIsAskedOnce() {
    BarMap map = read(1);
    BarMap typed = with(map, map.bars().get(3).toBuilder().number(96).build());
    BarMap settled = new Settler().settle(typed, new Fixed(Set.of(), Set.of("b4"), Set.of()));
    assertThat(settled.bars().get(3).number()).isEqualTo(96);
    assertThat(settled.findings()).extracting(f -> f.bar().orElse("")).containsExactly("b4");
    assertThat(settled.findings().get(0).text())
        .isEqualTo("A printed 69 was read here, but its number was set to 96.");
    assertThat(settled.findings().get(0).answers())
        .extracting(Answer::label)
        .containsExactly("It stays 96: the printed 69 was misread", "This bar is 69");
  }

  @Test
  void onAVerifiedBarNothingIsAsked() {
    BarMap map = read(1);
    BarMap typed = with(map, map.bars().get(1).toBuilder().count(3).build());
    Set<String> all = Set.of("b1", "b2", "b3", "b4");
    Fixed fixed = new Fixed(Set.of("b2"), Set.of(), all);
    assertThat(new Settler().settle(typed, fixed).findings()).isEmpty();
  }
}
