package org.barmap.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import org.barmap.exchange.musicxml.MusicXmlSchema;
import org.barmap.exchange.musicxml.Scores;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.plan.Books;
import org.barmap.plan.Plan;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.ShowChanges;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class NotationFileTest {

  @ParameterizedTest
  @EnumSource(NotationFile.Form.class)
  void everyFormOfTheDemoBookIsWritten(NotationFile.Form form) throws Exception {
    NotationFile file = write(form, Scores.saltmarsh(), "", OptionalDouble.of(100));

    assertThat(NotationFile.Form.of(form.word())).contains(form);
    assertThat(file.bytes()).isNotEmpty();
    if (file.type().contains("musicxml")) {
      MusicXmlSchema.check(file.bytes());
    }
  }

  /** Bars by their names in the order they sound; what is played is computed by hand. */
  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      textBlock =
          """
          %7 |:1 2/1:| 3/2 4@n4                     ; ''                                   ; 1 2 1 3 4
          %7 1 2@segno 3@fine 4@ds 5                ; ''                                   ; 1 2 3 4 2 3
          %7 1 2@mr4 6 7                            ; {"kind":"cut","first":"3","last":"4"} ; 1 2 5 6 7
          %7 1 2 3                                  ; {"kind":"insert","after":"2","bars":2,"label":"2A"} ; 1 2 2A 2B 3
          %7 1 |:2:|x3 3                            ; {"kind":"cut","first":"3","last":"3"} ; 1 2 2 2
          """)
  void barsAsTheySound(String book, String change, String numbers) throws Exception {
    BarMap map = Books.book(book);
    Plan plan = Planner.plan(map, changes(change), PlanSettings.USUAL);
    byte[] xml =
        NotationFile.of(
                NotationFile.Form.MUSICXML_PLAYED,
                new NotationFile.Source(map, () -> plan, Optional.of("7"), OptionalDouble.empty()))
            .bytes();

    MusicXmlSchema.check(xml);
    assertThat(Scores.read(xml).parts().get(0).measures().stream().map(m -> m.number()).toList())
        .containsExactly(numbers.split(" "));
    assertThat(new String(xml, StandardCharsets.UTF_8))
        .doesNotContain("<repeat", "<ending", "segno", "fine=");
  }

  @Test
  void everyNumberIsAFileOfItsOwn() throws Exception {
    byte[] zip =
        write(NotationFile.Form.MUSICXML_NUMBERS, Scores.saltmarsh(), "", OptionalDouble.empty())
            .bytes();
    List<String> names = new ArrayList<>();
    int bars = 0;
    try (ZipInputStream in = new ZipInputStream(new ByteArrayInputStream(zip))) {
      for (ZipEntry e = in.getNextEntry(); e != null; e = in.getNextEntry()) {
        names.add(e.getName());
        bars += Scores.read(in.readAllBytes()).parts().get(0).measures().size();
      }
    }
    assertThat(names).hasSize(7).contains("003-4-A-Boat-for-the-Widow.musicxml");
    assertThat(bars).isEqualTo(Scores.saltmarsh().writtenBars());
  }

  @Test
  void aTitleNeverLeadsOutOfTheZip() throws Exception {
    BarMap map = Books.book("%../../7 1 2");
    byte[] zip = write(NotationFile.Form.MUSICXML_NUMBERS, map, "", OptionalDouble.empty()).bytes();
    try (ZipInputStream in = new ZipInputStream(new ByteArrayInputStream(zip))) {
      assertThat(in.getNextEntry().getName()).isEqualTo("001-7.musicxml");
    }
  }

  @Test
  void whatCantBeWrittenIsSaid() {
    BarMap map = Books.book("%7 1 2");
    BarMap none = BarMap.of(new Book("", ""), List.of(), List.of(), List.of());

    assertThatThrownBy(() -> write(NotationFile.Form.MUSICXML, none, "", OptionalDouble.empty()))
        .isInstanceOf(NotWrittenException.class)
        .hasMessage("There are no bars to write yet");
    assertThatThrownBy(() -> write(NotationFile.Form.MUSICXML, map, "8", OptionalDouble.empty()))
        .isInstanceOf(NotWrittenException.class)
        .hasMessage("There is no No. 8 with bars in it");
    assertThatThrownBy(
            () ->
                write(
                    NotationFile.Form.MIDI, map, "8", OptionalDouble.of(NotationFile.LEAST_TEMPO)))
        .isInstanceOf(NotWrittenException.class)
        .hasMessage("There is no No. 8 with bars to play");
    assertThatThrownBy(() -> write(NotationFile.Form.MIDI, map, "7", OptionalDouble.empty()))
        .isInstanceOf(NotWrittenException.class)
        .hasMessageContaining("beats a minute");
  }

  @Test
  void aFaultOfTheProgramIsNotTakenForWhatCantBeWritten() {
    IllegalArgumentException fault = new IllegalArgumentException("internal");
    assertThatThrownBy(
            () ->
                NotationFile.of(
                    NotationFile.Form.MIDI,
                    new NotationFile.Source(
                        Books.book("%7 1 2"),
                        () -> {
                          throw fault;
                        },
                        Optional.empty(),
                        OptionalDouble.empty())))
        .isSameAs(fault);
  }

  private static NotationFile write(
      NotationFile.Form form, BarMap map, String number, OptionalDouble tempo) throws Exception {
    Plan plan = Planner.plan(map, ShowChanges.none(), PlanSettings.USUAL);
    return NotationFile.of(
        form,
        new NotationFile.Source(
            map, () -> plan, number.isEmpty() ? Optional.empty() : Optional.of(number), tempo));
  }

  private static ShowChanges changes(String change) throws Exception {
    return change.isEmpty()
        ? ShowChanges.none()
        : ChangesJson.read(
            "{\"format\":\"changes/1\",\"changes\":["
                + change.replaceFirst("\\{", "{\"id\":\"c1\",\"number\":\"7\",")
                + "]}");
  }
}
