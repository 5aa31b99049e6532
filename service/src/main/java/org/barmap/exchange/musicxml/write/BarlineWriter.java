package org.barmap.exchange.musicxml.write;

import java.math.BigInteger;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.audiveris.proxymusic.BackwardForward;
import org.audiveris.proxymusic.BarStyle;
import org.audiveris.proxymusic.Barline;
import org.audiveris.proxymusic.Ending;
import org.audiveris.proxymusic.Repeat;
import org.audiveris.proxymusic.RightLeftMiddle;
import org.audiveris.proxymusic.StartStopDiscontinue;
import org.audiveris.proxymusic.YesNo;
import org.barmap.map.Bar;

/** Writes the barlines of bar entries, with repeats and endings. */
final class BarlineWriter {
  private final List<Bar> bars;
  private Form form = Form.NONE;

  BarlineWriter(List<Bar> bars) {
    this.bars = bars;
  }

  /** Begins another musical number. */
  void nextNumber(Form next) {
    form = next;
  }

  /** Returns the left barline of an entry, where it says more than a line. */
  Optional<Barline> left(int i) {
    Bar bar = bars.get(i);
    boolean opens =
        bar.startBarline().startsRepeat() || (i > 0 && bars.get(i - 1).endBarline().startsRepeat());
    boolean endingStarts = !bar.ending().isEmpty() && !sameEnding(i - 1, i);
    if (!opens && !endingStarts) {
      return Optional.empty();
    }
    Barline line = new Barline();
    line.setLocation(RightLeftMiddle.LEFT);
    if (opens) {
      line.setBarStyle(Lines.drawn(BarStyle.HEAVY_LIGHT));
      line.setRepeat(repeat(BackwardForward.FORWARD));
    }
    if (endingStarts) {
      line.setEnding(ending(bar, StartStopDiscontinue.START));
    }
    return Optional.of(line);
  }

  /** Returns the right barline of an entry, where it is not a plain single line. */
  Optional<Barline> right(int i) {
    Bar bar = bars.get(i);
    boolean back = bar.endBarline().endsRepeat();
    boolean endingStops = !bar.ending().isEmpty() && !sameEnding(i, i + 1);
    Optional<BarStyle> style = Lines.style(bar.endBarline());
    if (i == bars.size() - 1) {
      // said at the very end, because a program may drop a rest that nothing stands behind
      style = style.or(() -> Optional.of(BarStyle.REGULAR));
    }
    if (!back && !endingStops && style.isEmpty()) {
      return Optional.empty();
    }
    Barline line = new Barline();
    line.setLocation(RightLeftMiddle.RIGHT);
    style.map(Lines::drawn).ifPresent(line::setBarStyle);
    if (endingStops) {
      line.setEnding(
          ending(bar, back ? StartStopDiscontinue.STOP : StartStopDiscontinue.DISCONTINUE));
    }
    if (back) {
      Repeat repeat = repeat(BackwardForward.BACKWARD);
      bar.times().ifPresent(n -> repeat.setTimes(BigInteger.valueOf(n)));
      // the standard has it at repeats without endings only
      if (form.again() && bar.ending().isEmpty()) {
        repeat.setAfterJump(YesNo.YES);
      }
      line.setRepeat(repeat);
    }
    return Optional.of(line);
  }

  private boolean sameEnding(int a, int b) {
    return a >= 0
        && b < bars.size()
        && bars.get(a).ending().equals(bars.get(b).ending())
        && !bars.get(a).endBarline().endsRepeat();
  }

  private static Repeat repeat(BackwardForward direction) {
    Repeat repeat = new Repeat();
    repeat.setDirection(direction);
    return repeat;
  }

  private static Ending ending(Bar bar, StartStopDiscontinue type) {
    Ending ending = new Ending();
    ending.setType(type);
    ending.setNumber(bar.ending().stream().map(String::valueOf).collect(Collectors.joining(",")));
    // the standard's way to draw it: "1., 2."
    ending.setValue(bar.ending().stream().map(n -> n + ".").collect(Collectors.joining(", ")));
    return ending;
  }
}
