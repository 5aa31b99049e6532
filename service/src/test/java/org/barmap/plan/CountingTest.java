package org.barmap.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.barmap.plan.Books.run;

import java.util.stream.Stream;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.term.Metronome;
import org.barmap.plan.pace.Length;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/** Bars, beats and seconds, against published and computed values. */
class CountingTest {

  static Stream<Arguments> lengths() {
    return Stream.of(
        // MusicXML test suite: multi-bar rests of 3, 15, 1 and 12 bars are 31 bars
        Arguments.of("1@mr3 4@mr15 19@rest 20@mr12", 31, 124.0, -1.0),
        // MusicXML test suite: meter changes, 9 bars and 29 quarters; 14.5 s computed
        Arguments.of("1@4/4@w:\u2669_=_120 2 3@3/4 4 5 6@2/4 7 8@4/4 9", 9, 29.0, 14.5),
        // computed: 32 bars of 6/8 in two, dotted quarter = 120
        Arguments.of("1@6/8@w:q._=_120@w:in_two " + run("", 2, 32, ""), 32, 64.0, 32.0),
        // computed: 24 bars of 12/8 in four, dotted quarter = 60
        Arguments.of("1@12/8@w:\u2669._=_60@w:In_4 " + run("", 2, 24, ""), 24, 96.0, 96.0),
        // computed: 16 bars of 2/2, half = 108
        Arguments.of("1@2/2@w:half_=_108 " + run("", 2, 16, ""), 16, 32.0, 17.78),
        // MusicXML test suite: 0 and X1 are not displayed as numbers; the pickup is no bar
        Arguments.of("0@n0 1 X1@lX1 2", 3, 12.0, -1.0),
        // pit vocabulary page: "3X" over 4 bars is 12 bars played
        Arguments.of("|:1@x3 2 3 4:|", 12, 48.0, -1.0));
  }

  @ParameterizedTest
  @MethodSource("lengths")
  void barsBeatsAndSeconds(String written, int bars, double beats, double seconds) {
    Length played = plan(written, ShowChanges.none()).numbers().get(0).played();
    assertThat(played.bars()).isEqualTo(bars);
    assertThat(played.beats().orElse(-1.0)).isEqualTo(beats);
    assertThat(played.seconds().orElse(-1.0)).isCloseTo(seconds, within(0.005));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      value = {
        "\u2669 = 120 ; 120",
        "q. = 60 ; 90",
        "Allegro (\u2669. = 60) ; 90",
        "dotted quarter = 60 ; 90",
        "h = 54 ; 108",
        "\uD834\uDD5E = 108 ; 216",
        "\u266A = 140 ; 70",
        "\uECA5 = 96 ; 96",
        "\u2669 = ca. 100 ; 100",
        "\u2669 = 120-126 ; 126",
        "3/8 = 60 ; 90",
        "M.M. \u2669=96 ; 96",
        "J = 120 ; 0",
        "= 120 ; 0",
        "Rehearsal 120 ; 0",
        "\u2669 = \u2669. ; 0",
        "not hurried (\u2669 = 11 ; 0",
        "(out) Swing (\u2669 = 144) ; 144",
        "\u2669 = 11 ; 0",
        "\u2669 = 999 ; 0",
        "in two (h = 5 ; 0"
      })
  void metronomeMarks(String words, double quartersPerMinute) {
    assertThat(Metronome.quartersPerMinute(words).orElse(0)).isEqualTo(quartersPerMinute);
  }

  @ParameterizedTest
  @CsvSource({"(\u2669_=_11", "in_two_(1_=_5", "straight_8ths_(=1", "swing_._=_144"})
  void aMarkThatWasMisreadLeavesTheTempoUnknown(String words) {
    assertThat(seconds("1@w:\u2669_=_120 2 3@w:" + words + " 4")).isEqualTo(-1);
  }

  @Test
  void aTempoWithoutAFigureIsNeverGuessed() {
    assertThat(seconds("1@w:\u2669_=_120 2 3 4")).isEqualTo(8);
    assertThat(seconds("1@w:\u2669_=_120 2@w:Slower 3 4")).isNegative();
    assertThat(seconds("1@w:\u2669_=_120 2@w:rit. 3@w:a_tempo 4")).isNegative();
    assertThat(seconds("1 2@w:\u2669_=_120 3 4")).isNegative();
    assertThat(seconds("1@w:Allegro_\u2669_=_60 2 3@w:\u2669_=_120 4")).isEqualTo(12);
  }

