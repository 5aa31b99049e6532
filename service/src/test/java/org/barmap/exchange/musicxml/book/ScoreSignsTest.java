package org.barmap.exchange.musicxml.book;

import static org.assertj.core.api.Assertions.assertThat;
import static org.barmap.exchange.musicxml.book.WrittenScore.FOUR;
import static org.barmap.exchange.musicxml.book.WrittenScore.REST;
import static org.barmap.exchange.musicxml.book.WrittenScore.codes;
import static org.barmap.exchange.musicxml.book.WrittenScore.m;
import static org.barmap.exchange.musicxml.book.WrittenScore.note;
import static org.barmap.exchange.musicxml.book.WrittenScore.of;
import static org.barmap.exchange.musicxml.book.WrittenScore.texts;
import static org.barmap.exchange.musicxml.book.WrittenScore.words;

import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Navigation;
import org.barmap.map.json.BarMapJson;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Words, signs and endings of a score, as a book has them. Meanings are those of MusicXML 4.0. */
class ScoreSignsTest {

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
}
