package org.barmap.exchange.musicxml.write;

import java.math.BigDecimal;
import java.util.List;
import org.audiveris.proxymusic.Encoding;
import org.audiveris.proxymusic.Identification;
import org.audiveris.proxymusic.MidiInstrument;
import org.audiveris.proxymusic.Miscellaneous;
import org.audiveris.proxymusic.MiscellaneousField;
import org.audiveris.proxymusic.ObjectFactory;
import org.audiveris.proxymusic.PartList;
import org.audiveris.proxymusic.PartName;
import org.audiveris.proxymusic.ScoreInstrument;
import org.audiveris.proxymusic.ScorePart;
import org.audiveris.proxymusic.ScorePartwise;
import org.audiveris.proxymusic.Supports;
import org.audiveris.proxymusic.Work;
import org.audiveris.proxymusic.YesNo;
import org.barmap.map.BarMap;
import org.barmap.map.MusicalNumber;

/** What stands in front of the measures: titles, what the file leaves unsaid, the one part. */
final class Heads {
  private Heads() {}

  /** Begins a score of the whole book. */
  static ScorePartwise of(BarMap map) {
    return score(map, NotSaid.of(map));
  }

  /** Begins a score of one number, a movement of the book. */
  static ScorePartwise of(BarMap map, MusicalNumber number) {
    ScorePartwise score = score(map, NotSaid.of(map, number));
    score.setMovementNumber(XmlText.clean(number.label()));
    String title = number.title().isBlank() ? NumberNames.of(number) : number.title();
    score.setMovementTitle(XmlText.clean(title));
    return score;
  }

  private static ScorePartwise score(BarMap map, List<NotSaid> notSaid) {
    ScorePartwise score = new ScorePartwise();
    score.setVersion("4.0");
    Work work = new Work();
    work.setWorkTitle(XmlText.clean(map.book().title()));
    score.setWork(work);
    score.setIdentification(identification(notSaid));
    return score;
  }

  private static Identification identification(List<NotSaid> notSaid) {
    Encoding encoding = new Encoding();
    ObjectFactory factory = new ObjectFactory();
    encoding
        .getEncodingDateOrEncoderOrSoftware()
        .addAll(
            List.of(
                factory.createEncodingSoftware("barmap"),
                factory.createEncodingSupports(supports("new-system")),
                factory.createEncodingSupports(supports("new-page"))));
    Identification identification = new Identification();
    identification.setEncoding(encoding);
    Miscellaneous miscellaneous = new Miscellaneous();
    for (NotSaid one : notSaid) {
      MiscellaneousField field = new MiscellaneousField();
      field.setName("not said");
      field.setValue(XmlText.clean(one.says()));
      miscellaneous.getMiscellaneousField().add(field);
    }
    identification.setMiscellaneous(miscellaneous);
    return identification;
  }

  private static Supports supports(String attribute) {
    Supports supports = new Supports();
    supports.setElement("print");
    supports.setAttribute(attribute);
    supports.setType(YesNo.YES);
    supports.setValue("yes");
    return supports;
  }

  /** Declares the part; it is silent, since nobody knows its notes. */
  static ScorePart part(BarMap map, ScorePartwise score) {
    ScorePart declared = new ScorePart();
    declared.setId("P1");
    PartName name = new PartName();
    name.setValue(XmlText.clean(map.book().part()));
    declared.setPartName(name);
    ScoreInstrument instrument = new ScoreInstrument();
    instrument.setId("P1-I1");
    instrument.setInstrumentName(XmlText.clean(map.book().part()));
    declared.getScoreInstrument().add(instrument);
    MidiInstrument midi = new MidiInstrument();
    midi.setId(instrument);
    midi.setVolume(BigDecimal.ZERO);
    declared.getMidiDeviceAndMidiInstrument().add(midi);
    PartList list = new PartList();
    list.getPartGroupOrScorePart().add(declared);
    score.setPartList(list);
    return declared;
  }
}
