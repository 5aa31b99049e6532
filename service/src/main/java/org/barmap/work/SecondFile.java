package org.barmap.work;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.UUID;
import org.barmap.exchange.musicxml.MusicXmlReader;
import org.barmap.exchange.musicxml.UnreadableMusicXmlException;
import org.barmap.library.WholeFile;
import org.barmap.map.SecondReading;
import org.barmap.map.json.BarMapJson;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.json.JsonMapper;

/**
 * A second reading as it is kept beside a book's pages: the MusicXML that a person attached, or
 * JSON of what another reader made of the pages.
 */
public final class SecondFile {

  private static final String ENDING = ".reading";

  /** Absent things are written: records of a map are not told apart from those by their readers. */
  private static final JsonMapper MAPPER =
      BarMapJson.mapper()
          .rebuild()
          .changeDefaultPropertyInclusion(v -> v.withValueInclusion(JsonInclude.Include.ALWAYS))
          .build();

  private SecondFile() {}

  /**
   * Reads one.
   *
   * @throws UnreadableMusicXmlException when it is neither of them
   */
  public static SecondReading read(Path file) throws UnreadableMusicXmlException, IOException {
    if (!isAnotherReaders(String.valueOf(file.getFileName()))) {
      return MusicXmlReader.read(file);
    }
    try {
      return MAPPER.readValue(Files.readAllBytes(file), SecondReading.class);
    } catch (JacksonException e) {
      throw new UnreadableMusicXmlException("what another reader left is damaged", e);
    }
  }

  /** Tells by a file's name whether another reader made it of the pages. */
  static boolean isAnotherReaders(String name) {
    return name.endsWith(ENDING);
  }

  /**
   * Writes what another reader made of the pages, whole or not at all.
   *
   * @return the file's name in the folder
   */
  public static String write(SecondReading reading, Path folder) throws IOException {
    // by this name it is told to be ours, and goes with its book
    Path file = folder.resolve("u" + UUID.randomUUID().toString().replace("-", "") + ENDING);
    WholeFile.copy(new java.io.ByteArrayInputStream(MAPPER.writeValueAsBytes(reading)), file);
    return String.valueOf(file.getFileName());
  }
}
