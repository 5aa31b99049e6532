package org.barmap.exchange.musicxml;

import jakarta.xml.bind.JAXBException;
import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import org.audiveris.proxymusic.PartName;
import org.audiveris.proxymusic.ScorePart;
import org.audiveris.proxymusic.ScorePartwise;
import org.audiveris.proxymusic.ScoreTimewise;
import org.audiveris.proxymusic.util.Marshalling;

/**
 * A MusicXML file taken apart, plain or compressed, ordered by parts or by time; bounded in bytes,
 * depth, elements, parts and bars.
 *
 * @param source what it is called, a file name
 * @param score the score, by parts
 * @param parts its parts with what they are called; at least one
 */
public record ScoreFile(String source, ScorePartwise score, List<Part> parts) {
  private static final int MAX_BYTES = 32 << 20;
  private static final int MAX_PARTS = 200;
  private static final int MAX_MEASURES = 20_000;

  /** Takes a defensive copy. */
  public ScoreFile {
    parts = List.copyOf(parts);
  }

  /**
   * One part.
   *
   * @param id unique in the score
   * @param name as printed; may be empty
   * @param measures in order
   */
  public record Part(String id, String name, List<ScorePartwise.Part.Measure> measures) {}

  /**
   * Reads a stream to its end and leaves it open.
   *
   * @throws UnreadableMusicXmlException when it is no MusicXML, is broken, or is larger than a
   *     score can be
   */
  public static ScoreFile read(String source, InputStream in)
      throws UnreadableMusicXmlException, IOException {
    byte[] data = Compressed.bounded(in, MAX_BYTES);
    byte[] xml = Compressed.is(data) ? Compressed.score(data, MAX_BYTES) : data;
    ScorePartwise score = unmarshal(xml);
    if (score.getPart().isEmpty()) {
      throw new UnreadableMusicXmlException("the score has no parts");
    }
    if (score.getPart().size() > MAX_PARTS) {
      throw new UnreadableMusicXmlException("the score has more than " + MAX_PARTS + " parts");
    }
    List<Part> parts = new ArrayList<>();
    Map<String, String> names = names(score);
    for (ScorePartwise.Part part : score.getPart()) {
      if (part.getMeasure().size() > MAX_MEASURES) {
        throw new UnreadableMusicXmlException("a part has more than " + MAX_MEASURES + " bars");
      }
      String id = part.getId() instanceof ScorePart p ? p.getId() : "P" + (parts.size() + 1);
      parts.add(new Part(id, names.getOrDefault(id, ""), part.getMeasure()));
    }
    return new ScoreFile(source, score, parts);
  }

  private static Map<String, String> names(ScorePartwise score) {
    Map<String, String> names = new HashMap<>();
    if (score.getPartList() != null) {
      for (Object o : score.getPartList().getPartGroupOrScorePart()) {
        if (o instanceof ScorePart p && p.getId() != null) {
          PartName name = p.getPartName();
          names.put(
              p.getId(),
              name == null || name.getValue() == null
                  ? ""
                  : Texts.clip(name.getValue().strip(), 200));
        }
      }
    }
    return names;
  }

  private static ScorePartwise unmarshal(byte[] xml) throws UnreadableMusicXmlException {
    try {
      XMLStreamReader reader = SafeXml.reader(xml);
      try {
        while (reader.getEventType() != XMLStreamConstants.START_ELEMENT && reader.hasNext()) {
          reader.next();
        }
        String root = reader.getLocalName();
        return switch (root) {
          case "score-partwise" -> unmarshal(reader, ScorePartwise.class);
          case "score-timewise" -> Timewise.byParts(unmarshal(reader, ScoreTimewise.class));
          default ->
              throw new UnreadableMusicXmlException(
                  "this is no MusicXML score: it begins with <" + Texts.clip(root, 40) + ">");
        };
      } finally {
        reader.close();
      }
    } catch (XMLStreamException e) {
      throw new UnreadableMusicXmlException("this is no MusicXML: " + firstLine(e), e);
    } catch (JAXBException e) {
      Throwable cause = e.getLinkedException() == null ? e : e.getLinkedException();
      throw new UnreadableMusicXmlException("this MusicXML is broken: " + firstLine(cause), e);
    }
  }

  private static <T> T unmarshal(XMLStreamReader reader, Class<T> kind) throws JAXBException {
    return Marshalling.getContext(kind).createUnmarshaller().unmarshal(reader, kind).getValue();
  }

  private static String firstLine(Throwable e) {
    String message = e.getMessage() == null ? e.getClass().getSimpleName() : e.getMessage();
    String text =
        message.replaceFirst("(?s)^ParseError at \\[row,col\\]:(\\S+)\\s*Message:\\s*", "at $1 ");
    return Texts.clip(text.lines().findFirst().orElse(""), 200);
  }
}
