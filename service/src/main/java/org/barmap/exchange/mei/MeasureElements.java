package org.barmap.exchange.mei;

import java.util.Optional;
import java.util.OptionalDouble;
import javax.xml.stream.XMLStreamException;
import org.barmap.map.Bar;
import org.barmap.map.Barline;
import org.barmap.map.Enclosure;
import org.barmap.map.Key;
import org.barmap.map.Meter;
import org.barmap.map.Navigation;
import org.barmap.map.RehearsalMark;
import org.barmap.map.Word;
import org.barmap.plan.change.term.Figures;
import org.barmap.plan.change.term.Metronome;

/** Writes bars as measures; meter, key and the place on the page are carried along. */
final class MeasureElements {
  private static final String STAFF = "1";

  private final Xml xml;
  private Optional<Meter> meter = Optional.empty();
  private Optional<Key> key = Optional.empty();
  private Optional<Bar> before = Optional.empty();

  MeasureElements(Xml xml) {
    this.xml = xml;
  }

  /** Begins a number; what its first bar has is said in front of its sections. */
  void begin(Bar first, String part) throws XMLStreamException {
    meter = first.meter();
    key = first.key();
    xml.open("scoreDef");
    defined(meter, key);
    xml.open("staffGrp").empty("staffDef", "n", STAFF, "lines", "5", "label", part).close();
    xml.close();
  }

  private void defined(Optional<Meter> m, Optional<Key> k) throws XMLStreamException {
    xml.attribute("keysig", k.map(MeasureElements::signature).orElse(""));
    xml.attribute("meter.count", m.map(x -> Integer.toString(x.beats())).orElse(""));
    xml.attribute("meter.unit", m.map(x -> Integer.toString(x.unit())).orElse(""));
  }

  private static String signature(Key key) {
    int many = Math.abs(key.fifths());
    return many == 0 ? "0" : many + (key.fifths() > 0 ? "s" : "f");
  }

  /** Writes one entry; {@code index} counts those of the book. */
  void measure(Bar bar, int index, boolean placed) throws XMLStreamException {
    breaks(bar, placed);
    changes(bar);
    boolean pickup = bar.number() == 0 && bar.label().isEmpty();
    xml.open(
        "measure",
        "xml:id",
        "bar-" + index,
        "n",
        bar.label().map(Xml::word).filter(l -> !l.isEmpty()).orElse("" + bar.number()),
        "metcon",
        pickup ? "false" : "",
        "left",
        bar.startBarline().startsRepeat() ? "rptstart" : "",
        "right",
        right(bar.endBarline()),
        "facs",
        placed ? "#zone-" + index : "");
    xml.open("staff", "n", STAFF).open("layer", "n", "1");
    switch (bar.content()) {
      case MUSIC -> xml.empty("mSpace");
      case REST -> xml.empty("mRest");
      case MULTI_REST -> xml.empty("multiRest", "num", Integer.toString(bar.count()));
      case BAR_REPEAT -> xml.empty("mRpt");
    }
    xml.close().close();
    over(bar);
    xml.close();
    before = Optional.of(bar);
  }

  private void breaks(Bar bar, boolean placed) throws XMLStreamException {
    if (before.filter(b -> b.page() == bar.page()).isEmpty()) {
      xml.empty(
          "pb", "n", Integer.toString(bar.page()), "facs", placed ? "#surface-" + bar.page() : "");
    } else if (before.filter(b -> b.system() == bar.system()).isEmpty()) {
      xml.empty("sb");
    }
  }

  private void changes(Bar bar) throws XMLStreamException {
    Optional<Meter> newMeter =
        bar.meter().filter(m -> meter.filter(old -> old.sameAs(m)).isEmpty());
    Optional<Key> newKey = bar.key().filter(k -> key.filter(old -> old.sameAs(k)).isEmpty());
    if (newMeter.isPresent() || newKey.isPresent()) {
      xml.open("scoreDef");
      defined(newMeter, newKey);
      xml.close();
    }
    meter = bar.meter().or(() -> meter);
    key = bar.key().or(() -> key);
  }

  private void over(Bar bar) throws XMLStreamException {
    String end = Integer.toString(bar.meter().map(Meter::beats).orElse(4) + 1);
    if (bar.rehearsal().isPresent()) {
      rehearsal(bar.rehearsal().get());
    }
    for (Word word : bar.words()) {
      word(word);
    }
    for (Navigation sign : bar.signs()) {
      switch (sign) {
        case SEGNO -> xml.empty("repeatMark", "staff", STAFF, "tstamp", "1", "func", "segno");
        case CODA -> xml.empty("repeatMark", "staff", STAFF, "tstamp", "1", "func", "coda");
        case TO_CODA -> jump("coda", "To Coda", end);
        case FINE -> jump("fine", "Fine", end);
        case DA_CAPO -> jump("daCapo", "D.C.", end);
        case DAL_SEGNO -> jump("dalSegno", "D.S.", end);
        case FERMATA -> xml.empty("fermata", "staff", STAFF, "tstamp", "1", "place", "above");
        case CAESURA -> xml.empty("caesura", "staff", STAFF, "tstamp", end);
      }
    }
    if (bar.times().isPresent()) {
      xml.open("dir", "staff", STAFF, "tstamp", "1", "place", "above", "type", "times");
      xml.text(bar.times().get() + "X").close();
    }
  }

  private void jump(String function, String words, String end) throws XMLStreamException {
    xml.open("repeatMark", "staff", STAFF, "tstamp", end, "func", function).text(words).close();
  }

  private void rehearsal(RehearsalMark mark) throws XMLStreamException {
    xml.open("reh", "staff", STAFF, "tstamp", "1", "place", "above");
    if (mark.enclosure() == Enclosure.NONE) {
      xml.text(mark.text());
    } else {
      xml.inside("rend", "rend", mark.enclosure().word()).text(mark.text()).close();
    }
    xml.close();
  }

  private void word(Word word) throws XMLStreamException {
    OptionalDouble quarters = Metronome.quartersPerMinute(word.text());
    xml.open(
        quarters.isPresent() ? "tempo" : "dir",
        "staff",
        STAFF,
        "tstamp",
        "1",
        "place",
        word.where().word(),
        "midi.bpm",
        quarters.isPresent() ? Double.toString(Figures.thousandths(quarters.getAsDouble())) : "");
    xml.text(word.text()).close();
  }

  private static String right(Barline line) {
    return switch (line) {
      case NONE -> "invis";
      case SINGLE -> "single";
      case DOUBLE -> "dbl";
      case FINAL -> "end";
      case DASHED -> "dashed";
      case REPEAT_START -> "rptstart";
      case REPEAT_END -> "rptend";
      case REPEAT_BOTH -> "rptboth";
    };
  }
}
