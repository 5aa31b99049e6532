package org.barmap.work.child;

import java.io.IOException;
import java.nio.file.Path;
import org.barmap.library.keep.OwnFolder;
import org.barmap.library.keep.Trees;

/**
 * The temporary folder of a child: what libraries leave there goes with it, also when it is killed.
 * The ONNX Runtime makes a folder at every start and leaves it when nothing is closed in order.
 */
final class ChildFolder {

  private static final System.Logger LOG = System.getLogger(ChildFolder.class.getName());
  private static final String NAME = "barmap-reading-";
  private static final String PROPERTY = "java.io.tmpdir";

  private ChildFolder() {}

  static OwnFolder make() throws IOException {
    return OwnFolder.make(Path.of(System.getProperty(PROPERTY, "")), NAME);
  }

  /** Returns the option that tells a child its folder. */
  static String option(Path folder) {
    return "-D" + PROPERTY + "=" + folder;
  }

  /** Ends this child at once; its folder goes here, for who started it may be gone. */
  static void end(int code) {
    Path own = Path.of(System.getProperty(PROPERTY, ""));
    if (own.getFileName() != null && own.getFileName().toString().startsWith(NAME)) {
      try {
        Trees.delete(own);
      } catch (IOException e) {
        LOG.log(System.Logger.Level.INFO, "a temporary folder stays: {0} ({1})", own, e);
      }
    }
    Runtime.getRuntime().halt(code);
  }
}
