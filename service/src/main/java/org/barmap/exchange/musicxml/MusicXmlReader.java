package org.barmap.exchange.musicxml;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.barmap.map.SecondReading;

/** Reads MusicXML, plain or compressed, as a second reading of the music. */
public final class MusicXmlReader {

  private MusicXmlReader() {}

  /**
   * Reads a file, {@code .musicxml}, {@code .xml} or {@code .mxl}; its content decides, not its
   * name.
   *
   * @throws UnreadableMusicXmlException when it is no MusicXML, is broken, or is larger than a
   *     score can be
   */
  public static SecondReading read(Path file) throws UnreadableMusicXmlException, IOException {
    try (InputStream in = Files.newInputStream(file)) {
      return read(String.valueOf(file.getFileName()), in);
    }
  }

  /** Reads a stream to its end and leaves it open; {@code source} is what to call it. */
  public static SecondReading read(String source, InputStream in)
      throws UnreadableMusicXmlException, IOException {
    List<SecondReading.Part> parts = new ArrayList<>();
    for (ScoreFile.Part part : ScoreFile.read(source, in).parts()) {
      parts.add(
          new SecondReading.Part(
              part.id(),
              part.name(),
              new MeasureReader()
                  .measures(part.measures()).stream().map(ScoreMeasure::said).toList()));
    }
    return new SecondReading(source, SharedSigns.over(parts));
  }
}
