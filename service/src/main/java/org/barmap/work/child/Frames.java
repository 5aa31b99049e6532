package org.barmap.work.child;

import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import org.barmap.map.json.BarMapJson;
import tools.jackson.core.JacksonException;

/** JSON documents one behind the other, each behind its length in bytes (32 bits). */
final class Frames {

  /** A page of the densest print is stored in less than 2 MB. */
  private static final int MOST_BYTES = 64 << 20;

  private Frames() {}

  /** Writes one, whole, whoever else writes. */
  static void write(DataOutputStream to, Object document) throws IOException {
    byte[] bytes =
        BarMapJson.mapper().writeValueAsString(document).getBytes(StandardCharsets.UTF_8);
    synchronized (to) {
      to.writeInt(bytes.length);
      to.write(bytes);
      to.flush();
    }
  }

  /**
   * Reads one.
   *
   * @throws IOException at the end, and when it is none
   */
  static <T> T read(DataInputStream from, Class<T> type) throws IOException {
    int length = from.readInt();
    if (length < 0 || length > MOST_BYTES) {
      throw new IOException("a document of " + length + " bytes");
    }
    byte[] bytes = from.readNBytes(length);
    try {
      return BarMapJson.mapper().readValue(bytes, type);
    } catch (JacksonException e) {
      throw new IOException(e);
    }
  }
}
