package org.barmap.exchange.musicxml;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.util.Optional;
import java.util.zip.ZipEntry;
import java.util.zip.ZipException;
import java.util.zip.ZipInputStream;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;

/**
 * Takes the score out of a compressed MusicXML file ({@code .mxl}): a zip whose {@code
 * META-INF/container.xml} names it.
 *
 * <p>Nothing is written to disk, so no entry's name can lead anywhere; what is unpacked is bounded.
 */
final class Compressed {
  private static final String CONTAINER = "META-INF/container.xml";
  private static final int MAX_ENTRIES = 1000;
  private static final int MAX_CONTAINER = 64 * 1024;

  private Compressed() {}

  /** Tells whether the bytes begin like a zip. */
  static boolean is(byte[] data) {
    return data.length > 4 && data[0] == 'P' && data[1] == 'K' && data[2] == 3 && data[3] == 4;
  }

  /**
   * Returns the score inside.
   *
   * @throws UnreadableMusicXmlException when the zip is broken, has no score, or unpacks to more
   *     than {@code most} bytes
   */
  static byte[] score(byte[] zip, int most) throws UnreadableMusicXmlException, IOException {
    byte[] container =
        entry(zip, CONTAINER, MAX_CONTAINER)
            .orElseThrow(
                () ->
                    new UnreadableMusicXmlException(
                        "this zip is no compressed MusicXML: it has no " + CONTAINER));
    String root = rootFile(container);
    return entry(zip, root, most)
        .orElseThrow(
            () -> new UnreadableMusicXmlException("the score named inside the zip is not in it"));
  }

  private static Optional<byte[]> entry(byte[] zip, String name, int most)
      throws UnreadableMusicXmlException, IOException {
    try (ZipInputStream in = new ZipInputStream(new ByteArrayInputStream(zip))) {
      int seen = 0;
      long left = most;
      for (ZipEntry e = in.getNextEntry(); e != null; e = in.getNextEntry()) {
        if (++seen > MAX_ENTRIES) {
          throw new UnreadableMusicXmlException("the zip has more than 1000 entries");
        }
        if (e.getName().equals(name)) {
          return Optional.of(bounded(in, most));
        }
        left -= skip(in, left);
      }
      return Optional.empty();
    } catch (ZipException | java.io.EOFException | IllegalArgumentException e) {
      // IllegalArgumentException: an entry's name is no UTF-8
      throw new UnreadableMusicXmlException("the zip is broken: copy the file again", e);
    }
  }

  /** Reads to the end, or gives up. */
  static byte[] bounded(InputStream in, int most) throws IOException, UnreadableMusicXmlException {
    byte[] data = in.readNBytes(most + 1);
    if (data.length > most) {
      throw new UnreadableMusicXmlException(
          "the score is larger than "
              + (most >= 1 << 20 ? (most >> 20) + " MB" : (most >> 10) + " KB")
              + ": export one part, or one number, at a time");
    }
    return data;
  }

  /** Passes over an entry that is not wanted; returns its size. */
  private static long skip(InputStream in, long most)
      throws IOException, UnreadableMusicXmlException {
    byte[] buffer = new byte[8192];
    long total = 0;
    for (int n = in.read(buffer); n >= 0; n = in.read(buffer)) {
      total += n;
      if (total > most) {
        throw new UnreadableMusicXmlException("the zip unpacks to far more than a score");
      }
    }
    return total;
  }

  private static String rootFile(byte[] container) throws UnreadableMusicXmlException {
    try {
      XMLStreamReader reader = SafeXml.reader(container);
      try {
        while (reader.hasNext()) {
          if (reader.next() == XMLStreamConstants.START_ELEMENT
              && reader.getLocalName().equals("rootfile")) {
            String path = reader.getAttributeValue(null, "full-path");
            if (path != null && !path.isBlank()) {
              return path;
            }
          }
        }
      } finally {
        reader.close();
      }
    } catch (XMLStreamException e) {
      throw new UnreadableMusicXmlException(CONTAINER + " inside the zip is broken", e);
    }
    throw new UnreadableMusicXmlException(CONTAINER + " inside the zip names no score");
  }
}
