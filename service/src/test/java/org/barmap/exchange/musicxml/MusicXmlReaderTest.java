package org.barmap.exchange.musicxml;

import static org.assertj.core.api.Assertions.assertThat;
import static org.barmap.exchange.musicxml.Scores.measure;
import static org.barmap.exchange.musicxml.Scores.measures;
import static org.barmap.exchange.musicxml.Scores.rest;
import static org.barmap.exchange.musicxml.Scores.time;

import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.barmap.map.Barline;
import org.barmap.map.Navigation;
import org.barmap.map.SecondReading;
import org.junit.jupiter.api.Test;

class MusicXmlReaderTest {

  /** Source: MusicXML test suite, multi-measure rests of 3, 15, 1 and 12 bars. */
  @Test
  void multiBarRestsOf3And15And1And12Are31Bars() throws Exception {
    StringBuilder score = new StringBuilder();
    int number = 1;
    for (int length : List.of(3, 15, 1, 12)) {
      for (int k = 0; k < length; k++) {
        String style =
            k == 0
                ? "<attributes><measure-style><multiple-rest>"
                    + length
                    + "</multiple-rest></measure-style></attributes>"
                : "";
        score.append(
            measure(Integer.toString(number), (number == 1 ? time(4, 4) : "") + style + rest(4)));
        number++;
      }
    }

    List<SecondReading.Measure> read = measures(score.toString());

    assertThat(read).hasSize(31).allMatch(SecondReading.Measure::rest);
    assertThat(read.stream().mapToInt(SecondReading.Measure::multiRest).filter(n -> n > 0))
        .containsExactly(3, 15, 1, 12);
    assertThat(read.get(30).number()).isEqualTo("31");
  }

  /**
   * Source: MusicXML test suite, rests under changing meters: 2 bars 4/4, 3 bars 3/4, 2 bars 2/4, 2
   * bars 4/4 are 9 bars and 29 quarters; 14.5 s at quarter = 120 is computed.
   */
  @Test
  void changingMetersAddUpTo29Quarters() throws Exception {
    String score =
        measure("1", time(4, 4) + rest(4))
            + measure("2", rest(4))
            + measure("3", time(3, 4) + rest(3))
            + measure("4", rest(3))
            + measure("5", rest(3))
            + measure("6", time(2, 4) + rest(2))
            + measure("7", rest(2))
            + measure("8", time(4, 4) + rest(4))
            + measure("9", rest(4));

    List<SecondReading.Measure> read = measures(score);
    double quarters = read.stream().mapToDouble(m -> m.meter().orElseThrow().quarters()).sum();

    assertThat(read).hasSize(9);
    assertThat(quarters).isEqualTo(29);
    assertThat(quarters * 60 / 120).isEqualTo(14.5);
    assertThat(read.stream().map(m -> m.meter().orElseThrow().printed()))
        .containsExactly(true, false, true, false, false, true, false, true, false);
  }

  /** Source: MusicXML test suite, bars 0, 1, X1, 2 where 0 and X1 are implicit. */
  @Test
  void numbersAreTokensAndImplicitOnesAreNotDisplayed() throws Exception {
    String score =
        "<measure number=\"0\" implicit=\"yes\">"
            + time(4, 4)
            + "</measure><measure number=\"1\"/><measure number=\"X1\" implicit=\"yes\"/>"
            + "<measure number=\"2\"/>";

    List<SecondReading.Measure> read = measures(score);

    assertThat(read.stream().map(SecondReading.Measure::number))
        .containsExactly("0", "1", "X1", "2");
    assertThat(
            read.stream()
                .filter(SecondReading.Measure::implicit)
                .map(SecondReading.Measure::number))
        .containsExactly("0", "X1");
  }

  /** Source: MusicXML 4.0, W3C: repeats, endings as lists of numbers, sounds that steer. */
  @Test
  void readsRepeatsEndingsAndJumps() throws Exception {
    String score =
        measure(
                "1",
                "<barline location=\"left\"><bar-style>heavy-light</bar-style>"
                    + "<repeat direction=\"forward\"/></barline>"
                    + "<direction><direction-type><rehearsal>A</rehearsal></direction-type></direction>"
                    + "<direction><direction-type><segno/></direction-type></direction>")
            + measure(
                "2",
                "<barline location=\"left\"><ending number=\"1, 2\" type=\"start\"/></barline>")
            + measure(
                "3",
                "<barline location=\"right\"><bar-style>light-heavy</bar-style>"
                    + "<ending number=\"1, 2\" type=\"stop\"/>"
                    + "<repeat direction=\"backward\" times=\"3\"/></barline>")
            + measure(
                "4",
                "<direction><direction-type><coda/></direction-type><sound tocoda=\"c\"/></direction>")
            + measure(
                "5",
                "<direction><direction-type><words>D.S. al Coda</words></direction-type></direction>"
                    + "<barline location=\"right\"><bar-style>light-light</bar-style></barline>")
            + measure("6", "<direction><direction-type><coda/></direction-type></direction>");

    List<SecondReading.Measure> read = measures(score);

    assertThat(read.get(0).start()).isEqualTo(Barline.REPEAT_START);
    assertThat(read.get(0).rehearsal()).contains("A");
    assertThat(read.get(0).signs()).containsExactly(Navigation.SEGNO);
    assertThat(IntStream.range(0, 6).mapToObj(i -> read.get(i).ending().toString()))
        .containsExactly("[]", "[1, 2]", "[1, 2]", "[]", "[]", "[]");
    assertThat(read.get(2).end()).isEqualTo(Barline.REPEAT_END);
    assertThat(read.get(2).times()).contains(3);
    assertThat(read.get(3).signs()).containsExactly(Navigation.TO_CODA);
    assertThat(read.get(4).signs()).containsExactly(Navigation.DAL_SEGNO);
    assertThat(read.get(4).end()).isEqualTo(Barline.DOUBLE);
    assertThat(read.get(5).signs()).containsExactly(Navigation.CODA);
  }

