package org.barmap.exchange.musicxml.write;

import jakarta.xml.bind.JAXBException;
import jakarta.xml.bind.Marshaller;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import org.audiveris.proxymusic.ScorePart;
import org.audiveris.proxymusic.ScorePartwise;
import org.audiveris.proxymusic.util.Marshalling;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.MusicalNumber;
import org.barmap.map.rule.BookNumbers;

/**
 * Writes a bar map as one part of MusicXML 4.0: bars, meters, rests, repeats, endings, jumps, marks
 * and words, without notes. A multi-bar rest becomes as many measures as it has bars.
 */
public final class MusicXmlWriter {
  /** More than any book has. */
  public static final int MAX_MEASURES = 200_000;

  private static final String HEAD =
      """
      <?xml version="1.0" encoding="UTF-8" standalone="no"?>
      <!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" \
      "http://www.musicxml.org/dtds/partwise.dtd">
      """;

  private MusicXmlWriter() {}

  /**
   * Writes the whole book; the numbers follow each other, and bar numbers start again in each.
   *
   * @throws IllegalArgumentException when the map has more bars than any book, or none
   */
  public static void write(BarMap map, OutputStream out) throws IOException {
    write(map, map.bars(), Heads.of(map), out);
  }

  /** Writes one musical number. */
  public static void write(BarMap map, MusicalNumber number, OutputStream out) throws IOException {
    List<Bar> bars = map.barsOf(number);
    write(map, bars, Heads.of(map, number), out);
  }

  private static void write(BarMap map, List<Bar> bars, ScorePartwise score, OutputStream out)
      throws IOException {
    long total = bars.stream().mapToLong(Bar::count).sum();
    if (total > MAX_MEASURES) {
      throw new IllegalArgumentException("a map of " + total + " bars is too long for MusicXML");
    }
    if (bars.isEmpty()) {
      throw new IllegalArgumentException("there are no bars to write");
    }
    ScorePart declared = Heads.part(map, score);
    ScorePartwise.Part part = new ScorePartwise.Part();
    part.setId(declared);
    part.getMeasure().addAll(new MeasureWriter(NumberNames.atBars(map)).measures(bars));
    score.getPart().add(part);
    try {
      // not Marshalling.marshal: that writes the binding's own version, 4.0.3, as the format's
      out.write(HEAD.getBytes(StandardCharsets.UTF_8));
      Marshaller marshaller = Marshalling.getContext(ScorePartwise.class).createMarshaller();
      marshaller.setProperty(Marshaller.JAXB_ENCODING, "UTF-8");
      marshaller.setProperty(Marshaller.JAXB_FRAGMENT, true);
      marshaller.setProperty(Marshaller.JAXB_FORMATTED_OUTPUT, true);
      marshaller.marshal(score, out);
    } catch (JAXBException e) {
      throw new IOException("MusicXML could not be written", e);
    }
  }

  /** Finds a number by its label, for a caller that has only that. */
  public static Optional<MusicalNumber> number(BarMap map, String label) {
    return BookNumbers.of(map).stream().filter(n -> n.label().equals(label)).findFirst();
  }
}
