package org.barmap.cli;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import org.barmap.library.WholeFile;

/** Writes text files whole or not at all. */
final class TextFile {

  private TextFile() {}

  static void write(Path file, String text) throws IOException {
    byte[] bytes = (text.stripTrailing() + "\n").getBytes(StandardCharsets.UTF_8);
    WholeFile.copy(new ByteArrayInputStream(bytes), file);
  }
}
