package org.barmap.exchange.musicxml.book;

import static org.assertj.core.api.Assertions.assertThat;
import static org.barmap.exchange.musicxml.book.WrittenScore.note;
import static org.barmap.exchange.musicxml.book.WrittenScore.of;

import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Barline;
import org.barmap.map.Content;
import org.barmap.map.Enclosure;
import org.barmap.map.Finding;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Navigation;
import org.barmap.map.Word;
import org.barmap.map.json.BarMapJson;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What the measures of a score say, as entries of a book. Meanings are those of MusicXML 4.0. */
class ScoreBookTest {
  private static final String FOUR =
      "<attributes><divisions>1</divisions><key><fifths>-3</fifths></key>"
          + "<time symbol=\"common\"><beats>4</beats><beat-type>4</beat-type></time></attributes>";
  private static final String REST = "<note><rest measure=\"yes\"/><duration>4</duration></note>";

  private static String m(String number, String content) {
    return "<measure number=\"" + number + "\">" + content + "</measure>";
  }

  private static String hidden(String number, String content) {
    return "<measure number=\"" + number + "\" implicit=\"yes\">" + content + "</measure>";
  }

  private static String words(String... words) {
    return IntStream.range(0, words.length)
        .mapToObj(i -> "<words>" + words[i] + "</words>")
        .collect(
            Collectors.joining("", "<direction><direction-type>", "</direction-type></direction>"));
  }

  private static String multi(int bars) {
    return "<attributes><measure-style><multiple-rest>"
        + bars
        + "</multiple-rest></measure-style></attributes>";
  }

  private static String names(BarMap map) {
    return map.bars().stream()
        .map(
            b ->
                b.label().orElse(Integer.toString(b.number()))
                    + (b.count() > 1 ? "x" + b.count() : ""))
        .collect(Collectors.joining(" "));
  }

  private static List<String> codes(BarMap map) {
    return map.findings().stream().map(Finding::code).toList();
  }

  private static List<String> texts(Bar bar) {
    return bar.words().stream().map(Word::text).toList();
  }

  /** Source: MusicXML test suite, rests of 3, 15, 1 and 12 bars are 31 bars; entries as drawn. */
  @Test
  void multiBarRestsAreOneEntryEach() throws Exception {
    StringBuilder score = new StringBuilder();
    int number = 1;
    for (int length : List.of(3, 15, 1, 12)) {
      for (int k = 0; k < length; k++) {
        score.append(
            m("" + number, (number == 1 ? FOUR : "") + (k == 0 ? multi(length) : "") + REST));
        number++;
      }
    }

    BarMap map = of(score.toString());

    assertThat(names(map)).isEqualTo("1x3 4x15 19 20x12");
    assertThat(map.writtenBars()).isEqualTo(31);
    assertThat(map.bars().stream().map(Bar::content))
        .containsExactly(Content.MULTI_REST, Content.MULTI_REST, Content.REST, Content.MULTI_REST);
  }

  /** A rest that the file says is longer than what is there: nothing is passed over. */
  @Test
  void aRestEndsWhereSomethingStands() throws Exception {
    BarMap map =
        of(
            m("1", FOUR + multi(4) + REST)
                + m("2", REST)
                + m(
                    "3",
                    "<direction><direction-type><rehearsal>B</rehearsal></direction-type></direction>"
                        + REST)
                + m("4", REST)
                + m("5", note(4)));

    assertThat(names(map)).isEqualTo("1x2 3 4 5");
    assertThat(map.bars().get(1).rehearsal().orElseThrow().text()).isEqualTo("B");
    assertThat(codes(map)).contains("score-rest");
  }

  /** Some readers of printed music write a rest of eight bars as one measure and count on. */
  @Test
  void oneMeasureMayStandForTheWholeRest() throws Exception {
    BarMap map = of(m("1", FOUR + note(4)) + m("2", multi(8) + REST) + m("10", note(4)));

    assertThat(names(map)).isEqualTo("1 2x8 10");
    assertThat(codes(map)).doesNotContain("score-rest");
  }

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

  /** An entry of a bar map stands for 10,000 bars at the most. */
  @ParameterizedTest
  @CsvSource({"16, 16", "10000, 10000", "10001, 1", "99999999999, 1", "-4294967276, 1"})
  void aRestLongerThanAnyIsNone(String said, int bars) throws Exception {
    String style =
        "<attributes><measure-style><multiple-rest>"
            + said
            + "</multiple-rest></measure-style></attributes>";
    String next = said.length() > 6 ? "2" : Integer.toString(Integer.parseInt(said) + 1);
    BarMap map = of(m("1", FOUR + style + REST) + m(next, note(4)));

    assertThat(map.bars().get(0).count()).isEqualTo(bars);
    assertThat(BarMapJson.read(BarMapJson.write(map)).bars()).hasSize(2);
  }

