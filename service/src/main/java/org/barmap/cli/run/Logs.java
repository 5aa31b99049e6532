package org.barmap.cli.run;

import java.io.IOException;
import java.nio.file.Path;
import java.util.logging.FileHandler;
import java.util.logging.Handler;
import java.util.logging.Level;
import java.util.logging.LogManager;
import java.util.logging.Logger;
import java.util.logging.SimpleFormatter;
import org.barmap.library.keep.Closing;

/** Keeps the log of libraries away from the user, and in a file where there is one. */
public final class Logs {

  private static final int BYTES = 2_000_000;

  /** Held, for the log manager itself would let it go. */
  private static final Logger ROOT = Logger.getLogger("");

  private Logs() {}

  /** Writes no log. */
  public static void quiet() {
    LogManager.getLogManager().reset();
    ROOT.setLevel(Level.WARNING);
  }

  /** Writes warnings into a file of a data folder; two old ones are kept. */
  public static void into(Path folder) throws IOException {
    quiet();
    Handler handler = new FileHandler(folder.resolve("barmap.%g.log").toString(), BYTES, 3, true);
    Closing.close(folder);
    handler.setFormatter(new SimpleFormatter());
    ROOT.addHandler(handler);
  }
}
