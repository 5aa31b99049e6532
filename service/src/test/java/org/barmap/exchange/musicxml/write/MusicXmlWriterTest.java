package org.barmap.exchange.musicxml.write;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.IntStream;
import org.barmap.exchange.musicxml.MusicXmlSchema;
import org.barmap.exchange.musicxml.Scores;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Barline;
import org.barmap.map.Book;
import org.barmap.map.Content;
import org.barmap.map.Key;
import org.barmap.map.Meter;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Outline;
import org.barmap.map.RehearsalMark;
import org.barmap.map.SecondReading;
import org.junit.jupiter.api.Test;

class MusicXmlWriterTest {
  private static final Outline OUTLINE = Outline.box(0, 0, 100, 40);

  @Test
  void theDemoBookIsValidMusicXml() throws Exception {
    byte[] xml = written(Scores.saltmarsh());

    MusicXmlSchema.check(xml);
    assertThat(new String(xml, StandardCharsets.UTF_8))
        .contains("MusicXML 4.0 Partwise", " version=\"4.0\">");
  }

  @Test
  void theSchemaUsedHereRefusesWhatIsWrong() {
    byte[] wrong =
        Scores.score(Scores.measure("1", "<barline location=\"up\"/>"))
            .getBytes(StandardCharsets.UTF_8);

    assertThatThrownBy(() -> MusicXmlSchema.check(wrong)).hasMessageContaining("'up'");
  }

  /** What goes out comes back the same, for everything MusicXML can say. */
  @Test
  void theDemoBookComesBack() throws Exception {
    BarMap map = Scores.saltmarsh();

    SecondReading back = Scores.read(written(map));

    assertThat(back.parts()).hasSize(1);
    assertThat(back.parts().get(0).name()).isEqualTo("Bass");
    List<SecondReading.Measure> measures = back.parts().get(0).measures();
    assertThat(measures).hasSize(map.writtenBars());
    int at = 0;
    for (Bar bar : map.bars()) {
      SecondReading.Measure first = measures.get(at);
      SecondReading.Measure last = measures.get(at + bar.count() - 1);
      assertThat(first.number())
          .as(bar.id())
          .isEqualTo(bar.label().orElse(Integer.toString(bar.number())));
      assertThat(first.implicit()).as(bar.id()).isEqualTo(bar.number() == 0);
      assertThat(first.meter()).as(bar.id()).isPresent();
      assertThat(first.meter().orElseThrow().sameAs(bar.meter().orElseThrow())).isTrue();
      assertThat(first.rehearsal())
          .as(bar.id())
          .isEqualTo(bar.rehearsal().map(RehearsalMark::text));
      assertThat(first.multiRest())
          .as(bar.id())
          .isEqualTo(bar.content() == Content.MULTI_REST ? bar.count() : 0);
      assertThat(first.rest()).as(bar.id()).isEqualTo(bar.isRest());
      assertThat(first.ending()).as(bar.id()).isEqualTo(bar.ending());
      assertThat(Set.copyOf(join(first.signs(), last.signs())))
          .as(bar.id())
          .isEqualTo(Set.copyOf(bar.signs()));
      assertThat(last.end()).as(bar.id()).isEqualTo(plain(bar.endBarline()));
      if (bar.endBarline().endsRepeat()) {
        assertThat(last.times()).as(bar.id()).isEqualTo(bar.times());
      }
      boolean opens =
          bar.startBarline() == Barline.REPEAT_START || bar.startBarline() == Barline.REPEAT_BOTH;
      assertThat(first.start() == Barline.REPEAT_START).as(bar.id()).isEqualTo(opens);
      at += bar.count();
    }
  }

  private static <T> List<T> join(List<T> a, List<T> b) {
    List<T> all = new ArrayList<>(a);
    all.addAll(b);
    return all;
  }

  /** A repeat's beginning belongs to the bar after it in MusicXML. */
  private static Barline plain(Barline barline) {
    return switch (barline) {
      case REPEAT_BOTH -> Barline.REPEAT_END;
      case REPEAT_START -> Barline.SINGLE;
      default -> barline;
    };
  }

  /** Source: MusicXML test suite, multi-measure rests of 3, 15, 1 and 12 bars are 31 bars. */
  @Test
  void multiBarRestsAreWrittenOut() throws Exception {
    List<Bar> bars = new ArrayList<>();
    int number = 1;
    for (int count : List.of(3, 15, 1, 12)) {
      bars.add(
          Bar.builder("b" + number, 1, 1, OUTLINE)
              .number(number)
              .count(count)
              .content(count == 1 ? Content.REST : Content.MULTI_REST)
              .meter(new Meter(4, 4, number == 1))
              .build());
      number += count;
    }
    BarMap map = BarMap.of(new Book("Test", "Bass"), List.of(), List.of(), bars);

    byte[] xml = written(map);
    List<SecondReading.Measure> back = Scores.read(xml).parts().get(0).measures();

    MusicXmlSchema.check(xml);
    assertThat(map.writtenBars()).isEqualTo(31);
    assertThat(back.stream().map(SecondReading.Measure::number))
        .containsExactlyElementsOf(
            IntStream.rangeClosed(1, 31).mapToObj(Integer::toString).toList());
  }