  /** A musical sign takes two characters; half of one can't be written into any file. */
  @Test
  void longWordsAreNotCutInTheMidstOfASign() throws Exception {
    BarMap map = of(m("1", FOUR + words("x".repeat(198) + "\uD834\uDD0B and more") + note(4)));

    assertThat(texts(map.bars().get(0))).containsExactly("x".repeat(198) + "\u2026");
    assertThat(BarMapJson.read(BarMapJson.write(map)).bars()).hasSize(1);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      textBlock =
          """
          D.C. al Fine       ; DA_CAPO
          Da Capo            ; DA_CAPO
          D. C.              ; DA_CAPO
          D C                ; DA_CAPO
          D. C al Fine       ; DA_CAPO
          D.C.al Coda        ; DA_CAPO
          (D.S. al Coda)     ; DAL_SEGNO
          Dal Segno al Fine  ; DAL_SEGNO
          DS al Fine         ; DAL_SEGNO
          To Coda            ; TO_CODA
          2nd x to Coda      ; TO_CODA
          To Coda (last time); TO_CODA
          on cue to Coda 2   ; TO_CODA
          go to the Coda     ; TO_CODA
          Coda               ; CODA
          CODA               ; CODA
          Fine               ; FINE
          (fine)             ; FINE
          al Coda            ; TO_CODA
          """)
  void wordsSteer(String words, Navigation sign) throws Exception {
    BarMap map = of(m("1", FOUR + note(4) + words(words)) + m("2", note(4)));
    // what counts at a bar's start and stands behind its last note belongs to the next one
    Bar bar = map.bars().get(sign == Navigation.CODA ? 1 : 0);

    assertThat(bar.signs()).containsExactly(sign);
  }

  @ParameterizedTest
  @CsvSource({
    "Codetta",
    "Finely",
    "D major",
    "D C G",
    "to the end",
    "listen to the coda singer",
    "cross to coda platform",
    "discord",
    "Final time",
    "accordion",
    "dcresc."
  })
  void otherWordsDoNot(String words) throws Exception {
    assertThat(of(m("1", FOUR + words(words) + note(4))).bars().get(0).signs()).isEmpty();
  }

  /** A sign drawn behind its words is part of them. */
  @Test
  void wordsAndASignInOneAreOneSaying() throws Exception {
    String to =
        "<direction><direction-type><words>To</words></direction-type>"
            + "<direction-type><coda/></direction-type></direction>";
    String ds =
        "<direction><direction-type><words>D.S. al</words></direction-type>"
            + "<direction-type><coda/></direction-type></direction>";
    BarMap map = of(m("1", FOUR + note(4) + to) + m("2", note(4) + ds) + m("3", note(4)));

    assertThat(map.bars().get(0).signs()).containsExactly(Navigation.TO_CODA);
    assertThat(map.bars().get(1).signs()).containsExactly(Navigation.DAL_SEGNO);
  }

  @Test
  void ofTwoBareCodaSignsTheFirstLeavesForTheSecond() throws Exception {
    String coda = "<direction><direction-type><coda/></direction-type></direction>";
    BarMap map =
        of(
            m("1", FOUR + note(4) + coda)
                + m("2", note(4) + words("D.C."))
                + m("3", coda + note(4)));

    // the first stands behind the last note of bar 1
    assertThat(map.bars().get(0).signs()).containsExactly(Navigation.TO_CODA);
    assertThat(map.bars().get(2).signs()).containsExactly(Navigation.CODA);
    assertThat(codes(map)).contains("score-asks");
  }

  @Test
  void whereWordsAndSoundDifferTheWordsCountAndItIsAsked() throws Exception {
    String both =
        "<direction><direction-type><words>D.S. al Fine</words></direction-type>"
            + "<sound dacapo=\"yes\"/></direction>";
    BarMap map = of(m("1", FOUR + note(4) + both));
    String apart = words("D.S.") + "<sound dacapo=\"yes\"/>";
    String leaves =
        "<direction><direction-type><words>To Coda</words></direction-type>"
            + "<sound coda=\"coda\"/></direction>";
    BarMap coda = of(m("1", FOUR + note(2) + leaves + note(2)));

    assertThat(map.bars().get(0).signs()).containsExactly(Navigation.DAL_SEGNO);
    assertThat(codes(map)).contains("score-asks");
    assertThat(coda.bars().get(0).signs()).containsExactly(Navigation.TO_CODA);
    assertThat(codes(coda)).contains("score-asks");
    assertThat(of(m("1", FOUR + note(4) + apart)).bars().get(0).signs())
        .containsExactly(Navigation.DAL_SEGNO);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      textBlock =
          """
          1       ;        ; [1]
          1, 2    ;        ; [1, 2]
          1-3     ;        ; [1, 2, 3]
          1.,2.   ;        ; [1, 2]
          ''      ; 2.     ; [2]
          """)
  void endingsAreListsOfTimes(String number, String text, String expected) throws Exception {
    String start =
        "<barline location=\"left\"><ending number=\""
            + number
            + "\" type=\"start\">"
            + (text == null ? "" : text)
            + "</ending></barline>";
    String stop =
        "<barline location=\"right\"><ending number=\""
            + number
            + "\" type=\"discontinue\"/></barline>";
    BarMap map = of(m("1", FOUR + note(4)) + m("2", start + note(4) + stop) + m("3", note(4)));

    assertThat(map.bars().stream().map(b -> b.ending().toString()))
        .containsExactly("[]", expected, "[]");
  }

