package org.barmap.reckon.cells;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.barmap.map.Barline;
import org.barmap.map.Outline;
import org.barmap.map.StaffSystem;
import org.barmap.reckon.OnLine;
import org.barmap.sign.ReadSystem;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;
import org.junit.jupiter.api.Test;

/** A forward repeat after clef, key and meter ends no bar (common practice). */
class SystemCellsTest {

  private static Sign sign(SignKind kind, double from, double to, String text) {
    return OnLine.sign(kind, from, to, .95, List.of(new Reading(text, .95)));
  }

  private static final Sign REPEAT =
      sign(SignKind.BARLINE, 19.5, 20.5, Barline.REPEAT_START.word());

  private static SystemCells cells(double musicBegin, Sign... signs) {
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
            List.of()),
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
}
