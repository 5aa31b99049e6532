package org.barmap.reckon.cells;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Barline;
import org.barmap.map.Outline;
import org.barmap.map.StaffSystem;
import org.barmap.reckon.OnLine;
import org.barmap.reckon.cost.Costs;
import org.barmap.sign.ReadSystem;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.kind.Sound;
import org.junit.jupiter.api.Test;

/** A forward repeat after clef, key and meter ends no bar (common practice). */
class SystemCellsTest {

  private static Sign sign(SignKind kind, double from, double to, String text) {
    return OnLine.sign(kind, from, to, .95, List.of(new Reading(text, .95)));
  }

  private static final Sign REPEAT =
      sign(SignKind.BARLINE, 19.5, 20.5, Barline.REPEAT_START.word());

  private static final Sign METER = sign(SignKind.METER, 3, 4, "4/4");

  private static Sign single(double at) {
    return sign(SignKind.BARLINE, at - .1, at + .1, Barline.SINGLE.word());
  }

  private static SystemCells cells(double musicBegin, Sign... signs) {
    return cells(musicBegin, List.of(), signs);
  }

  private static SystemCells cells(double musicBegin, List<Sound> sounds, Sign... signs) {
    StaffSystem system =
        new StaffSystem(1, Outline.box(0, 0, 1000, 40), 10, Optional.empty(), 1, List.of());
    return SystemCells.of(
        new ReadSystem(
            system,
            100,
            (from, to) -> Outline.box(from * 10, 0, to * 10, 40),
            List.of(signs),
            0,
            musicBegin,
            100,
            sounds),
        0.1,
        0.1);
  }

  @Test
  void aRepeatRightAfterAMeterOpensTheLineWhateverElseWasTakenForANote() {
    assertThat(cells(6, sign(SignKind.METER, 15, 17, "3/4"), REPEAT).opens(0)).isTrue();
    assertThat(cells(6, sign(SignKind.METER, 9, 11, "3/4"), REPEAT).opens(0)).isFalse();
  }

  @Test
  void theRepeatsOwnStrokeIsNoNoteBeforeIt() {
    assertThat(cells(17.5, REPEAT).opens(0)).isTrue();
    assertThat(cells(10, REPEAT).opens(0)).isFalse();
  }

  private static Sound quarter(double at) {
    return new Sound(at, true, Optional.of(1.0), Optional.of(1.0), .9);
  }

  @Test
  void aLinesFirstNoteCountsThoughItStandsRightBehindItsClef() {
    List<Sound> sounds = List.of(quarter(5.2), quarter(8), quarter(11), quarter(14));
    List<SystemCells> cells = BarLengths.along(List.of(cells(20, sounds, METER, single(18))));
    assertThat(cells.get(0).fill(0).bars()).isEqualTo(Fill.Bars.ONE);
  }

  @Test
  void beatsTellLessAgainstARepeatThanAgainstALine() {
    List<Sound> sounds =
        List.of(quarter(5.2), quarter(8), quarter(11), quarter(14), quarter(21), quarter(24));
    List<Sound> more = new ArrayList<>(sounds);
    more.addAll(List.of(quarter(27), quarter(30)));
    double plain = secondLine(more, single(26));
    double repeat = secondLine(more, sign(SignKind.BARLINE, 25.9, 26.1, "repeat-end"));
    assertThat(plain).isLessThan(.5);
    assertThat(repeat).isGreaterThan(.5);
  }

  /** A line that cuts one bar's worth in two. */
  private static double secondLine(List<Sound> sounds, Sign line) {
    Sign[] signs = {METER, single(18), line.likely(.85), single(33)};
    SystemCells cells = BarLengths.along(List.of(cells(20, sounds, signs))).get(0);
    LineEvidence around = LineEvidence.of(cells, 1, 14, 14);
    return Costs.DEFAULT.line(.85, true, around);
  }

  @Test
  void aBarOfOneNoteMayBeNarrowerThanOneOfMany() {
    List<Sound> many = new ArrayList<>();
    for (int bar = 0; bar < 3; bar++) {
      for (int i = 0; i < 4; i++) {
        many.add(quarter(21 + 16 * bar + 3.5 * i));
      }
    }
    many.add(quarter(69));
    Sign[] lines = {single(18), single(34), single(50), single(66), single(72)};
    SystemCells few = BarLengths.along(List.of(cells(20, many, lines))).get(0);
    many.add(quarter(70.5));
    many.add(quarter(67.5));
    SystemCells full = BarLengths.along(List.of(cells(20, many, lines))).get(0);
    assertThat(Room.beside(few, 4, 16)).isGreaterThan(.7);
    assertThat(Room.beside(full, 4, 16)).isLessThan(.5);
  }
}
