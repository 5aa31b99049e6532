package org.barmap.exchange.musicxml.book;

import static org.assertj.core.api.Assertions.assertThat;
import static org.barmap.exchange.musicxml.book.WrittenScore.FOUR;
import static org.barmap.exchange.musicxml.book.WrittenScore.REST;
import static org.barmap.exchange.musicxml.book.WrittenScore.codes;
import static org.barmap.exchange.musicxml.book.WrittenScore.hidden;
import static org.barmap.exchange.musicxml.book.WrittenScore.m;
import static org.barmap.exchange.musicxml.book.WrittenScore.multi;
import static org.barmap.exchange.musicxml.book.WrittenScore.names;
import static org.barmap.exchange.musicxml.book.WrittenScore.note;
import static org.barmap.exchange.musicxml.book.WrittenScore.of;
import static org.barmap.exchange.musicxml.book.WrittenScore.texts;
import static org.barmap.exchange.musicxml.book.WrittenScore.words;

import java.util.stream.Collectors;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Barline;
import org.barmap.map.Finding;
import org.barmap.map.MusicalNumber;
import org.barmap.map.json.BarMapJson;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What the measures of a score say, as entries of a book. Meanings are those of MusicXML 4.0. */
class ScoreBookTest {

  /** Source: MusicXML test suite, bars 0, 1, X1, 2 where 0 and X1 are not displayed. */
  @Test
  void whatIsNotDisplayedTakesNoNumber() throws Exception {
    BarMap map =
        of(hidden("0", FOUR + note(1)) + m("1", note(4)) + hidden("X1", note(2)) + m("2", note(4)));

    assertThat(names(map)).isEqualTo("0 1 0 2");
    assertThat(map.bars()).allMatch(b -> b.label().isEmpty());
  }

  @Test
  void labelsThatArePrintedStay() throws Exception {
    BarMap map =
        of(
            m("23", FOUR + note(4))
                + m("23A", note(4))
                + m("24", note(4))
                + m("X1", note(4))
                + m("25", note(4)));

    assertThat(names(map)).isEqualTo("23 23A 24 X1 25");
    assertThat(map.bars().stream().map(Bar::number)).containsExactly(23, 23, 24, 24, 25);
  }

  /** A bar parted by a repeat sign keeps one number: its second piece takes none. */
  @Test
  void aRepeatInMidBarPartsOneBar() throws Exception {
    String back = "<barline location=\"right\"><repeat direction=\"backward\"/></barline>";
    String on = "<barline location=\"left\"><repeat direction=\"forward\"/></barline>";
    BarMap two =
        of(
            hidden("0", FOUR + note(1))
                + m("1", note(4))
                + m("2", note(3) + back)
                + hidden("X1", on + note(1))
                + m("3", note(4)));
    BarMap middle =
        of(
            m("1", FOUR + note(4))
                + m(
                    "2",
                    note(3)
                        + "<barline location=\"middle\"><repeat direction=\"backward\"/></barline>"
                        + note(1))
                + m("3", note(4)));

    assertThat(names(two)).isEqualTo("0 1 2 0 3");
    assertThat(two.bars().get(2).endBarline()).isEqualTo(Barline.REPEAT_BOTH);
    assertThat(names(middle)).isEqualTo("1 2 0 3");
    assertThat(middle.bars().get(1).endBarline()).isEqualTo(Barline.REPEAT_END);
  }

  /** Written in two measures without a line between them: at a line's end for instance. */
  @Test
  void aBarOverTwoLinesIsOneBar() throws Exception {
    String none = "<barline location=\"right\"><bar-style>none</bar-style></barline>";
    BarMap map =
        of(
            m("1", FOUR + note(2) + none)
                + hidden("X1", "<print new-system=\"yes\"/>" + words("dolce") + note(2))
                + m("2", note(4)));

    assertThat(names(map)).isEqualTo("1 2");
    assertThat(texts(map.bars().get(0))).containsExactly("dolce");
  }

  @Test
  void numbersThatBeginAgainBeginANumberOfTheShow() throws Exception {
    BarMap map =
        of(
            m("1", FOUR + words("No. 7 Low Tide") + note(4))
                + m("2", note(4))
                + m("3", note(4))
                + hidden("0", note(1))
                + m("1", note(4))
                + m("2", note(4)));

    assertThat(map.numbers()).hasSize(2);
    assertThat(map.numbers().get(0).label()).isEqualTo("7");
    assertThat(map.numbers().get(0).title()).isEqualTo("Low Tide");
    assertThat(map.numbers().get(1).firstBar()).contains("b4");
    assertThat(map.numbers().get(1).lastBar()).contains("b6");
    assertThat(codes(map)).contains("score-new-number");
    assertThat(texts(map.bars().get(0))).isEmpty();
  }

