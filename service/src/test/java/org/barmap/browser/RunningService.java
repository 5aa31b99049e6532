package org.barmap.browser;

import java.io.BufferedReader;
import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.regex.MatchResult;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.ShortLived;
import org.barmap.cli.ServiceHere;

/**
 * What {@code barmap serve} starts, on a free port, with a data folder of its own: as a process,
 * where it is killed or the command itself is looked at, or in the process of the tests.
 */
public final class RunningService implements AutoCloseable {

  private static final Pattern ENTRY =
      Pattern.compile("(http://127\\.0\\.0\\.1:\\d+)/open\\?key=([\\w-]+)");

  private final Running running;
  private final String base;
  private final String key;

  private RunningService(Running running, MatchResult entry) {
    this.running = running;
    this.base = entry.group(1);
    this.key = entry.group(2);
  }

  /** What can be ended. */
  private interface Running {

    /** Ends it in good order. */
    void close();

    /** Ends it at once, where it can be. */
    default void kill() {
      close();
    }
  }

  /** A process of its own. */
  private record Own(Process process) implements Running {

    @Override
    public void kill() {
      process.destroyForcibly();
      process.onExit().join();
    }

    @Override
    public void close() {
      process.destroy();
      try {
        if (!process.waitFor(20, TimeUnit.SECONDS)) {
          process.destroyForcibly();
        }
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        process.destroyForcibly();
      }
    }
  }

  /** Starts the service in this process. */
  public static RunningService here(Path data) {
    return here(data, Optional.empty());
  }

  /** Starts the service in this process at a port. */
  static RunningService here(Path data, Optional<Integer> port) {
    ServiceHere service = ServiceHere.start(data, port);
    Matcher entry = ENTRY.matcher(service.entry());
    if (!entry.find()) {
      throw new AssertionError("no entry: " + service.entry());
    }
    return new RunningService(service::close, entry.toMatchResult());
  }

  /** Starts the service as a process and waits until it says where it is. */
  public static RunningService start(Path data) {
    return start(data, "", List.of());
  }

  /**
   * Starts the service as a process.
   *
   * @param before what is looked for classes and files in first, empty for nothing
   * @param more what is said to {@code barmap serve} besides the folder
   */
  public static RunningService start(Path data, String before, List<String> more) {
    String path =
        (before.isEmpty() ? "" : before + File.pathSeparator)
            + System.getProperty("surefire.test.class.path", System.getProperty("java.class.path"));
    String home = "-Dbarmap.home=" + System.getProperty("barmap.home", "..");
    List<String> command = ShortLived.java("-Xmx2g", home, "-cp", path);
    command.addAll(List.of("org.barmap.cli.Main", "serve", "--data", data.toString()));
    command.addAll(more);
    try {
      Path errors = Files.createTempFile("barmap-serve", ".log");
      Process process = new ProcessBuilder(command).redirectError(errors.toFile()).start();
      return new RunningService(new Own(process), entry(process, errors));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static MatchResult entry(Process process, Path errors) throws IOException {
    CompletableFuture<MatchResult> found = new CompletableFuture<>();
    Thread reader = new Thread(() -> read(process, found), "barmap-serve-output");
    reader.setDaemon(true);
    reader.start();
    try {
      return found.get(60, TimeUnit.SECONDS);
    } catch (InterruptedException | ExecutionException | TimeoutException e) {
      process.destroyForcibly();
      throw new AssertionError("the service did not start: " + Files.readString(errors), e);
    }
  }

  /** Reads on to the end, so that the service never waits for a full pipe. */
  private static void read(Process process, CompletableFuture<MatchResult> found) {
    try (BufferedReader lines = process.inputReader(StandardCharsets.UTF_8)) {
      String line = lines.readLine();
      while (line != null) {
        Matcher matcher = ENTRY.matcher(line);
        if (matcher.find()) {
          found.complete(matcher.toMatchResult());
        }
        line = lines.readLine();
      }
      found.completeExceptionally(new IOException("it ended"));
    } catch (IOException e) {
      found.completeExceptionally(e);
    }
  }

  /** Returns the address, without a slash at its end. */
  public String base() {
    return base;
  }

  /** Returns the owner's key. */
  public String key() {
    return key;
  }

  /** Returns the address that it prints, which a browser opens once. */
  public String entry() {
    return base + "/open?key=" + key;
  }

  /** Ends it at once, as a power cut does, where it is a process; else in good order. */
  void kill() {
    running.kill();
  }

  @Override
  public void close() {
    running.close();
  }
}
