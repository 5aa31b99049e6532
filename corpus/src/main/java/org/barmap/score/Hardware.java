package org.barmap.score;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;

/** The machine a figure was measured on, in words. */
final class Hardware {

  private Hardware() {}

  static String words() {
    return "%s, %d cores, %s %s, Java %s"
        .formatted(
            processor(),
            Runtime.getRuntime().availableProcessors(),
            System.getProperty("os.name"),
            System.getProperty("os.arch"),
            Runtime.version().feature());
  }

  private static String processor() {
    Path info = Path.of("/proc/cpuinfo");
    try {
      if (Files.isReadable(info)) {
        for (String line : Files.readAllLines(info)) {
          if (line.toLowerCase(Locale.ROOT).startsWith("model name")) {
            return line.substring(line.indexOf(':') + 1).strip();
          }
        }
      }
    } catch (IOException e) {
      return "unknown processor"; // the report is worth writing without its name
    }
    return "unknown processor";
  }
}