  /** Bars that are counted through the show begin no numbers; headings behind a final line do. */
  @Test
  void aHeadingBehindAFinalBarlineBeginsANumber() throws Exception {
    String end =
        "<barline location=\"right\"><bar-style>light-heavy</bar-style></barline></measure>";
    String first = "<measure number=\"2\">" + words("No. 9 is cut") + note(4) + end;
    BarMap map =
        of(
            m("1", FOUR + words("No. 1 Opening") + note(4))
                + first
                + m("3", words("No. 2 Low Tide") + note(4)));

    assertThat(map.numbers()).extracting(MusicalNumber::label).containsExactly("1", "2");
    assertThat(map.numbers().get(1).title()).isEqualTo("Low Tide");
    assertThat(map.numbers().get(0).lastBar()).contains("b2");
    assertThat(names(map)).isEqualTo("1 2 3");
  }

  /** A number that goes on at once ends with a double barline as often; a single one ends none. */
  @Test
  void aHeadingBehindADoubleBarlineBeginsANumber() throws Exception {
    String end =
        "<barline location=\"right\"><bar-style>light-light</bar-style></barline></measure>";
    String first = m("1", FOUR + words("No. 1 Opening") + note(4));
    String second = "<measure number=\"2\">" + note(4) + end;
    String third = m("3", words("No. 2 Low Tide") + note(4));

    assertThat(of(first + second + third).numbers())
        .extracting(MusicalNumber::label)
        .containsExactly("1", "2");
    assertThat(of(first + m("2", note(4)) + third).numbers())
        .extracting(MusicalNumber::label)
        .containsExactly("1");
  }

  /** A title may begin with what could be a letter of the number. */
  @ParameterizedTest
  @CsvSource({
    "No. 4 A Boat for the Widow, 4, A Boat for the Widow",
    "No. 4 A-Hunting, 4, A-Hunting",
    "No. 4A A Boat, 4A, A Boat",
    "No. 4A Boat, 4A, Boat",
    "No. 4 A, 4A, ''",
    "No. 4 A: Boat, 4A, Boat",
    "No. 4 A - Boat, 4A, Boat",
    "'No. 4, A Boat', 4, A Boat",
    "No. 7A Low Tide, 7A, Low Tide",
    "#12, 12, ''"
  })
  void headingsHaveANumberAndATitle(String words, String label, String title) throws Exception {
    BarMap map = of(m("1", FOUR + words(words) + note(4)));

    assertThat(map.numbers()).hasSize(1);
    assertThat(map.numbers().get(0).label()).isEqualTo(label);
    assertThat(map.numbers().get(0).title()).isEqualTo(title);
  }

  @Test
  void metersAndKeysAreThoseInForce() throws Exception {
    String cut =
        "<attributes><time symbol=\"cut\"><beats>2</beats><beat-type>2</beat-type></time></attributes>";
    String mixed =
        "<attributes><time><beats>3</beats><beat-type>4</beat-type><beats>3</beats>"
            + "<beat-type>8</beat-type></time><key><cancel>-3</cancel><fifths>2</fifths></key></attributes>";
    String free = "<attributes><time><senza-misura/></time></attributes>";
    BarMap map =
        of(
            m("1", FOUR + note(4))
                + m("2", cut + note(4))
                + m("3", mixed + note(4))
                + m("4", free + note(9)));

    assertThat(
            map.bars().stream()
                .map(b -> b.meter().map(x -> x.beats() + "/" + x.unit()).orElse("-")))
        .containsExactly("4/4", "2/2", "9/8", "-");
    assertThat(map.bars().stream().map(b -> b.key().orElseThrow().fifths()))
        .containsExactly(-3, -3, 2, 2);
    assertThat(codes(map)).filteredOn("score-remark"::equals).hasSize(2);
  }

