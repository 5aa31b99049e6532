package org.barmap.sign.rule;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.barmap.sign.kind.ChartView.Along;
import org.barmap.sign.kind.Origin;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.kind.Sound;
import org.barmap.sign.net.ChartHeats;
import org.barmap.sign.strip.StripImage;
import org.junit.jupiter.api.Test;

/** What is meant by slashes, chord symbols and counters is common practice of rhythm parts. */
class ChartsTest {

  private static final int COLUMNS = 100;

  private static final List<SignKind> KINDS =
      List.of(
          SignKind.SLASH,
          SignKind.CHORD,
          SignKind.COUNTER,
          SignKind.REST,
          SignKind.BAR_REPEAT,
          SignKind.REHEARSAL);

  private static RawSign at(SignKind kind, double x, double y, double probability) {
    return new RawSign(kind, x - 10, y - 8, x + 10, y + 8, probability, List.of(), Origin.NETWORK);
  }

  /** A strip all of whose bars are of one fill, with the boxes given. */
  private static ChartHeats charts(Optional<Along> fill, RawSign... boxes) {
    float[] along = new float[Along.values().length * 2 * COLUMNS];
    fill.ifPresent(
        f -> Arrays.fill(along, f.ordinal() * 2 * COLUMNS, (f.ordinal() + 1) * 2 * COLUMNS, 0.99f));
    float[] heat = new float[KINDS.size() * 40 * COLUMNS];
    for (RawSign b : boxes) {
      int row = (int) ((b.y0() + b.y1()) / 8);
      heat[(KINDS.indexOf(b.kind()) * 40 + row) * COLUMNS + (int) (b.centre() / 4)] =
          (float) b.probability();
    }
    return ChartHeats.of(KINDS, along, heat, COLUMNS, List.of(boxes));
  }

  private static List<SignKind> kinds(RawSign found, ChartHeats charts) {
    return Charts.settled(List.of(found), charts).stream().map(RawSign::kind).toList();
  }

  @Test
  void slashesAreNoBarRepeatSigns() {
    RawSign repeat = at(SignKind.BAR_REPEAT, 200, 88, 0.99);
    ChartHeats slashed = charts(Optional.of(Along.SLASHED), at(SignKind.SLASH, 200, 88, 0.9));
    assertThat(kinds(repeat, slashed)).containsExactly(SignKind.SLASH);
  }

  /** Common practice: one bar-repeat sign in the middle of its bar, a slash for every beat. */
  @Test
  void whereOthersStandInItsBarASignIsSoonerASlash() {
    RawSign first = at(SignKind.BAR_REPEAT, 120, 88, 0.8);
    RawSign second = at(SignKind.BAR_REPEAT, 240, 88, 0.8);
    RawSign line = at(SignKind.BARLINE, 180, 88, 0.9);
    RawSign[] unsure = {
      at(SignKind.SLASH, 120, 88, 0.5), at(SignKind.BAR_REPEAT, 120, 88, 0.2),
      at(SignKind.SLASH, 240, 88, 0.5), at(SignKind.BAR_REPEAT, 240, 88, 0.2)
    };
    ChartHeats slashed = charts(Optional.of(Along.SLASHED), unsure);
    assertThat(repeats(Charts.settled(List.of(first, second), slashed))).isZero();
    ChartHeats alone = charts(Optional.of(Along.SLASHED), unsure[0], unsure[1]);
    assertThat(repeats(Charts.settled(List.of(first), alone))).isOne();
    ChartHeats lines = charts(Optional.of(Along.SAME), unsure);
    assertThat(repeats(Charts.settled(List.of(first, line, second), lines))).isEqualTo(2);
  }

  private static long repeats(List<RawSign> signs) {
    return signs.stream().filter(s -> s.kind() == SignKind.BAR_REPEAT).count();
  }

