package org.barmap.reckon;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.map.Content;
import org.barmap.map.Evidence;
import org.barmap.map.Finding;
import org.barmap.map.Outline;
import org.barmap.map.Point;
import org.junit.jupiter.api.Test;

/** Every kind of finding can be settled with one click. */
class FindingAnswersTest {

  private static Item item(String id, int number, Content content, int count, Evidence evidence) {
    Bar bar =
        Bar.builder(id, 1, 1, Outline.box(0, 0, 100, 40))
            .number(number)
            .content(content)
            .count(count)
            .evidence(Optional.of(evidence))
            .build();
    return new Item(bar, false, true, Optional.empty(), 1, 0, List.of(), false, false);
  }

  private static Item rest(String id, Optional<Integer> read, double sure) {
    Item i = item(id, 9, Content.MULTI_REST, 8, new Evidence(List.of(), List.of(), 1));
    return new Item(i.bar(), true, true, read, sure, 3, List.of("77"), false, false);
  }

  @Test
  void everyKindOfFindingHasAnAnswer() {
    Evidence two =
        new Evidence(List.of(), List.of(), 1)
            .with(List.of(), List.of(), new Evidence.Second(2, "4", 0));
    Evidence none =
        new Evidence(List.of(), List.of(), 1)
            .with(List.of(), List.of(), new Evidence.Second(0, "", 0));
    Item plain = item("b6", 6, Content.REST, 1, new Evidence(List.of(), List.of(), 1));
    List<Item> items =
        List.of(
            rest("b1", Optional.empty(), 1),
            rest("b2", Optional.of(3), 1),
            rest("b3", Optional.of(8), 0.5),
            item("b4", 4, Content.MUSIC, 1, two),
            item("b5", 5, Content.MUSIC, 1, none),
            plain,
            new Item(plain.bar(), false, true, Optional.empty(), 1, 0, List.of(), true, false),
            new Item(plain.bar(), false, true, Optional.empty(), 1, 0, List.of(), false, true));
    FindingWriter writer = new FindingWriter(Costs.DEFAULT, items);
    writer.refused(5, new Point(50, 20));
    writer.missing(5, 4);
    writer.start(5, "8");
    writer.content(5);
    writer.mark(5, "C", "");
    List<Finding> found = writer.write();
    assertThat(found)
        .extracting(Finding::code)
        .contains(
            "count-missing",
            "count-settled",
            "count-unsure",
            "number-misread",
            "second-differs",
            "barline-missing",
            "barline-unsure",
            "barline-refused",
            "bars-missing",
            "number-start",
            "mark-settled",
            "content-unsure");
    assertThat(found).allSatisfy(f -> assertThat(f.answers()).as(f.code()).isNotEmpty());
    Finding mark = found.stream().filter(f -> f.code().equals("mark-settled")).findFirst().get();
    assertThat(mark.answers())
        .extracting(Finding.Answer::label)
        .containsExactly("It is C", "There is no mark");
    Finding start = found.stream().filter(f -> f.code().equals("number-start")).findFirst().get();
    assertThat(start.answers())
        .extracting(Finding.Answer::label)
        .containsExactly("No. 8 starts here", "It is no new number");
  }
}
