package org.barmap.exchange.midi;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import javax.sound.midi.MetaMessage;
import javax.sound.midi.MidiEvent;
import javax.sound.midi.MidiSystem;
import javax.sound.midi.Sequence;
import javax.sound.midi.ShortMessage;
import javax.sound.midi.Track;
import org.barmap.exchange.musicxml.Scores;
import org.barmap.map.BarMap;
import org.barmap.plan.Books;
import org.barmap.plan.NumberPlan;
import org.barmap.plan.Plan;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.ShowChanges;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ClickTrackTest {

  /**
   * Clicks and seconds of bars in even tempo, the bar counted in taken off. Source: computed from
   * the figures (32 bars of 6/8 in two at dotted quarter = 120 are 64 beats and 32.0 s; 24 bars of
   * 12/8 in four at dotted quarter = 60 are 96 beats and 96 s; 16 bars of 2/2 at half = 108 are 32
   * beats and 17.78 s); bars of mixed meters are the MusicXML test suite's 29 quarters, 14.5 s at
   * quarter = 120.
   */
  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      textBlock =
          """
          1@6/8@w:♩._=_120@mr32                          ; 64 ; 32.0  ; 1.0
          1@12/8@w:♩._=_60@mr24                          ; 96 ; 96.0  ; 4.0
          1@2/2@w:𝅗𝅥_=_108@mr16                          ; 32 ; 17.78 ; 1.111
          1@4/4@w:♩_=_120 2 3@3/4 4 5 6@2/4 7 8@4/4 9    ; 29 ; 14.5  ; 2.0
          |:1@4/4@w:♩_=_60 2:| 3                         ; 20 ; 20.0  ; 4.0
          """)
  void clicksAndSeconds(String book, int clicks, double seconds, double countIn) throws Exception {
    Sequence click = read(Books.book(book), OptionalDouble.empty());

    assertThat(keys(click, ClickTrack.STRONG, ClickTrack.WEAK)).hasSize(clicks);
    assertThat(click.getMicrosecondLength() / 1e6).isCloseTo(seconds + countIn, within(0.01));
  }

  /** The plan's own length, which is tested elsewhere, for every number of the demo book. */
  @Test
  void everyNumberOfTheDemoBookLastsAsLongAsItsPlan() throws Exception {
    BarMap map = Scores.saltmarsh();
    ShowChanges changes =
        ChangesJson.read(
            Files.readString(
                Path.of(System.getProperty("barmap.home", ".."), "corpus/saltmarsh/changes.json")));
    Plan plan = Planner.plan(map, changes, PlanSettings.USUAL);
    int measured = 0;
    int counted = 0;
    for (NumberPlan number : plan.numbers()) {
      if (!number.order().isEmpty()) {
        Sequence click =
            ClickTrack.sequence(plan, map, Optional.of(number.label()), OptionalDouble.of(100));
        double beats = keys(click, ClickTrack.STRONG, ClickTrack.WEAK).size();
        // the plan counts no pickup, whose length nobody knows; in the demo book they are 4/4
        boolean pickup = texts(click, 0x06).stream().anyMatch(t -> t.contains("pickup"));
        assertThat(beats - (pickup ? 4 : 0))
            .as(number.label())
            .isEqualTo(number.played().beats().orElseThrow());
        counted++;
        boolean pauses = texts(click, 0x06).stream().anyMatch(t -> t.contains("general pause"));
        if (number.played().seconds().isPresent() && !pauses && !pickup) {
          long countIn = keys(click, ClickTrack.STRONG).get(0);
          assertThat(seconds(click) - at(click, countIn))
              .as(number.label())
              .isCloseTo(number.played().seconds().orElseThrow(), within(0.02));
          measured++;
        }
      }
    }
    assertThat(counted).isEqualTo(7);
    assertThat(measured).isPositive();
  }

  @Test
  void theFirstBeatOfEveryBarIsStronger() throws Exception {
    Sequence click = read(Books.book("1@3/4@w:♩_=_60 2@4/4 3@6/8"), OptionalDouble.empty());

    // the bar counted in is three quarters long
    assertThat(keys(click, ClickTrack.COUNT_IN)).containsExactly(0L, 960L, 1920L);
    assertThat(keys(click, ClickTrack.STRONG)).containsExactly(3 * 960L, 6 * 960L, 10 * 960L);
    assertThat(keys(click, ClickTrack.WEAK)).hasSize(2 + 3 + 1);
  }

  @Test
  void metersMarksAndBarNumbersAreThere() throws Exception {
    Sequence click =
        read(
            Books.book("%7 1@n0@3/4@w:♩_=_60 |:2@mA@6/8 3:| 4@fermata 5@w:VAMP"),
            OptionalDouble.empty());

    assertThat(texts(click, 0x06))
        .containsExactly(
            "No. 7, count-in",
            "0 · pickup: its length isn't known, a whole bar is clicked",
            "1 · A",
            "2",
            "1 (2nd time) · A",
            "2 (2nd time)",
            "3 · hold: how long is the director's",
            "4 · vamp 4 till cue (here once)");
    assertThat(metas(click, 0x58))
        .extracting(b -> b[0] + "/" + (1 << b[1]) + " " + b[2])
        .containsExactly("3/4 24", "6/8 36");
  }

  /**
   * A bar that comes round often is named as it is spoken of (common practice: 11th, 21st, 22nd).
   */
  @Test
  void timesThroughAreNamedAsTheyAreSpoken() throws Exception {
    Sequence click = read(Books.book("|:1@4/4@w:♩_=_60 2:|@x22 3"), OptionalDouble.empty());

    assertThat(texts(click, 0x06)).contains("1 (11th time)", "1 (21st time)", "2 (22nd time)");
  }

  /** Nobody clicks a general pause, and nobody knows how long it is. */
  @Test
  void aGeneralPauseHasNoClicks() throws Exception {
    Sequence click = read(Books.book("1@4/4@w:♩_=_60 2@rest@w:G.P. 3"), OptionalDouble.empty());

    assertThat(keys(click, ClickTrack.STRONG)).containsExactly(4 * 960L, 12 * 960L);
    assertThat(texts(click, 0x06)).contains("2 · general pause: how long is the director's");
  }

  @Test
  void aNumberWithoutATempoNeedsOne() throws Exception {
    BarMap map = Books.book("%7 1@4/4 2@mr3");

    assertThatThrownBy(() -> read(map, OptionalDouble.empty()))
        .isInstanceOf(NoTempoException.class)
        .hasMessage("No. 7 has 4 bars of unknown tempo: say how many beats a minute");
    assertThat(seconds(read(map, OptionalDouble.of(60)))).isCloseTo(20, within(0.01));
  }

  /** As the director beats: 6/8 in two at 60 beats a minute has two seconds a bar. */
  @Test
  void theTempoGivenIsInBeats() throws Exception {
    BarMap map = Books.book("%7 1@6/8 2 3");

    assertThat(seconds(read(map, OptionalDouble.of(60)))).isCloseTo(8, within(0.01));
  }

  /** What is cut of a bar is not clicked, and the first beat is not where it was cut. */
  @Test
  void aBarWithBeatsCutIsShorter() throws Exception {
    BarMap map = Books.book("%7 1@4/4@w:♩_=_60 2 3");
    ShowChanges changes =
        ChangesJson.read(
            """
            {"format":"changes/1","changes":[{"id":"c1","number":"7","kind":"cut",
             "first":"2 beat 1","last":"2 beat 2"}]}
            """);
    Plan plan = Planner.plan(map, changes, PlanSettings.USUAL);
    Sequence click = ClickTrack.sequence(plan, map, Optional.of("7"), OptionalDouble.empty());

    assertThat(plan.numbers().get(0).played().beats()).contains(10.0);
    assertThat(keys(click, ClickTrack.STRONG, ClickTrack.WEAK)).hasSize(10);
    assertThat(keys(click, ClickTrack.STRONG)).containsExactly(4 * 960L, 10 * 960L);
  }

  @Test
  void namesWithControlCharactersAreNoEvents() throws Exception {
    BarMap map = Books.book("%7 1@4/4@w:♩_=_60");
    BarMap nasty =
        new BarMap(
            map.format(),
            new org.barmap.map.Book("a\u0000b\nc" + "x".repeat(5000), "\u0007"),
            map.pages(),
            map.numbers(),
            map.bars(),
            List.of());

    assertThat(texts(read(nasty, OptionalDouble.empty()), 0x03).get(0))
        .startsWith("a b c")
        .hasSize(200);
  }

  private static Plan plan(BarMap map) {
    return Planner.plan(map, ShowChanges.none(), PlanSettings.USUAL);
  }

  /** Writes a file and reads it with the JDK's reader. */
  private static Sequence read(BarMap map, OptionalDouble tempo) throws Exception {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    ClickTrack.write(plan(map), map, Optional.empty(), tempo, out);
    return MidiSystem.getSequence(new ByteArrayInputStream(out.toByteArray()));
  }

  private static double seconds(Sequence click) {
    return click.getMicrosecondLength() / 1e6;
  }

  /** Returns the seconds at a tick, by the tempo events before it. */
  private static double at(Sequence click, long tick) {
    double seconds = 0;
    double micros = 500_000;
    long last = 0;
    Track track = click.getTracks()[0];
    for (int i = 0; i < track.size(); i++) {
      MidiEvent event = track.get(i);
      if (event.getTick() >= tick) {
        break;
      }
      if (event.getMessage() instanceof MetaMessage m && m.getType() == 0x51) {
        seconds += (event.getTick() - last) * micros / 960 / 1e6;
        last = event.getTick();
        byte[] b = m.getData();
        micros = (b[0] & 255) << 16 | (b[1] & 255) << 8 | (b[2] & 255);
      }
    }
    return seconds + (tick - last) * micros / 960 / 1e6;
  }

  private static List<Long> keys(Sequence click, int... wanted) {
    List<Long> ticks = new ArrayList<>();
    Track track = click.getTracks()[1];
    for (int i = 0; i < track.size(); i++) {
      if (track.get(i).getMessage() instanceof ShortMessage m
          && m.getCommand() == ShortMessage.NOTE_ON
          && m.getData2() > 0) {
        for (int key : wanted) {
          if (m.getData1() == key) {
            ticks.add(track.get(i).getTick());
          }
        }
      }
    }
    return ticks;
  }

  private static List<byte[]> metas(Sequence click, int type) {
    List<byte[]> found = new ArrayList<>();
    Track track = click.getTracks()[0];
    for (int i = 0; i < track.size(); i++) {
      if (track.get(i).getMessage() instanceof MetaMessage m && m.getType() == type) {
        found.add(m.getData());
      }
    }
    return found;
  }

  private static List<String> texts(Sequence click, int type) {
    return metas(click, type).stream().map(b -> new String(b, StandardCharsets.UTF_8)).toList();
  }
}
