package org.barmap.work.engine;

import java.io.IOException;
import java.net.URISyntaxException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.barmap.extract.engine.Engine;
import org.barmap.extract.engine.EngineMain;

/**
 * Engines in jars: {@code plugins/NAME.jar}, or all jars of {@code plugins/NAME/}. Their names are
 * the names of the files; nothing of them is loaded into this program.
 *
 * @param folder beside the program and not among the books: a backup that is restored, or a book
 *     that is opened, never brings code along
 */
public record Plugins(Path folder) {

  private static final String JAR = ".jar";

  /** MB; readers of music are hungry. */
  private static final int HEAP = 2048;

  /** Returns the names of all engines, sorted. */
  public List<String> names() {
    try (Stream<Path> files = Files.list(folder)) {
      return files
          .filter(f -> Files.isDirectory(f) || f.toString().endsWith(JAR))
          .map(f -> f.getFileName().toString().replaceFirst("\\.jar$", ""))
          .sorted()
          .distinct()
          .toList();
    } catch (IOException e) {
      // there is no such folder, as usual
      return List.of();
    }
  }

  /** Returns how the engine of a name is started; empty when there is none. */
  public Optional<EngineCommand> named(String name) throws IOException {
    if (!names().contains(name)) {
      return Optional.empty();
    }
    List<String> path = new ArrayList<>(List.of(ours()));
    Path own = folder.resolve(name);
    if (Files.isDirectory(own)) {
      try (Stream<Path> jars = Files.list(own)) {
        jars.filter(f -> f.toString().endsWith(JAR)).sorted().forEach(f -> path.add(absolute(f)));
      }
    } else {
      path.add(absolute(folder.resolve(name + JAR)));
    }
    return Optional.of(
        new EngineCommand(
            name,
            List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xmx" + HEAP + "m",
                "-Djava.awt.headless=true",
                "-cp",
                String.join(System.getProperty("path.separator"), path),
                EngineMain.class.getName(),
                "{pages}",
                "{out}")));
  }

  /**
   * The jar, or the classes, of the interface: with it comes the extractor, but none of its
   * libraries.
   */
  private static String ours() throws IOException {
    try {
      return Path.of(Engine.class.getProtectionDomain().getCodeSource().getLocation().toURI())
          .toString();
    } catch (URISyntaxException e) {
      throw new IOException(e);
    }
  }

  private static String absolute(Path file) {
    return file.toAbsolutePath().toString();
  }
}
