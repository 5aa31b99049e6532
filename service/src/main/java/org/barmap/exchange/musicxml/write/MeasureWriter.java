package org.barmap.exchange.musicxml.write;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.audiveris.proxymusic.Attributes;
import org.audiveris.proxymusic.MeasureRepeat;
import org.audiveris.proxymusic.MeasureStyle;
import org.audiveris.proxymusic.MultipleRest;
import org.audiveris.proxymusic.ObjectFactory;
import org.audiveris.proxymusic.ScorePartwise.Part.Measure;
import org.audiveris.proxymusic.StartStop;
import org.audiveris.proxymusic.Time;
import org.audiveris.proxymusic.YesNo;
import org.barmap.map.Bar;
import org.barmap.map.Content;
import org.barmap.map.Key;
import org.barmap.map.Meter;
import org.barmap.map.Navigation;

/** Writes bar entries as measures, in order. */
final class MeasureWriter {
  private final Map<String, String> numberNames;
  private Optional<Meter> written = Optional.empty();
  private Optional<Key> signature = Optional.empty();
  private boolean repeating;

  /** Takes the names of musical numbers by the id of their first bar. */
  MeasureWriter(Map<String, String> numberNames) {
    this.numberNames = numberNames;
  }

  List<Measure> measures(List<Bar> bars) {
    List<Measure> measures = new ArrayList<>();
    DirectionWriter directions = new DirectionWriter();
    BarlineWriter barlines = new BarlineWriter(bars);
    Layout layout = new Layout();
    for (int i = 0; i < bars.size(); i++) {
      Bar bar = bars.get(i);
      boolean numberStarts = i == 0 || numberNames.containsKey(bar.id());
      if (numberStarts) {
        Form form = Form.of(bars, i, numberNames.keySet());
        directions.nextNumber(form);
        barlines.nextNumber(form);
      }
      for (int k = 0; k < bar.count(); k++) {
        boolean first = k == 0;
        boolean last = k == bar.count() - 1;
        Measure measure = numbered(bar, k);
        List<Object> content = measure.getNoteOrBackupOrForward();
        if (first) {
          layout.at(bar).ifPresent(content::add);
          barlines.left(i).ifPresent(content::add);
          attributes(bar, measures.isEmpty()).ifPresent(content::add);
          if (numberNames.containsKey(bar.id())) {
            content.add(DirectionWriter.words(numberNames.getOrDefault(bar.id(), ""), true));
          }
          if (numberStarts) {
            directions.impliedRepeat(i > 0).ifPresent(content::add);
          }
          content.addAll(directions.atStart(bar));
        }
        content.addAll(
            Filling.of(
                bar, first && bar.has(Navigation.FERMATA), last && bar.has(Navigation.CAESURA)));
        if (last) {
          content.addAll(directions.atEnd(bar));
          barlines.right(i).ifPresent(content::add);
        }
        measures.add(measure);
      }
    }
    return measures;
  }

  private static Measure numbered(Bar bar, int k) {
    Measure measure = new Measure();
    String label = k == 0 ? bar.label().map(XmlText::clean).map(String::strip).orElse("") : "";
    int number = bar.number() + k;
    measure.setNumber(label.isEmpty() ? Integer.toString(number) : label);
    if (!label.isEmpty()) {
      measure.setText(label);
    }
    if (number == 0 && label.isEmpty()) {
      measure.setImplicit(YesNo.YES);
    }
    return measure;
  }

  private Optional<Attributes> attributes(Bar bar, boolean first) {
    Attributes attributes = new Attributes();
    boolean needed = first;
    if (first) {
      attributes.setDivisions(BigDecimal.valueOf(Filling.DIVISIONS));
    }
    Optional<Meter> meter = bar.meter();
    boolean changed =
        meter.isPresent()
            && (meter.get().printed() || written.filter(m -> m.sameAs(meter.get())).isEmpty());
    if (changed) {
      meter.map(MeasureWriter::time).ifPresent(attributes.getTime()::add);
      written = meter;
      needed = true;
    }
    Optional<Key> key = bar.key();
    if (key.isPresent()
        && (key.get().printed() || signature.filter(k -> k.sameAs(key.get())).isEmpty())) {
      org.audiveris.proxymusic.Key drawn = new org.audiveris.proxymusic.Key();
      drawn.setFifths(BigInteger.valueOf(key.get().fifths()));
      attributes.getKey().add(drawn);
      signature = key;
      needed = true;
    }
    if (bar.content() == Content.MULTI_REST) {
      MultipleRest rest = new MultipleRest();
      rest.setValue(BigInteger.valueOf(bar.count()));
      MeasureStyle style = new MeasureStyle();
      style.setMultipleRest(rest);
      attributes.getMeasureStyle().add(style);
      needed = true;
    }
    boolean repeats = bar.content() == Content.BAR_REPEAT;
    if (repeats != repeating) {
      MeasureRepeat repeat = new MeasureRepeat();
      repeat.setType(repeats ? StartStop.START : StartStop.STOP);
      repeat.setValue(repeats ? "1" : "");
      MeasureStyle style = new MeasureStyle();
      style.setMeasureRepeat(repeat);
      attributes.getMeasureStyle().add(style);
      repeating = repeats;
      needed = true;
    }
    return needed ? Optional.of(attributes) : Optional.empty();
  }

  /** Returns a meter as a time signature. */
  private static Time time(Meter meter) {
    ObjectFactory factory = new ObjectFactory();
    Time time = factory.createTime();
    time.getTimeSignature().add(factory.createTimeBeats(Integer.toString(meter.beats())));
    time.getTimeSignature().add(factory.createTimeBeatType(Integer.toString(meter.unit())));
    return time;
  }
}
