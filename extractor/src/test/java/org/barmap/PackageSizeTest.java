package org.barmap;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** No package of any module has more files than a reader can take in, tests as well. */
class PackageSizeTest {

  private static final Path HOME = Path.of(System.getProperty("barmap.home", ".."));
  private static final long MOST = 25;

  @Test
  void noPackageHasMoreThan25Files() throws IOException {
    Map<String, Long> sizes = new TreeMap<>();
    for (Path sources : sources()) {
      sizes.putAll(sizes(sources));
    }
    assertThat(sizes).as("sources are found").containsKey("extractor/src/main/java/org/barmap/map");
    sizes.values().removeIf(n -> n <= MOST);
    assertThat(sizes).as("packages over " + MOST + " files").isEmpty();
  }

  /** The source folders of all modules, nested ones as well. */
  private static Iterable<Path> sources() throws IOException {
    try (Stream<Path> all = Files.walk(HOME, 5)) {
      return all.filter(p -> p.endsWith("src/main/java") || p.endsWith("src/test/java")).toList();
    }
  }

  private static Map<String, Long> sizes(Path sources) throws IOException {
    try (Stream<Path> all = Files.walk(sources)) {
      return all.filter(p -> p.toString().endsWith(".java"))
          .collect(
              Collectors.groupingBy(
                  p -> HOME.relativize(p.getParent()).toString().replace('\\', '/'),
                  Collectors.counting()));
    }
  }
}
