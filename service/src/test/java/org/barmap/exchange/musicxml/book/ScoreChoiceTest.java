package org.barmap.exchange.musicxml.book;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.barmap.exchange.musicxml.book.WrittenScore.note;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.util.stream.Collectors;
import org.barmap.exchange.musicxml.UnreadableMusicXmlException;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Content;
import org.barmap.map.Word;
import org.barmap.map.rule.BarMapRules;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Which part of a score is meant, what a part takes from the score around it, and what is refused.
 */
class ScoreChoiceTest {
  private static final String REST = "<note><rest measure=\"yes\"/><duration>4</duration></note>";

  private static final String TOP =
      "<measure number=\"1\"><direction><direction-type><words>Brightly</words></direction-type>"
          + "<sound tempo=\"144\"/></direction>"
          + note(4)
          + "</measure><measure number=\"2\">"
          + "<direction><direction-type><rehearsal>A</rehearsal></direction-type></direction>"
          + note(4)
          + "</measure><measure number=\"3\">"
          + "<direction><direction-type><words>VAMP</words></direction-type></direction>"
          + "<direction><direction-type><words>con sord.</words></direction-type></direction>"
          + note(4)
          + "</measure><measure number=\"4\"><print new-system=\"yes\"/>"
          + note(4)
          + "</measure>";

  private static final String OWN =
      "<measure number=\"1\">"
          + REST
          + "</measure><measure number=\"2\">"
          + REST
          + "</measure><measure number=\"3\">"
          + REST
          + "</measure><measure number=\"4\">"
          + REST
          + "</measure>";

  private static byte[] score() {
    return ("<score-partwise><work><work-title>Saltmarsh</work-title></work>"
            + "<movement-number>7</movement-number><movement-title>Low Tide</movement-title><part-list>"
            + "<score-part id=\"P1\"><part-name>Flute</part-name></score-part>"
            + "<score-part id=\"P2\"><part-name>Bass</part-name></score-part>"
            + "<score-part id=\"P3\"><part-name>Bass Clarinet</part-name></score-part>"
            + "<score-part id=\"P4\"><part-name>Violin</part-name></score-part>"
            + "<score-part id=\"P5\"><part-name>Violin</part-name></score-part></part-list><part id=\"P1\">"
            + TOP
            + "</part><part id=\"P2\">"
            + OWN
            + "</part><part id=\"P3\">"
            + OWN
            + "</part><part id=\"P4\">"
            + OWN
            + "</part><part id=\"P5\">"
            + OWN
            + "</part></score-partwise>")
        .getBytes(StandardCharsets.UTF_8);
  }

  private static ScoreBook read(byte[] data) throws Exception {
    return ScoreBook.read("score.musicxml", new ByteArrayInputStream(data));
  }

  @ParameterizedTest
  @CsvSource({
    "Bass, 1",
    "bass, 1",
    "P3, 2",
    "clar, 2",
    "2, 1",
    "5, 4",
    "Violin, -1",
    "ba, -1",
    "6, -1",
    "0, -1",
    "Tuba, -1",
    "'', -1"
  })
  void aPartIsMeantByItsNameItsPlaceOrNothingElse(String wanted, int index) throws Exception {
    assertThat(read(score()).part(wanted).orElse(-1)).isEqualTo(index);
  }

  /** A score writes marks and tempi over its top staff; a part written out from it has them. */
  @Test
  void aPartHasWhatTheScoreWritesOnce() throws Exception {
    BarMap map = WrittenScore.book(score(), "Bass");

    assertThat(map.book().title()).isEqualTo("Saltmarsh");
    assertThat(map.book().part()).isEqualTo("Bass");
    assertThat(map.numbers().get(0).label()).isEqualTo("7");
    assertThat(map.numbers().get(0).title()).isEqualTo("Low Tide");
    assertThat(
            map.bars().stream()
                .map(b -> b.words().stream().map(Word::text).collect(Collectors.joining("+"))))
        .containsExactly("\u2669 = 144+Brightly", "", "VAMP");
    assertThat(map.bars().get(1).rehearsal().orElseThrow().text()).isEqualTo("A");
    // rests are drawn together as far as nothing stands between them; the score's lines are not the
    // part's
    assertThat(map.bars().stream().map(Bar::count)).containsExactly(1, 1, 2);
    assertThat(map.bars().get(2).content()).isEqualTo(Content.MULTI_REST);
    assertThat(map.pages()).hasSize(1);
    assertThat(map.pages().get(0).systems()).hasSize(1);
  }

