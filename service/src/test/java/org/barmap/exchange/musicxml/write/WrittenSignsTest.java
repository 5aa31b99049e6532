package org.barmap.exchange.musicxml.write;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.barmap.exchange.musicxml.MusicXmlSchema;
import org.barmap.map.BarMap;
import org.barmap.map.MusicalNumber;
import org.barmap.plan.Books;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * How a map's signs are written. Source of what is expected: the W3C's MusicXML 4.0 reference
 * (elements {@code ending}, {@code repeat}, {@code sound}, {@code measure}, {@code print}), which
 * the schema check holds as well.
 */
class WrittenSignsTest {

  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      textBlock =
          """
          1 2/1,2:| 3/3 4            ; <ending number="1,2" type="start">1., 2.</ending>
          1 2/1,2:| 3/3 4            ; <ending number="1,2" type="stop">1., 2.</ending>
          1 2/1:| 3/2 4              ; <ending number="2" type="discontinue">2.</ending>
          1 |:2 3:|x4                ; <repeat direction="backward" times="4"/>
          1 2 @w:pizz. 3             ; <sound pizzicato="yes"/>
          1@w:arco 2                 ; <sound pizzicato="no"/>
          1 2@segno 3@ds             ; <sound dalsegno="segno1"/>
          1 2@segno 3@ds             ; <sound segno="segno1"/>
          1 2@fine 3@dc              ; <words>D.C. al Fine</words>
          1 2@to 3@dc 4@coda         ; <words>D.C. al Coda</words>
          1 2@dc                     ; <words>D.C.</words>
          1 2@to 3@dc 4@coda         ; <sound tocoda="coda1"/>
          1 2@fine 3@dc              ; <sound fine="yes"/>
          1 23@l23A 3                ; <measure number="23A" text="23A">
          1@n0 2                     ; <measure number="0" implicit="yes">
          1 2@s2 3                   ; <print new-system="yes"/>
          1 2@p2 3                   ; <print new-page="yes"/>
          %1 1 2 %2 3 4:| 5          ; <sound forward-repeat="yes"/>
          |:1:| 2@dc@w:with_repeats  ; <repeat direction="backward" after-jump="yes"/>
          1@x3 2                     ; <words>3X</words>
          1@mr8 2                    ; <multiple-rest>8</multiple-rest>
          1 2@mr8                    ; <bar-style>regular</bar-style>
          1@fermata 2                ; <fermata/>
          1@caesura 2                ; <caesura/>
          """)
  void aSignIsWrittenAsTheStandardHasIt(String book, String expected) throws Exception {
    assertThat(written(Books.book(book.replace(" @", "@")))).contains(expected);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      textBlock =
          """
          %1 1 2:| %2 3 4            ; forward-repeat
          %1 1 2 %2 |:3 4:| 5        ; forward-repeat
          1 2 3                      ; <print
          1 2                        ; text=
          |:1:| 2@dc@w:no_repeats    ; after-jump
          1@x3@w:play_three_times 2  ; >3X<
          """)
  void whatIsClearWithoutASignHasNone(String book, String unexpected) throws Exception {
    assertThat(written(Books.book(book))).doesNotContain(unexpected);
  }

  /** An undrawn rest is a rest to programs: they draw bars of music as a multi-bar rest. */
  @Test
  void aBarOfMusicIsNoRest() throws Exception {
    assertThat(written(Books.book("1@5/4 2@7/8")))
        .doesNotContain("<rest")
        .contains("<type>whole</type>", "<type>quarter</type>", "<type>eighth</type>");
    assertThat(written(Books.book("1@rest"))).contains("<rest measure=\"yes\"/>");
  }

  /** The lengths of all that fills a bar are the meter's, in sixteenths of a quarter. */
  @ParameterizedTest
  @CsvSource({"4/4,64", "3/4,48", "5/4,80", "7/8,56", "12/8,96", "13/16,52", "64/1,4096", "1/64,1"})
  void whatFillsABarIsAsLongAsItsMeter(String meter, int units) throws Exception {
    String xml = written(Books.book("1@" + meter));
    int sum =
        java.util.regex.Pattern.compile("<duration>(\\d+)</duration>")
            .matcher(xml)
            .results()
            .mapToInt(m -> Integer.parseInt(m.group(1)))
            .sum();
    assertThat(sum).isEqualTo(units);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      textBlock =
          """
          %7 1@n12@w:VAMP_TILL_CUE 2 ; No. 7, bar 12 ; vamp
          %7 1@n12@x3 2              ; No. 7, bar 12 ; 3 times
          %7 1@n0 2                  ; No. 7, bar 0  ; pickup
          %7 |:1 |:2@n12 3:| 4:|     ; No. 7, bar 12 ; inside a repeat
          %7 |:1 2/1,2:|@n12 3/3     ; No. 7, bar 12 ; several times through
          %7 1 2@n12@ds 3            ; No. 7, bar 12 ; open to question
          %6 1 2 %7 3@n12@dc         ; No. 7, bar 12 ; beginning of the file
          %7 |:1@n12@w:2nd_X_only 2:| ; No. 7, bar 12 ; some of the times
          """)
  void whatCantBeSaidIsListedAndStandsInTheFile(String book, String where, String what)
      throws Exception {
    BarMap map = Books.book(book);

    assertThat(NotSaid.of(map))
        .anySatisfy(
            one -> {
              assertThat(one.where()).isEqualTo(where);
              assertThat(one.text()).contains(what);
            });
    assertThat(written(map)).contains("<miscellaneous-field name=\"not said\">" + where + ": ");
  }

  @Test
  void aPlainBookLeavesOnlyItsNotesUnsaid() throws Exception {
    assertThat(NotSaid.of(Books.book("%1 |:1 2/1:| 3/2 4@segno 5@ds")))
        .containsExactly(NotSaid.ALWAYS);
  }

  /**
   * A program goes back to the beginning of the file, and that is the number's where it is alone.
   */
  @Test
  void aNumberAloneSaysItsDaCapo() throws Exception {
    BarMap map = Books.book("%6 1 2 %7 3 4@dc");
    MusicalNumber seven = map.numbers().get(1);

    assertThat(NotSaid.of(map, seven)).containsExactly(NotSaid.ALWAYS);
    assertThat(NotSaid.of(map).stream().filter(NotSaid::order)).hasSize(1);
  }

  private static String written(BarMap map) throws Exception {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    MusicXmlWriter.write(map, out);
    MusicXmlSchema.check(out.toByteArray());
    return out.toString(StandardCharsets.UTF_8);
  }

  @Test
  void aLongListIsCutShort() {
    StringBuilder book = new StringBuilder("%7 ");
    for (int i = 1; i <= 50; i++) {
      book.append(i).append("@x3 ");
    }
    List<NotSaid> said = NotSaid.of(Books.book(book.toString()));
    assertThat(said).hasSize(23);
    assertThat(said.get(22).text()).isEqualTo("30 more of these.");
  }
}