  @Test
  void additiveMetersAreSummedAndNonsenseIsNoMeter() throws Exception {
    String five =
        "<attributes><time><beats>3+2</beats><beat-type>8</beat-type></time></attributes>";
    String none =
        "<attributes><time><beats>many</beats><beat-type>7</beat-type></time></attributes>";

    List<SecondReading.Measure> read = measures(measure("1", five) + measure("2", none));

    assertThat(read.get(0).meter().orElseThrow().beats()).isEqualTo(5);
    assertThat(read.get(0).meter().orElseThrow().unit()).isEqualTo(8);
    assertThat(read.get(1).meter()).isEmpty();
  }

  @Test
  void aBarOfCueNotesOverARestIsARest() throws Exception {
    String cue =
        "<note><cue/><pitch><step>C</step><octave>4</octave></pitch><duration>4</duration></note>";
    String note =
        "<note><pitch><step>C</step><octave>3</octave></pitch><duration>4</duration></note>";

    List<SecondReading.Measure> read =
        measures(measure("1", cue + rest(4)) + measure("2", note) + measure("3", ""));

    assertThat(read.stream().map(SecondReading.Measure::rest)).containsExactly(true, false, false);
  }

  @Test
  void readsACompressedScoreAndNamesItsParts() throws Exception {
    byte[] mxl =
        Scores.zip(
            "META-INF/container.xml",
            Scores.container("score.musicxml"),
            "other.txt",
            "not this",
            "score.musicxml",
            Scores.score(measure("7", rest(4))));

    SecondReading read = Scores.read(mxl);

    assertThat(read.partsNamed("bass")).hasSize(1);
    assertThat(
            read.parts().get(0).measures().stream()
                .map(SecondReading.Measure::number)
                .collect(Collectors.joining(",")))
        .isEqualTo("7");
  }

  /**
   * Source: MusicXML 4.0, W3C: a full score has its rehearsal marks, jumps and endings over the top
   * staff only (what MuseScore 3.2 writes of marks and jumps).
   */
  @Test
  void whatAScoreWritesOnceHoldsForEveryPart() throws Exception {
    String top =
        measure(
                "1",
                "<barline location=\"left\"><repeat direction=\"forward\"/></barline>"
                    + "<direction><direction-type><rehearsal>A</rehearsal></direction-type></direction>")
            + measure(
                "2",
                "<barline location=\"left\"><ending number=\"1\" type=\"start\"/></barline>"
                    + "<direction><direction-type><segno/></direction-type></direction>"
                    + "<barline location=\"right\"><ending number=\"1\" type=\"stop\"/>"
                    + "<repeat direction=\"backward\"/></barline>");
    String own = measure("1", rest(4)) + measure("2", rest(4));
    String score =
        "<score-partwise><part-list><score-part id=\"P1\"><part-name>Flute</part-name>"
            + "</score-part><score-part id=\"P2\"><part-name>Bass</part-name></score-part>"
            + "<score-part id=\"P3\"><part-name>Bass Clarinet</part-name></score-part></part-list>"
            + "<part id=\"P1\">"
            + top
            + "</part><part id=\"P2\">"
            + own
            + "</part><part id=\"P3\">"
            + measure("1", rest(4))
            + "</part></score-partwise>";

    SecondReading read = Scores.read(score);
    List<SecondReading.Measure> bass = read.partsNamed("bass").get(0).measures();

    assertThat(bass.get(0).rehearsal()).contains("A");
    assertThat(bass.get(0).start()).isEqualTo(Barline.REPEAT_START);
    assertThat(bass.get(1).signs()).containsExactly(Navigation.SEGNO);
    assertThat(bass.get(1).ending()).containsExactly(1);
    assertThat(bass.get(1).end()).isEqualTo(Barline.REPEAT_END);
    assertThat(bass).allMatch(SecondReading.Measure::rest);
    // not of as many bars: it is left as it is
    assertThat(read.parts().get(2).measures().get(0).rehearsal()).isEmpty();
    assertThat(read.partsNamed("bass")).hasSize(1);
    assertThat(read.partsNamed("P3")).hasSize(1);
    assertThat(read.partsNamed("ba")).hasSize(2);
  }
}
