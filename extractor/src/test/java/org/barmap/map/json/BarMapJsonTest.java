package org.barmap.map.json;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Barline;
import org.barmap.map.Book;
import org.barmap.map.Content;
import org.barmap.map.Enclosure;
import org.barmap.map.Key;
import org.barmap.map.Meter;
import org.barmap.map.Navigation;
import org.barmap.map.Origin;
import org.barmap.map.Point;
import org.barmap.map.RehearsalMark;
import org.junit.jupiter.api.Test;

/**
 * The document of {@code barmap/1} as its definition prints it, with the optional key signature.
 */
class BarMapJsonTest {

  /** The example of the format's definition, numbers closed so that the names resolve. */
  private static final String EXAMPLE =
      """
      { "format": "barmap/1",
        "book":  { "title": "Saltmarsh", "part": "Double Bass" },
        "pages": [
          { "index": 1, "source": "page-01.png", "width": 2480, "height": 3508,
            "systems": [
              { "index": 1, "outline": [[210,405],[2290,402],[2291,488],[211,491]],
                "staffSpace": 21.4, "printedBarNumber": 1, "confidence": 0.99 } ] } ],
        "numbers": [ { "label": "7", "title": "Low Tide", "firstBar": "b1", "lastBar": "b1" } ],
        "bars": [
          { "id": "b1", "page": 1, "system": 1,
            "outline": [[301,405],[655,404],[655,490],[301,491]],
            "number": 1, "count": 1,
            "meter": { "beats": 4, "unit": 4, "printed": true },
            "key": { "fifths": -3, "printed": true },
            "startBarline": "none", "endBarline": "repeat-end",
            "rehearsal": { "text": "A", "enclosure": "box" },
            "content": "multi-rest", "signs": ["to-coda"], "ending": [1, 2],
            "confidence": 0.98, "origin": "read", "somethingNewer": 5 } ] }
      """;

  @Test
  void readsEveryKeyOfTheExample() {
    BarMap map = BarMapJson.read(EXAMPLE);
    Bar bar = map.bars().get(0);
    assertThat(map.book()).isEqualTo(new Book("Saltmarsh", "Double Bass"));
    assertThat(map.pages().get(0).systems().get(0).printedBarNumber()).contains(1);
    assertThat(bar.outline().topRight()).isEqualTo(new Point(655, 404));
    assertThat(bar.meter()).contains(new Meter(4, 4, true));
    assertThat(bar.key()).contains(new Key(-3, true));
    assertThat(bar.endBarline()).isEqualTo(Barline.REPEAT_END);
    assertThat(bar.rehearsal()).contains(new RehearsalMark("A", Enclosure.BOX));
    assertThat(bar.content()).isEqualTo(Content.MULTI_REST);
    assertThat(bar.signs()).containsExactly(Navigation.TO_CODA);
    assertThat(bar.ending()).containsExactly(1, 2);
    assertThat(bar.label()).isEmpty();
  }

  @Test
  void whatIsWrittenReadsBackTheSameAndLeavesAbsentKeysOut() {
    BarMap map = BarMapJson.read(EXAMPLE);
    String text = BarMapJson.write(map);
    assertThat(BarMapJson.read(text)).isEqualTo(map);
    assertThat(text).doesNotContain("silentStart").doesNotContain("null");
    assertThat(text).contains("\"repeat-end\"").contains("\"multi-rest\"");
  }

  @Test
  void whatIsWrongIsNamedWithItsPlace() {
    assertThatThrownBy(() -> BarMapJson.read("{"))
        .isInstanceOf(BadMapException.class)
        .hasMessageContaining("not JSON");
    assertThatThrownBy(() -> BarMapJson.read(EXAMPLE.replace("\"count\": 1", "\"count\": 0")))
        .hasMessageContaining("/bars/0/count");
    assertThatThrownBy(() -> BarMapJson.read(EXAMPLE.replace("\"system\": 1", "\"system\": 9")))
        .hasMessageContaining("b1");
    assertThatThrownBy(
            () -> BarMapJson.read(EXAMPLE.replace("\"lastBar\": \"b1\"", "\"lastBar\": \"b9\"")))
        .hasMessageContaining("b9");
  }

  @Test
  void aKeyIsOptionalAndHasSevenSharpsOrFlatsAtMost() {
    String without = EXAMPLE.replace("\"key\": { \"fifths\": -3, \"printed\": true },", "");
    BarMap unknown = BarMapJson.read(without);
    assertThat(unknown.bars().get(0).key()).isEmpty();
    assertThat(BarMapJson.write(unknown)).doesNotContain("key");
    assertThatThrownBy(() -> BarMapJson.read(EXAMPLE.replace("-3", "-8")))
        .hasMessageContaining("/bars/0/key/fifths");
    assertThat(new Key(-3, true).says()).isEqualTo("3 flats");
    assertThat(new Key(1, false).says()).isEqualTo("1 sharp");
    assertThat(new Key(0, false).says()).isEqualTo("no sharps or flats");
  }

  @Test
  void aChangedCopyKeepsTheRest() {
    Bar bar = BarMapJson.read(EXAMPLE).bars().get(0);
    Bar changed = bar.toBuilder().count(8).origin(Origin.CORRECTED).build();
    assertThat(changed.count()).isEqualTo(8);
    assertThat(changed.nextNumber()).isEqualTo(9);
    assertThat(changed.toBuilder().count(1).origin(Origin.READ).build()).isEqualTo(bar);
    assertThat(bar.toBuilder().label(Optional.empty()).ending(List.of()).build().ending())
        .isEmpty();
  }
}
