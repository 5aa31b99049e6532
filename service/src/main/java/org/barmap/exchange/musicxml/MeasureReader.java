package org.barmap.exchange.musicxml;

import java.math.BigInteger;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.audiveris.proxymusic.Attributes;
import org.audiveris.proxymusic.Direction;
import org.audiveris.proxymusic.Ending;
import org.audiveris.proxymusic.MeasureStyle;
import org.audiveris.proxymusic.Note;
import org.audiveris.proxymusic.RightLeftMiddle;
import org.audiveris.proxymusic.ScorePartwise;
import org.audiveris.proxymusic.Sound;
import org.audiveris.proxymusic.StartStopDiscontinue;
import org.audiveris.proxymusic.Time;
import org.audiveris.proxymusic.YesNo;
import org.barmap.map.Barline;
import org.barmap.map.Key;
import org.barmap.map.Meter;
import org.barmap.map.SecondReading;

/** Reads the measures of one part in order; carries meter, key and an open ending along. */
final class MeasureReader {
  private Optional<Meter> meter = Optional.empty();
  private Optional<Key> key = Optional.empty();
  private List<Integer> ending = List.of();

  List<SecondReading.Measure> measures(List<ScorePartwise.Part.Measure> measures) {
    List<SecondReading.Measure> read = new ArrayList<>();
    for (ScorePartwise.Part.Measure measure : measures) {
      read.add(measure(measure));
    }
    return read;
  }

  private SecondReading.Measure measure(ScorePartwise.Part.Measure measure) {
    meter = meter.map(m -> m.withPrinted(false));
    key = key.map(k -> k.withPrinted(false));
    Signs signs = new Signs();
    Barline start = Barline.NONE;
    Barline end = Barline.SINGLE;
    Optional<Integer> times = Optional.empty();
    int multiRest = 0;
    boolean rests = false;
    boolean plays = false;
    boolean endingStops = false;
    for (Object o : measure.getNoteOrBackupOrForward()) {
      if (o instanceof Attributes a) {
        readMeter(a);
        readKey(a);
        multiRest = Math.max(multiRest, multiRest(a));
      } else if (o instanceof Note n) {
        rests |= n.getRest() != null && n.getPrintObject() != YesNo.NO;
        plays |= n.getRest() == null && n.getCue() == null && n.getGrace() == null;
        signs.note(n);
      } else if (o instanceof Direction d) {
        signs.direction(d);
      } else if (o instanceof Sound s) {
        signs.sound(s);
      } else if (o instanceof org.audiveris.proxymusic.Barline b) {
        signs.barline(b);
        boolean left = b.getLocation() == RightLeftMiddle.LEFT;
        boolean middle = b.getLocation() == RightLeftMiddle.MIDDLE;
        if (left && Barlines.isForward(b)) {
          start = Barline.REPEAT_START;
        } else if (!left && !middle) {
          end = Barlines.right(b);
          times = Barlines.times(b).or(() -> Optional.empty());
        }
        if (b.getEnding() != null) {
          endingStops |= readEnding(b.getEnding());
        }
      }
    }
    SecondReading.Measure read =
        new SecondReading.Measure(
            measure.getNumber() == null ? "" : Texts.clip(measure.getNumber().strip(), 40),
            measure.getImplicit() == YesNo.YES,
            meter,
            key,
            rests && !plays,
            multiRest,
            start,
            end,
            times,
            signs.rehearsal(),
            ending,
            signs.all());
    if (endingStops) {
      ending = List.of();
    }
    return read;
  }

  /** Opens an ending, or says that it stops after this measure. */
  private boolean readEnding(Ending e) {
    if (e.getType() == StartStopDiscontinue.START) {
      ending = numbers(e.getNumber() == null ? "" : e.getNumber());
      return false;
    }
    return true;
  }

  private static List<Integer> numbers(String text) {
    List<Integer> numbers = new ArrayList<>();
    for (String word : text.split("[ ,.]+")) {
      if (word.matches("[1-9]\\d?") && numbers.size() < 99) {
        numbers.add(Integer.valueOf(word));
      }
    }
    return numbers;
  }

  private static int multiRest(Attributes a) {
    int most = 0;
    for (MeasureStyle style : a.getMeasureStyle()) {
      if (style.getMultipleRest() != null && style.getMultipleRest().getValue() != null) {
        BigInteger n = style.getMultipleRest().getValue();
        most = Math.max(most, n.bitLength() < 16 ? n.intValue() : 0);
      }
    }
    return most;
  }

  /** Traditional keys only; one that names single notes and alterations is unknown. */
  private void readKey(Attributes a) {
    if (a.getKey().isEmpty()) {
      return;
    }
    org.audiveris.proxymusic.Key written = a.getKey().get(0);
    BigInteger fifths = written.getFifths();
    boolean known = fifths != null && fifths.abs().compareTo(BigInteger.valueOf(Key.MOST)) <= 0;
    boolean printed = written.getPrintObject() != YesNo.NO;
    key = known ? Optional.of(new Key(fifths.intValue(), printed)) : Optional.empty();
  }

  private void readMeter(Attributes a) {
    if (a.getTime().isEmpty()) {
      return;
    }
    Time time = a.getTime().get(0);
    boolean printed = time.getPrintObject() != YesNo.NO;
    meter = Meters.read(time).map(m -> m.withPrinted(printed));
  }
}
