package org.barmap.web.contract;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;

/**
 * Writes down which answers were seen: the tests run in several processes, and only all of them
 * together see every one. {@code EveryAnswerSeenTest} reads them when the others are done.
 */
final class Answered {

  private static final Optional<Path> FILE =
      place().map(place -> place.resolve(ProcessHandle.current().pid() + ".txt"));

  private static final Set<String> SEEN = ConcurrentHashMap.newKeySet();

  private Answered() {}

  /** Where the tests of a build write; none where something else runs them. */
  static Optional<Path> place() {
    return Optional.ofNullable(System.getProperty("barmap.answers")).map(Path::of);
  }

  static String line(ApiDescription.Operation operation, int status) {
    return operation.route() + " " + status;
  }

  /** Takes down that a route was answered so, and that this was as described. */
  static void by(ApiDescription.Operation operation, int status) {
    String line = line(operation, status);
    if (FILE.isPresent() && SEEN.add(line)) {
      write(FILE.get(), line + "\n");
    }
  }

  private static synchronized void write(Path file, String line) {
    try {
      Files.createDirectories(file.resolveSibling(""));
      Files.writeString(file, line, StandardOpenOption.CREATE, StandardOpenOption.APPEND);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
