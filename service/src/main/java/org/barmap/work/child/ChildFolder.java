package org.barmap.work.child;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.barmap.library.keep.Trees;

/**
 * The temporary folder of a child: what libraries leave there goes with it, also when it is killed.
 * The ONNX Runtime makes a folder at every start and leaves it when nothing is closed in order.
 */
final class ChildFolder {

  private static final System.Logger LOG = System.getLogger(ChildFolder.class.getName());
  private static final String NAME = "barmap-reading";
  private static final String PROPERTY = "java.io.tmpdir";

  private ChildFolder() {}

  static Path make() throws IOException {
    return Files.createTempDirectory(NAME);
  }

  /** Returns the option that tells a child its folder. */
  static String option(Path folder) {
    return "-D" + PROPERTY + "=" + folder;
  }

  static void remove(Path folder) {
    try {
      if (Files.exists(folder)) {
        Trees.delete(folder);
      }
    } catch (IOException e) {
      LOG.log(System.Logger.Level.INFO, "a temporary folder stays: {0} ({1})", folder, e);
    }
  }

  /** Ends this child at once; its folder goes here, for who started it may be gone. */
  static void end(int code) {
    Path own = Path.of(System.getProperty(PROPERTY, ""));
    if (own.getFileName() != null && own.getFileName().toString().startsWith(NAME)) {
      remove(own);
    }
    Runtime.getRuntime().halt(code);
  }
}
