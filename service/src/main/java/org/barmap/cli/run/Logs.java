package org.barmap.cli.run;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.logging.FileHandler;
import java.util.logging.Formatter;
import java.util.logging.Handler;
import java.util.logging.Level;
import java.util.logging.LogManager;
import java.util.logging.LogRecord;
import java.util.logging.Logger;
import java.util.logging.SimpleFormatter;
import java.util.logging.StreamHandler;
import org.barmap.library.keep.Closing;
import org.barmap.map.json.BarMapJson;
import tools.jackson.databind.ObjectWriter;
import tools.jackson.databind.SerializationFeature;

/** Keeps the log of libraries away from the user, and in a file where there is one. */
public final class Logs {

  private static final int BYTES = 2_000_000;

  private static final String OURS = "org.barmap";

  /** Held, for the log manager itself would let them go. */
  private static final Logger ROOT = Logger.getLogger("");

  private static final Logger OWN = Logger.getLogger(OURS);

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
    handler.setLevel(Level.WARNING);
    ROOT.addHandler(handler);
  }

  /** Writes a line of JSON for every request and every warning as well, with no content in it. */
  public static void lines(OutputStream out) {
    Handler handler = new Lines(out);
    handler.setLevel(Level.INFO);
    ROOT.addHandler(handler);
    OWN.setLevel(Level.INFO);
  }

  /** Sends each line at once. */
  private static final class Lines extends StreamHandler {
    Lines(OutputStream out) {
      super(out, new JsonLine());
      try {
        setEncoding(StandardCharsets.UTF_8.name());
      } catch (IOException e) {
        throw new IllegalStateException(e);
      }
    }

    @Override
    public synchronized void publish(LogRecord line) {
      super.publish(line);
      flush();
    }
  }

  /**
   * A line of JSON. What is filled into a message, and what an exception says, may be of a book or
   * a person: it stands in the file of the data folder and not here. Neither does what other
   * libraries say, who know nothing of that.
   */
  static final class JsonLine extends Formatter {

    private static final int FRAMES = 12;

    private static final ObjectWriter WRITER =
        BarMapJson.mapper().writer().without(SerializationFeature.INDENT_OUTPUT);

    @Override
    public String format(LogRecord line) {
      Map<String, Object> keys = new LinkedHashMap<>();
      String from = String.valueOf(line.getLoggerName());
      boolean ours = from.equals(OURS) || from.startsWith(OURS + ".");
      keys.put("time", line.getInstant().toString());
      keys.put("level", line.getLevel().getName());
      keys.put("from", from);
      keys.put("message", ours ? line.getMessage() : "see the log in the data folder");
      if (ours && line.getParameters() != null) {
        for (Object parameter : line.getParameters()) {
          if (parameter instanceof Map<?, ?> fields) {
            fields.forEach((name, value) -> keys.putIfAbsent(String.valueOf(name), value));
          }
        }
      }
      if (line.getThrown() != null) {
        keys.put("errors", errors(line.getThrown()));
        keys.put("at", frames(line.getThrown()));
      }
      return WRITER.writeValueAsString(keys) + "\n";
    }

    private static List<String> errors(Throwable thrown) {
      List<String> classes = new ArrayList<>();
      for (Throwable t = thrown; t != null && classes.size() < FRAMES; t = t.getCause()) {
        classes.add(t.getClass().getName());
      }
      return classes;
    }

    /** The innermost cause says where it was. */
    private static List<String> frames(Throwable thrown) {
      Throwable root = thrown;
      for (int i = 0; root.getCause() != null && i < FRAMES; i++) {
        root = root.getCause();
      }
      return List.of(root.getStackTrace()).stream()
          .limit(FRAMES)
          .map(StackTraceElement::toString)
          .toList();
    }
  }
}
