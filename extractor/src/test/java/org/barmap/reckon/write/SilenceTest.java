package org.barmap.reckon.write;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.barmap.map.Meter;
import org.barmap.sign.kind.Sound;
import org.junit.jupiter.api.Test;

/**
 * What rests are worth is MusicXML 4.0's: a quarter is 1 of its quarter notes, an eighth a half, a
 * dot adds half of the value (note-type-value and dot); a beat is the meter's lower figure.
 */
class SilenceTest {
  private static final Meter COMMON = new Meter(4, 4, false);

  private static Sound note(double at) {
    return new Sound(at, true, Optional.empty(), Optional.empty(), 0.9);
  }

  private static Sound rest(double at, double quarters) {
    return new Sound(at, false, Optional.of(quarters), Optional.of(quarters), 0.9);
  }

  private static Silence in(Meter meter, Sound... sounds) {
    return Silence.in(List.of(sounds), 10, 30, meter);
  }

  @Test
  void restsBeforeTheFirstNoteAndAfterTheLastAddUp() {
    Silence s =
        in(COMMON, rest(13, 1), rest(15, 0.5), note(18), rest(20, 1), note(22), rest(26, 1));
    assertThat(s.start()).contains(1.5);
    assertThat(s.end()).contains(1.0);
  }

  @Test
  void beatsAreThoseOfTheMeter() {
    assertThat(in(new Meter(6, 8, false), rest(13, 1.5), note(20)).start()).contains(3.0);
    assertThat(in(new Meter(2, 2, false), rest(13, 1), note(20)).start()).contains(0.5);
  }

  @Test
  void othersBarsDontCount() {
    Silence s = in(COMMON, rest(9, 1), note(13), note(28), rest(29.8, 1), rest(33, 1));
    assertThat(s.start()).isEmpty();
    assertThat(s.end()).isEmpty();
  }

  @Test
  void whatIsNotSureIsNotClaimed() {
    Sound unknown = new Sound(15, false, Optional.empty(), Optional.of(1.0), 0.9);
    Sound weak = new Sound(15, false, Optional.of(1.0), Optional.of(1.0), 0.5);
    assertThat(in(COMMON, rest(13, 1), unknown, note(18)).start()).isEmpty();
    assertThat(in(COMMON, rest(13, 1), weak, note(18)).start()).isEmpty();
    assertThat(in(COMMON, rest(13, 1), rest(15, 1)).start()).as("no note").isEmpty();
    assertThat(in(COMMON, rest(13, 2), rest(15, 2), note(18)).start()).as("too many").isEmpty();
  }
}
