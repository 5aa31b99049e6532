package org.barmap.web.contract;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;

/**
 * Every answer that is described was seen in some test, and was as described. It runs by itself
 * when all others are done ({@code verify}, see the pom), and says nothing where only some were
 * run.
 */
class EveryAnswerSeenTest {

  /** Which tests were asked for; empty where all were. */
  private static final String ONLY = System.getProperty("barmap.only", "some");

  @Test
  void nothingIsDescribedThatWasNeverSeen() throws IOException {
    Optional<Path> place = Answered.place();
    if (place.isEmpty() || !ONLY.isEmpty()) {
      return;
    }
    Set<String> missing = described();
    assertThat(missing).hasSizeGreaterThan(1000);
    missing.removeAll(seen(place.get()));
    assertThat(missing)
        .as("described in openapi.yaml, and answered so in no test: take it out, or provoke it")
        .isEmpty();
  }

  private static Set<String> described() {
    Set<String> all = new TreeSet<>();
    for (ApiDescription.Operation operation : ApiDescription.INSTANCE.operations()) {
      operation.statuses().forEach(status -> all.add(Answered.line(operation, status)));
    }
    return all;
  }

  private static Set<String> seen(Path place) throws IOException {
    Set<String> seen = new TreeSet<>();
    if (Files.notExists(place)) {
      return seen;
    }
    try (DirectoryStream<Path> files = Files.newDirectoryStream(place, "*.txt")) {
      for (Path file : files) {
        seen.addAll(Files.readAllLines(file));
      }
    }
    return seen;
  }
}
