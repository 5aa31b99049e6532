package org.barmap.plan.oracle;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.stream.Collectors;

/** A kept measurement: lines of a name, a blank and what was measured. */
final class Kept {

  private Kept() {}

  static Map<String, String> read(String file) {
    try (InputStream in = Kept.class.getResourceAsStream(file)) {
      if (in == null) {
        return Map.of();
      }
      Map<String, String> lines = new LinkedHashMap<>();
      new String(in.readAllBytes(), StandardCharsets.UTF_8)
          .lines()
          .filter(l -> !l.isBlank())
          .forEach(l -> lines.put(l.substring(0, l.indexOf(' ')), l.substring(l.indexOf(' ') + 1)));
      return lines;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Writes what was measured now below target, and tells what to do with it. */
  static String write(String file, Map<String, String> now) {
    Path path = Path.of("target", "oracle", file);
    String text =
        now.entrySet().stream()
            .map(e -> e.getKey() + " " + e.getValue() + "\n")
            .collect(Collectors.joining());
    try {
      Files.createDirectories(path.getParent());
      Files.writeString(path, text);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return "What was measured now is in service/"
        + path
        + "; where every line of the difference is meant, copy it to"
        + " service/src/test/resources/org/barmap/plan/oracle/"
        + file
        + " and commit it.";
  }
}