  /**
   * Computed: 4 bars of 4/4 from 60 to 120 a minute, evenly over 16 quarters: the time is the
   * integral of 60 / (60 + 60 x / 16) over x from 0 to 16, which is 16 ln 2 = 11.09 s.
   */
  @Test
  void aRampBetweenTwoGivenTempiIsALine() {
    assertThat(seconds("1@w:q_=_60 2@w:accel. 3 4 5 6@w:q_=_120 7"))
        .isCloseTo(4 + 16 * Math.log(2) + 4, within(0.005));
    assertThat(seconds("1@w:q_=_120 2@w:poco_rit. 3 4 5 6@w:q_=_60 7"))
        .isCloseTo(2 + 16 * Math.log(2) + 8, within(0.005));
    // the other way than its word, no tempo before, no tempo after, another word between, a repeat
    assertThat(seconds("1@w:q_=_60 2@w:rit. 3 4@w:q_=_120 5")).isNegative();
    assertThat(seconds("1 2@w:rit. 3 4@w:q_=_120 5")).isNegative();
    assertThat(seconds("1@w:q_=_60 2@w:accel. 3 4")).isNegative();
    assertThat(seconds("1@w:q_=_60 2@w:accel. 3@w:freely 4@w:q_=_120")).isNegative();
    assertThat(seconds("1@w:q_=_60 2@w:accel. |:3:| 4@w:q_=_120")).isNegative();
    assertThat(seconds("1@w:q_=_60 2@w:accel. 3@w:a_tempo 4@w:q_=_120")).isNegative();
  }

  @Test
  void aRampCanBeSaid() {
    ShowChanges changes =
        Changes.json(
            """
              { "id": "t", "kind": "tempo", "first": "1", "beat": "1/4", "perMinute": 60 },
              { "id": "r", "kind": "tempo", "first": "3", "last": "6", "beat": "1/4",
                "perMinute": 60, "toPerMinute": 120 }
            """);
    NumberPlan planned = plan("1 2 3 4@mr3 7 8", changes).numbers().get(0);
    assertThat(planned.played().seconds().orElse(-1.0))
        .isCloseTo(8 + 16 * Math.log(2) + 4, within(0.005));
    assertThat(planned.pace())
        .extracting(
            p -> p.from() + " " + p.perMinute().orElse(0.0) + " " + p.toPerMinute().orElse(0.0))
        .containsExactly("0 60.0 0.0", "2 60.0 75.0", "3 75.0 120.0", "6 120.0 0.0");
    NumberPlan cut = plan("1 2 3 4@mr3 7 8", both(changes, Changes.cut("4", "5"))).numbers().get(0);
    assertThat(cut.played().seconds().orElse(-1.0))
        .isCloseTo(8 + 8 * Math.log(2) + 4, within(0.005));
  }

  private static ShowChanges both(ShowChanges a, ShowChanges b) {
    return new ShowChanges(
        java.util.stream.Stream.concat(a.changes().stream(), b.changes().stream()).toList());
  }

  @Test
  void whatIsKnownOfANumbersTimeIsSaid() {
    NumberPlan planned =
        plan("0@n0 1@w:q_=_60 2 3@mr4@w:Slower 7@w:in_two@w:q_=_120 8", ShowChanges.none())
            .numbers()
            .get(0);
    assertThat(planned.played().seconds()).isEmpty();
    assertThat(planned.known()).contains(new NumberPlan.KnownTime(12.0, 4, 4));
    assertThat(planned.pace())
        .extracting(p -> p.from() + " " + p.beats() + " " + p.perMinute().orElse(0.0))
        .containsExactly("0 4 0.0", "1 4 60.0", "3 4 0.0", "7 2 120.0");
    assertThat(plan("1 2 3", ShowChanges.none()).numbers().get(0).known()).isEmpty();
    assertThat(plan("1@w:q_=_60 2", ShowChanges.none()).numbers().get(0).known()).isEmpty();
  }

  @Test
  void aTempoComesBackAfterAHoldOnIt() {
    Plan plan = plan("1@w:\u2669_=_120@mr8 9@w:rit.@rest 10@w:a_tempo@mr4 14", ShowChanges.none());
    assertThat(plan.numbers().get(0).played().seconds()).isEmpty();
    Plan tail =
        plan("1@w:\u2669_=_120@mr8 9@w:rit.@rest 10@w:a_tempo@mr4 14", Changes.cut("9", "9"));
    assertThat(tail.numbers().get(0).played().seconds()).contains(26.0);
  }

  @Test
  void changesOfTempoAndBeatsCount() {
    ShowChanges changes =
        Changes.json(
            """
              { "id": "t", "kind": "tempo", "first": "1", "beat": "3/8", "perMinute": 60 },
              { "id": "b", "kind": "beats", "first": "3", "last": "4", "beats": 6 }
            """);
    Length played = plan("1@6/8 2 3 4", changes).numbers().get(0).played();
    assertThat(played.beats()).contains(2.0 + 2 + 6 + 6);
    assertThat(played.seconds()).contains(8.0);
  }

  @Test
  void beatsCutInsideBarsAreOut() {
    ShowChanges changes =
        Changes.json(
            """
              { "id": "c", "kind": "cut", "first": "2 beat 3", "last": "4 beat 2" }
            """);
    Plan plan = plan("1@w:\u2669_=_60 2 3 4 5", changes);
    assertThat(Books.order(plan)).isEqualTo("1 2 4 5");
    assertThat(plan.numbers().get(0).played().beats()).contains(12.0);
    assertThat(plan.numbers().get(0).cut().beats()).contains(8.0);
    assertThat(plan.numbers().get(0).played().seconds()).contains(12.0);
  }

  private static double seconds(String written) {
    return plan(written, ShowChanges.none()).numbers().get(0).played().seconds().orElse(-1.0);
  }

  private static Plan plan(String written, ShowChanges changes) {
    return Planner.plan(Books.book(written), changes, PlanSettings.USUAL);
  }
}