  /** Source: MusicXML 4.0, W3C: a pickup is number 0 and implicit; numbers are tokens. */
  @Test
  void pickupsAndInsertedBarsKeepTheirNames() throws Exception {
    BarMap map =
        mapOf(
            Bar.builder("b0", 1, 1, OUTLINE).number(0).meter(new Meter(3, 4, true)).build(),
            Bar.builder("b1", 1, 1, OUTLINE).number(1).build(),
            Bar.builder("b1a", 1, 1, OUTLINE).number(1).label("1A").build(),
            Bar.builder("b2", 1, 1, OUTLINE).number(2).build());

    byte[] xml = written(map);
    List<SecondReading.Measure> back = Scores.read(xml).parts().get(0).measures();

    MusicXmlSchema.check(xml);
    assertThat(back.stream().map(SecondReading.Measure::number))
        .containsExactly("0", "1", "1A", "2");
    assertThat(back.stream().map(SecondReading.Measure::implicit))
        .containsExactly(true, false, false, false);
  }

  /** Source: MusicXML 4.0, W3C: {@code fifths} counts flats down and sharps up. */
  @Test
  void keysGoOutAndComeBack() throws Exception {
    BarMap map =
        mapOf(
            Bar.builder("b1", 1, 1, OUTLINE).number(1).build(),
            Bar.builder("b2", 1, 1, OUTLINE).number(2).key(new Key(-3, true)).build(),
            Bar.builder("b3", 1, 1, OUTLINE).number(3).key(new Key(-3, false)).build(),
            Bar.builder("b4", 1, 1, OUTLINE).number(4).key(new Key(0, true)).build());

    byte[] xml = written(map);
    List<SecondReading.Measure> back = Scores.read(xml).parts().get(0).measures();

    MusicXmlSchema.check(xml);
    assertThat(new String(xml, StandardCharsets.UTF_8)).contains("<fifths>-3</fifths>");
    assertThat(back.stream().map(SecondReading.Measure::key))
        .containsExactlyElementsOf(map.bars().stream().map(Bar::key).toList());
  }

  /** Source: MusicXML 4.0, W3C: {@code sound@tempo} is quarter notes a minute. */
  @Test
  void aMetronomeMarkSteersInQuartersAMinute() throws Exception {
    BarMap map =
        mapOf(
            Bar.builder("b1", 1, 1, OUTLINE)
                .words(List.of(word("Jig, in two  \u2669. = 120"), word("pizz.")))
                .build());

    byte[] xml = written(map);

    MusicXmlSchema.check(xml);
    assertThat(new String(xml, StandardCharsets.UTF_8)).containsOnlyOnce("tempo=\"180\"");
  }

  private static BarMap mapOf(Bar... bars) {
    return BarMap.of(new Book("Test", "Bass"), List.of(), List.of(), List.of(bars));
  }

  private static org.barmap.map.Word word(String text) {
    return new org.barmap.map.Word(
        text, org.barmap.map.Placement.ABOVE, java.util.Optional.empty());
  }

  @Test
  void oneNumberAloneIsWrittenUnderItsName() throws Exception {
    BarMap map = Scores.saltmarsh();
    MusicalNumber number = map.numbers().get(3);
    ByteArrayOutputStream out = new ByteArrayOutputStream();

    MusicXmlWriter.write(map, number, out);

    MusicXmlSchema.check(out.toByteArray());
    String xml = out.toString(StandardCharsets.UTF_8);
    assertThat(xml)
        .contains(
            "<work-title>Saltmarsh</work-title>",
            "<movement-number>4</movement-number>",
            "<movement-title>A Boat for the Widow</movement-title>");
    assertThat(Scores.read(out.toByteArray()).parts().get(0).measures())
        .hasSize(map.barsOf(number).stream().mapToInt(Bar::count).sum());
  }

  @Test
  void textFromThePageIsNeverMarkup() throws Exception {
    String nasty = "</words><script>\u0000 & \"B\"";
    BarMap map =
        BarMap.of(
            new Book(nasty, nasty),
            List.of(),
            List.of(),
            List.of(
                Bar.builder("b1", 1, 1, OUTLINE)
                    .rehearsal(new RehearsalMark("<A>", org.barmap.map.Enclosure.BOX))
                    .words(
                        List.of(
                            new org.barmap.map.Word(
                                nasty, org.barmap.map.Placement.BELOW, java.util.Optional.empty())))
                    .build()));

    byte[] xml = written(map);

    MusicXmlSchema.check(xml);
    assertThat(Scores.read(xml).parts().get(0).measures().get(0).rehearsal()).contains("<A>");
  }

  @Test
  void aMapLongerThanAnyBookIsRefused() {
    Bar bar = Bar.builder("b1", 1, 1, OUTLINE).count(10_000).content(Content.MULTI_REST).build();
    List<Bar> bars =
        IntStream.range(0, 30).mapToObj(i -> bar.toBuilder().id("b" + i).build()).toList();
    BarMap map = BarMap.of(new Book("", ""), List.of(), List.of(), bars);

    assertThatThrownBy(() -> written(map)).isInstanceOf(IllegalArgumentException.class);
  }

  private static byte[] written(BarMap map) throws Exception {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    MusicXmlWriter.write(map, out);
    return out.toByteArray();
  }
}