  /** The same score by time: nothing else differs between the two orders. */
  @Test
  void aScoreByTimeIsTheSameBook() throws Exception {
    StringBuilder timewise = new StringBuilder("<score-timewise><part-list>");
    timewise.append("<score-part id=\"P1\"><part-name>Flute</part-name></score-part>");
    timewise.append("<score-part id=\"P2\"><part-name>Bass</part-name></score-part></part-list>");
    StringBuilder partwise = new StringBuilder(timewise.toString().replace("timewise", "partwise"));
    String[] top = TOP.split("(?<=</measure>)");
    String[] own = OWN.split("(?<=</measure>)");
    for (int i = 0; i < top.length; i++) {
      timewise.append("<measure number=\"" + (i + 1) + "\"><part id=\"P1\">" + inside(top[i]));
      timewise.append("</part><part id=\"P2\">" + inside(own[i]) + "</part></measure>");
    }
    timewise.append("</score-timewise>");
    partwise.append("<part id=\"P1\">" + TOP + "</part><part id=\"P2\">" + OWN + "</part>");
    partwise.append("</score-partwise>");

    BarMap byTime = WrittenScore.book(timewise.toString().getBytes(StandardCharsets.UTF_8), "Bass");

    assertThat(byTime)
        .isEqualTo(WrittenScore.book(partwise.toString().getBytes(StandardCharsets.UTF_8), "Bass"));
    assertThat(byTime.writtenBars()).isEqualTo(4);
  }

  private static String inside(String measure) {
    return measure.replaceFirst("^<measure[^>]*>", "").replace("</measure>", "");
  }

  /** A mark of UTF-8 before a declaration of UTF-16, as in files that were converted. */
  @Test
  void aMarkOfUtf8IsBelieved() throws Exception {
    String xml =
        "\uFEFF<?xml version=\"1.0\" encoding=\"UTF-16\"?>"
            + new String(WrittenScore.xml("1 2 3"), StandardCharsets.UTF_8);

    assertThat(WrittenScore.book(xml.getBytes(StandardCharsets.UTF_8), "").bars()).hasSize(3);
  }

  @Test
  void veryLongPartsAndOddFiguresStillMakeAValidBook() throws Exception {
    String many = "<measure number=\"1\">" + note(1) + "</measure>";
    BarMap long20000 = WrittenScore.of(many.repeat(20_000));
    BarMap odd =
        WrittenScore.of(
            "<measure number=\"999999999999\"><attributes><divisions>0.0000001</divisions>"
                + "<measure-style><multiple-rest>65535</multiple-rest></measure-style></attributes>"
                + "<note><rest/><duration>99999999999999999999</duration></note>"
                + "<barline location=\"right\"><repeat direction=\"backward\" times=\"1000\"/></barline></measure>"
                + "<measure number=\"-3\"/><measure/>");

    assertThat(BarMapRules.check(long20000)).isEmpty();
    assertThat(long20000.bars()).hasSize(20_000);
    assertThat(BarMapRules.check(odd)).isEmpty();
    assertThat(org.barmap.map.json.BarMapJson.read(org.barmap.map.json.BarMapJson.write(odd)))
        .isEqualTo(odd);
  }

  @Test
  void aScoreWithoutBarsIsRefused() {
    assertThatThrownBy(() -> WrittenScore.of(""))
        .isInstanceOf(UnreadableMusicXmlException.class)
        .hasMessageContaining("no bars");
  }
}
