package org.barmap.extract.engine;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.ServiceLoader;
import java.util.stream.Stream;

/** Runs the engine of a plugin on a folder of pages, in a process of its own. */
public final class EngineMain {

  private EngineMain() {}

  /**
   * Runs the one engine that the class path names.
   *
   * @param args the folder of pages, and the folder that takes what is read
   * @throws Exception what the engine throws
   * @throws IllegalStateException when there is none, or more than one
   */
  public static void main(String[] args) throws Exception {
    List<ServiceLoader.Provider<Engine>> engines =
        ServiceLoader.load(Engine.class).stream().toList();
    if (engines.size() != 1) {
      throw new IllegalStateException(
          "the plugin names "
              + engines.size()
              + " engines in META-INF/services/"
              + Engine.class.getName()
              + ", not one");
    }
    engines.get(0).get().read(pages(Path.of(args[0])), Path.of(args[1]));
  }

  private static List<Path> pages(Path folder) throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files.filter(f -> f.toString().endsWith(".png")).sorted().toList();
    }
  }
}
