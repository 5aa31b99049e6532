package org.barmap.exchange.musicxml;

import java.math.BigInteger;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.audiveris.proxymusic.Attributes;
import org.audiveris.proxymusic.Direction;
import org.audiveris.proxymusic.MeasureStyle;
import org.audiveris.proxymusic.Note;
import org.audiveris.proxymusic.RightLeftMiddle;
import org.audiveris.proxymusic.ScorePartwise;
import org.audiveris.proxymusic.Sound;
import org.audiveris.proxymusic.Time;
import org.audiveris.proxymusic.YesNo;
import org.barmap.map.Barline;
import org.barmap.map.Key;
import org.barmap.map.Meter;
import org.barmap.map.SecondReading;

/** Reads the measures of one part in order; carries meter and key along. */
public final class MeasureReader {
  /** An entry of a bar map stands for no more bars. */
  private static final BigInteger MOST_REST = BigInteger.valueOf(10_000);

  private Optional<Meter> meter = Optional.empty();
  private Optional<Key> key = Optional.empty();

  /** Returns what each measure says; the reader is used up then. */
  public List<ScoreMeasure> measures(List<ScorePartwise.Part.Measure> measures) {
    Endings endings = Endings.of(measures);
    List<ScoreMeasure> read = new ArrayList<>();
    for (int i = 0; i < measures.size(); i++) {
      read.add(measure(measures.get(i), endings.at(i), endings.doubts(i)));
    }
    return read;
  }

  private ScoreMeasure measure(
      ScorePartwise.Part.Measure measure, List<Integer> ending, List<String> asked) {
    meter = meter.map(m -> m.withPrinted(false));
    key = key.map(k -> k.withPrinted(false));
    Signs signs = new Signs();
    Barline start = Barline.NONE;
    Barline end = Barline.SINGLE;
    Optional<Integer> times = Optional.empty();
    int multiRest = 0;
    boolean rests = false;
    boolean plays = false;
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
          times = Barlines.times(b);
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
    List<String> doubts = new ArrayList<>(asked);
    doubts.addAll(signs.doubts());
    return new ScoreMeasure(read, doubts, signs.early(), signs.late(), signs.bareCoda());
  }

  private static int multiRest(Attributes a) {
    int most = 0;
    for (MeasureStyle style : a.getMeasureStyle()) {
      if (style.getMultipleRest() != null && style.getMultipleRest().getValue() != null) {
        BigInteger n = style.getMultipleRest().getValue();
        most = Math.max(most, n.signum() > 0 && n.compareTo(MOST_REST) <= 0 ? n.intValue() : 0);
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
