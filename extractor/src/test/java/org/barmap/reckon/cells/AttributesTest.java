package org.barmap.reckon.cells;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.barmap.map.Outline;
import org.barmap.reckon.OnLine;
import org.barmap.sign.ReadSystem;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.kind.Sound;
import org.junit.jupiter.api.Test;

class AttributesTest {

  private static boolean repeats(double probability, Sound... sounds) {
    Sign sign = OnLine.sign(SignKind.BAR_REPEAT, 14, 16, probability, List.of());
    ReadSystem read =
        new ReadSystem(
            OnLine.staff(1),
            100,
            (from, to) -> Outline.box(from * 10, 0, to * 10, 40),
            List.of(sign),
            0,
            6,
            100,
            List.of(sounds));
    BarSpan bar =
        new BarSpan(
            0,
            10,
            20,
            5,
            Optional.empty(),
            1,
            Optional.empty(),
            1,
            0,
            1,
            Optional.empty(),
            1,
            false,
            List.of(),
            1);
    return new Attributes(SystemCells.of(read, .1, .1), List.of(bar)).repeatsBarBefore(0);
  }

  /** Common practice: a bar-repeat sign fills its bar alone. */
  @Test
  void aFaintBarRepeatSignAmongNotesIsNone() {
    Sound note = new Sound(12, true, Optional.of(1.0), Optional.of(1.0), .9);
    Sound beyond = new Sound(21, true, Optional.of(1.0), Optional.of(1.0), .9);
    assertThat(repeats(.3, note)).isFalse();
    assertThat(repeats(.3, beyond)).isTrue();
    assertThat(repeats(.8, note)).isTrue();
  }
}