  /** An ending that never stops must not swallow the rest of the piece. */
  @Test
  void anEndingThatIsNeverStoppedGoesToItsRepeat() throws Exception {
    String start = "<barline location=\"left\"><ending number=\"1\" type=\"start\"/></barline>";
    String back = "<barline location=\"right\"><repeat direction=\"backward\"/></barline>";
    BarMap map =
        of(
            m("1", FOUR + note(4))
                + m("2", start + note(4))
                + m("3", note(4) + back)
                + m("4", note(4)));

    assertThat(map.bars().stream().map(b -> b.ending().toString()))
        .containsExactly("[]", "[1]", "[1]", "[]");
    assertThat(codes(map)).contains("score-asks");
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
  void tempoMarksAreWords() throws Exception {
    String mark =
        "<direction placement=\"above\"><direction-type><words>Swing</words></direction-type>"
            + "<direction-type><metronome parentheses=\"yes\"><beat-unit>quarter</beat-unit><beat-unit-dot/>"
            + "<per-minute>84</per-minute></metronome></direction-type><sound tempo=\"126\"/></direction>";
    String half =
        "<direction><direction-type><metronome><beat-unit>half</beat-unit><beat-unit-dot/>"
            + "<per-minute>60</per-minute></metronome></direction-type></direction>";
    String unsaid = words("Broadly").replace("</direction>", "<sound tempo=\"96\"/></direction>");
    BarMap map =
        of(m("1", FOUR + mark + note(4)) + m("2", half + note(4)) + m("3", unsaid + note(4)));

    assertThat(texts(map.bars().get(0))).containsExactly("Swing (\u2669. = 84)");
    assertThat(texts(map.bars().get(1))).containsExactly("dotted half = 60");
    assertThat(texts(map.bars().get(2))).containsExactly("\u2669 = 96", "Broadly");
    assertThat(codes(map)).contains("score-tempo");
  }

  @Test
  void wordsOfThePlayerStay() throws Exception {
    BarMap map =
        of(
            m("1", FOUR + words("VAMP") + words("till cue") + note(4))
                + m("2", words("pizz.") + note(4))
                + m("3", words("G.P.") + REST)
                + m("4", words("To E.B.") + REST)
                + m("5", words("Tacet") + REST));

    assertThat(map.bars().stream().map(b -> texts(b).toString()))
        .containsExactly("[VAMP, till cue]", "[pizz.]", "[G.P.]", "[To E.B.]", "[Tacet]");
  }

  @Test
  void signsOfRepeatedBarsFermatasAndMarks() throws Exception {
    String begins =
        "<attributes><measure-style><measure-repeat type=\"start\">1</measure-repeat></measure-style></attributes>";
    String ends =
        "<attributes><measure-style><measure-repeat type=\"stop\"/></measure-style></attributes>";
    String held = note(4).replace("</note>", "<notations><fermata/></notations></note>");
    String mark =
        "<direction><direction-type><rehearsal enclosure=\"circle\">C</rehearsal></direction-type></direction>";
    BarMap map =
        of(
            m("1", FOUR + note(4))
                + m("2", begins + note(4))
                + m("3", note(4))
                + m("4", ends + mark + held));

    assertThat(map.bars().stream().map(Bar::content))
        .containsExactly(Content.MUSIC, Content.BAR_REPEAT, Content.BAR_REPEAT, Content.MUSIC);
    assertThat(map.bars().get(3).has(Navigation.FERMATA)).isTrue();
    assertThat(map.bars().get(3).rehearsal().orElseThrow().enclosure()).isEqualTo(Enclosure.CIRCLE);
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

  /** Beats of silence before the first and behind the last note of a bar. */
  @Test
  void silenceInABarIsMeasured() throws Exception {
    String rest = "<note><rest/><duration>1</duration></note>";
    BarMap map = of(m("1", FOUR + rest + note(1) + rest + rest));

    assertThat(map.bars().get(0).silentStart()).contains(1.0);
    assertThat(map.bars().get(0).silentEnd()).contains(2.0);
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

  /** A form without a note or a rest: nothing says that nobody plays. */
  @Test
  void aFormWithoutNotesIsMusic() throws Exception {
    BarMap map = of(m("1", "") + m("2", "") + m("3", ""));

    assertThat(map.bars()).allMatch(b -> b.content() == Content.MUSIC);
    assertThat(codes(map)).contains("score-bare");
    assertThat(of(m("1", FOUR + note(4)) + m("2", "")).bars().get(1).content())
        .isEqualTo(Content.REST);
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