  @Test
  void barlinesAreAsDrawnAndARepeatAtALinesStartStandsThere() throws Exception {
    String on = "<barline location=\"left\"><repeat direction=\"forward\"/></barline>";
    String both =
        "<barline location=\"right\"><bar-style>light-heavy</bar-style><repeat direction=\"backward\"/></barline>";
    String line = "<print new-system=\"yes\"/>";
    String twice = "<barline location=\"right\"><bar-style>light-light</bar-style></barline>";
    BarMap map =
        of(
            m("1", FOUR + note(4) + twice)
                + m("2", on + note(4) + both)
                + m("3", on + note(4) + both)
                + m("4", line + on + note(4) + both));

    assertThat(map.bars().stream().map(b -> b.startBarline() + " " + b.endBarline()))
        .containsExactly(
            "NONE REPEAT_START",
            "REPEAT_START REPEAT_BOTH",
            "REPEAT_BOTH REPEAT_END",
            "REPEAT_START REPEAT_END");
    assertThat(map.bars().stream().map(Bar::system)).containsExactly(1, 1, 1, 2);
  }

  @Test
  void whatAMapCantHoldIsSaid() throws Exception {
    String lowered =
        "<attributes><divisions>1</divisions><transpose><diatonic>-1</diatonic><chromatic>-2</chromatic></transpose></attributes>";
    String octave =
        "<attributes><divisions>1</divisions><transpose><diatonic>-7</diatonic><chromatic>-12</chromatic></transpose></attributes>";
    String harmony = "<harmony><root><root-step>C</root-step></root><kind>major</kind></harmony>";
    BarMap map = of(m("1", lowered + harmony + note(4)));

    assertThat(map.findings().stream().map(Finding::text).collect(Collectors.joining(" ")))
        .contains("2 half tones lower", "chord symbols (1 bar)");
    assertThat(codes(of(m("1", octave + note(4))))).doesNotContain("score-remark");
  }

  /** A bar without a number on paper that is whole all the same counts; a short one does not. */
  @Test
  void wholeBarsCountWhateverTheyAreCalled() throws Exception {
    BarMap zero = of(m("0", FOUR + note(4)) + m("1", note(4)) + m("2", note(4)));
    BarMap apart = of(m("1", FOUR + note(4)) + hidden("X1", note(4)) + m("2", note(4)));
    BarMap one = of(hidden("1", FOUR + note(1)) + m("1", note(4)) + m("2", note(4)));

    assertThat(zero.bars().get(0).label()).contains("0");
    assertThat(names(apart)).isEqualTo("1 X1 2");
    assertThat(apart.bars().get(1).number()).isEqualTo(1);
    assertThat(names(one)).isEqualTo("0 1 2");
    assertThat(one.bars().get(0).label()).isEmpty();
  }

  @Test
  void whatIsPlayedWithoutSenseIsSaidAndBounded() throws Exception {
    String absurd = "<sound tempo=\"0\"/><sound tempo=\"9999\"/>";
    String again =
        "<barline location=\"right\"><repeat direction=\"backward\" after-jump=\"yes\"/></barline>";
    BarMap map = of(m("1", FOUR + absurd + note(4) + again));
    String both =
        "<direction><direction-type><words>D.S.</words></direction-type><sound dacapo=\"yes\"/></direction>";
    BarMap many = of(m("1", FOUR + both + note(4)).repeat(2000));

    assertThat(map.bars().get(0).words()).isEmpty();
    assertThat(codes(map)).filteredOn("score-remark"::equals).hasSize(2);
    assertThat(many.findings()).hasSize(501);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      textBlock =
          """
          <work><work-title>Saltmarsh</work-title></work>                        ; Saltmarsh ; ''
          <movement-title>Low Tide</movement-title>                              ; Low Tide  ; ''
          <credit page="1"><credit-type>title</credit-type><credit-words>Eels</credit-words></credit> ; Eels ; ''
          <credit page="1"><credit-words>1</credit-words></credit>               ; test      ; ''
          <movement-number>7</movement-number><movement-title>Low Tide</movement-title> ; Low Tide ; 7
          """)
  void aBookIsCalledWhatTheScoreSays(String head, String title, String number) throws Exception {
    String score = new String(WrittenScore.xml("1 2"), java.nio.charset.StandardCharsets.UTF_8);
    BarMap map =
        WrittenScore.book(
            score
                .replace("<part-list>", head + "<part-list>")
                .getBytes(java.nio.charset.StandardCharsets.UTF_8),
            "");

    assertThat(map.book().title()).isEqualTo(title);
    assertThat(map.numbers().stream().map(n -> n.label()).collect(Collectors.joining()))
        .isEqualTo(number);
  }

  @Test
  void theMapIsValidAndCanBeWrittenAndReadAgain() throws Exception {
    BarMap map = of(m("1", FOUR + note(4)) + m("2", multi(2) + REST) + m("3", REST));

    assertThat(BarMapJson.read(BarMapJson.write(map))).isEqualTo(map);
  }
}
