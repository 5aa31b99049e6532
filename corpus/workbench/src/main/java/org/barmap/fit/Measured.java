package org.barmap.fit;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import org.barmap.map.json.BarMapJson;

/** What was measured once and is kept beside the classes. */
final class Measured {

  private Measured() {}

  /** Reads it from a file beside a class, as values of that class. */
  static <T> T load(String file, Class<T> type) {
    try (InputStream in = type.getResourceAsStream(file)) {
      if (in == null) {
        throw new IOException(file + " is not among the resources");
      }
      return BarMapJson.mapper().readValue(in, type);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
