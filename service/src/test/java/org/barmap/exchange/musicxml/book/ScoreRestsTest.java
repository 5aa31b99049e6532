package org.barmap.exchange.musicxml.book;

import static org.assertj.core.api.Assertions.assertThat;
import static org.barmap.exchange.musicxml.book.WrittenScore.FOUR;
import static org.barmap.exchange.musicxml.book.WrittenScore.REST;
import static org.barmap.exchange.musicxml.book.WrittenScore.codes;
import static org.barmap.exchange.musicxml.book.WrittenScore.m;
import static org.barmap.exchange.musicxml.book.WrittenScore.multi;
import static org.barmap.exchange.musicxml.book.WrittenScore.names;
import static org.barmap.exchange.musicxml.book.WrittenScore.note;
import static org.barmap.exchange.musicxml.book.WrittenScore.of;

import java.util.List;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Content;
import org.barmap.map.Enclosure;
import org.barmap.map.Navigation;
import org.barmap.map.json.BarMapJson;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Rests and silence of a score, as entries of a book. Meanings are those of MusicXML 4.0. */
class ScoreRestsTest {

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

  /** Beats of silence before the first and behind the last note of a bar. */
  @Test
  void silenceInABarIsMeasured() throws Exception {
    String rest = "<note><rest/><duration>1</duration></note>";
    BarMap map = of(m("1", FOUR + rest + note(1) + rest + rest));

    assertThat(map.bars().get(0).silentStart()).contains(1.0);
    assertThat(map.bars().get(0).silentEnd()).contains(2.0);
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
}