  @Test
  void barRepeatSignsStay() {
    RawSign repeat = at(SignKind.BAR_REPEAT, 200, 88, 0.99);
    assertThat(kinds(repeat, charts(Optional.of(Along.SAME), at(SignKind.SLASH, 200, 88, 0.9))))
        .contains(SignKind.BAR_REPEAT);
    ChartHeats both =
        charts(
            Optional.of(Along.SLASHED),
            at(SignKind.SLASH, 200, 88, 0.6),
            at(SignKind.BAR_REPEAT, 200, 88, 0.4));
    assertThat(kinds(repeat, both)).contains(SignKind.BAR_REPEAT);
    assertThat(kinds(repeat, charts(Optional.empty()))).containsExactly(SignKind.BAR_REPEAT);
  }

  @Test
  void aChordSymbolIsNoMark() {
    RawSign mark = at(SignKind.REHEARSAL, 200, 40, 0.8);
    assertThat(kinds(mark, charts(Optional.empty(), at(SignKind.CHORD, 201, 40, 0.8))))
        .containsExactly(SignKind.CHORD);
    ChartHeats sureMark =
        charts(
            Optional.empty(),
            at(SignKind.CHORD, 201, 40, 0.6),
            at(SignKind.REHEARSAL, 200, 40, 0.8));
    assertThat(kinds(mark, sureMark)).containsExactly(SignKind.REHEARSAL);
  }

  @Test
  void aCounterIsOneOnlyOverWhatIsCounted() {
    RawSign mark = at(SignKind.REHEARSAL, 200, 40, 0.8);
    RawSign four = at(SignKind.COUNTER, 201, 40, 0.8);
    assertThat(kinds(mark, charts(Optional.of(Along.SAME), four))).isEmpty();
    assertThat(kinds(mark, charts(Optional.of(Along.SLASHED), four))).isEmpty();
    assertThat(kinds(mark, charts(Optional.empty(), four))).containsExactly(SignKind.REHEARSAL);
  }

  @Test
  void theStrokeOfASlashIsNoBarline() {
    RawSign line = new RawSign(SignKind.BARLINE, 199, 72, 201, 104, 0.6, List.of(), Origin.NETWORK);
    RawSign slash = at(SignKind.SLASH, 200, 88, 0.9);
    assertThat(kinds(line, charts(Optional.of(Along.SLASHED), slash)))
        .containsExactly(SignKind.SLASH);
    assertThat(kinds(line, charts(Optional.of(Along.LINE), slash))).contains(SignKind.BARLINE);
    assertThat(kinds(line, charts(Optional.empty()))).containsExactly(SignKind.BARLINE);
  }

  @Test
  void aRestAmongCuesIsFoundWhereTheBarIsSilent() {
    RawSign word = at(SignKind.WORD, 300, 40, 0.9);
    RawSign rest = at(SignKind.REST, 200, 56, 0.8);
    assertThat(kinds(word, charts(Optional.of(Along.SILENT), rest))).contains(SignKind.REST);
    assertThat(kinds(word, charts(Optional.empty(), rest))).doesNotContain(SignKind.REST);
    RawSign known = at(SignKind.REST, 204, 60, 0.9);
    assertThat(kinds(known, charts(Optional.of(Along.SILENT), rest)))
        .containsExactly(SignKind.REST);
  }

  @Test
  void aBarIsSilentUnlessALongNoteStandsInIt() {
    ChartHeats charts = charts(Optional.of(Along.SILENT));
    double from = StripImage.along(40);
    double to = StripImage.along(240);
    assertThat(Charts.silence(charts, List.of()).is(from, to, false)).isTrue();
    assertThat(Charts.silence(charts, List.of(note(0))).is(from, to, false)).isTrue();
    assertThat(Charts.silence(charts, List.of(note(4))).is(from, to, false)).isFalse();
    assertThat(Charts.silence(charts(Optional.empty()), List.of()).is(from, to, false)).isFalse();
  }

  @Test
  void aLongNoteAmongOthersIsACues() {
    ChartHeats charts = charts(Optional.of(Along.SILENT));
    List<Sound> notes = List.of(note(4), note(0));
    assertThat(Charts.silence(charts, notes).is(StripImage.along(40), StripImage.along(240), false))
        .isTrue();
  }

  private static Sound note(double quarters) {
    return new Sound(
        StripImage.along(140), true, Optional.of(quarters), Optional.of(quarters), 0.9);
  }
}
