package org.barmap.bench.trust;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.barmap.bench.trust.Asked.Answer;
import org.barmap.cli.Main;
import org.barmap.cli.run.Home;
import org.barmap.web.access.Keys;

/** A service in a process of its own, on a data folder of its own, that can be killed. */
final class Served implements AutoCloseable {

  private static final int START_SECONDS = 120;
  private static final int STEP_MILLIS = 50;

  private final Path folder;
  private final int port;
  private final List<String> options;
  private Process process;
  private Asked asked;
  private boolean kept;

  /**
   * Starts a service.
   *
   * @param options of {@code barmap serve}, besides folder and port
   */
  Served(List<String> options) throws IOException {
    this.options = List.copyOf(options);
    folder = Files.createTempDirectory("barmap-bench");
    try (ServerSocket free = new ServerSocket(0)) {
      port = free.getLocalPort();
    }
    process = begin();
    asked = ready();
  }

  private Process begin() throws IOException {
    List<String> all = new ArrayList<>(List.of("--port", "" + port));
    all.addAll(options);
    return begin(all);
  }

  /** Starts a process that only reads pages, on the folder of this service and its database. */
  Process worker(List<String> shared) throws IOException {
    List<String> all = new ArrayList<>(shared);
    all.add("--only-work");
    return begin(all);
  }

  private Process begin(List<String> more) throws IOException {
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(List.of("-Xmx1g", "-Djava.awt.headless=true"));
    // in a short test as the test itself runs: the second compiler would not pay
    ManagementFactory.getRuntimeMXBean().getInputArguments().stream()
        .filter(o -> o.startsWith("-XX:TieredStopAtLevel") || o.equals("-XX:+UseSerialGC"))
        .forEach(command::add);
    command.addAll(List.of("-Dbarmap.home=" + Home.folder(), "-cp"));
    command.addAll(List.of(System.getProperty("java.class.path"), Main.class.getName()));
    command.addAll(List.of("serve", "--data", data().toString()));
    command.addAll(more);
    return new ProcessBuilder(command)
        .redirectErrorStream(true)
        .redirectOutput(ProcessBuilder.Redirect.appendTo(folder.resolve("said").toFile()))
        .start();
  }

  private Asked ready() throws IOException {
    long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(START_SECONDS);
    Asked nobody = new Asked(port, "");
    while (System.nanoTime() < end && process.isAlive()) {
      try {
        if (nobody.get("/health/ready").isDone()) {
          return new Asked(port, Keys.of(data(), InstantSource.system()).owner());
        }
      } catch (IOException e) {
        // it does not listen yet
      }
      Pause.of(STEP_MILLIS);
    }
    throw new IOException("the service did not start: " + said());
  }

  Path data() {
    return folder.resolve("data");
  }

  /** Returns what asks it now. */
  Asked asked() {
    return asked;
  }

  long pid() {
    return process.pid();
  }

  /** Returns the process that reads pages, if there is one. */
  Optional<ProcessHandle> reader() {
    return readers().stream().findFirst();
  }

  /** Returns the processes that read pages for it. */
  List<ProcessHandle> readers() {
    return process.toHandle().children().toList();
  }

  /** Returns all it printed, over all its starts. */
  String said() throws IOException {
    return Files.readString(folder.resolve("said"));
  }

  /** Returns what it wrote into its log. */
  String logged() throws IOException {
    Path log = data().resolve("barmap.0.log");
    return Files.exists(log) ? Files.readString(log) : "";
  }

  boolean isAlive() {
    return process.isAlive();
  }

  /**
   * Ends the process, and starts it again.
   *
   * @param politely with a signal that it hears, else as a power cut does
   */
  void again(boolean politely) throws IOException {
    end(politely);
    start();
  }

  /** Ends the process, as again does. */
  void end(boolean politely) throws IOException {
    List<ProcessHandle> children = readers();
    if (politely) {
      process.destroy();
    } else {
      process.destroyForcibly();
    }
    process.onExit().join();
    if (politely && process.exitValue() != 0) {
      throw new IOException("told to end it ended with " + process.exitValue() + ": " + said());
    }
    // a reader without its service ends by itself; here the next one is not to share the cores
    children.forEach(ProcessHandle::destroyForcibly);
  }

  /** Starts it again. */
  void start() throws IOException {
    process = begin();
    asked = ready();
  }

  /** Makes a book. */
  String book(String title) throws IOException {
    Answer made = asked.post("/api/books", "{\"title\":\"" + title + "\",\"part\":\"Bass\"}");
    if (!made.isDone()) {
      throw new IOException(made.text());
    }
    return made.json().path("id").asString("");
  }

  /** Waits until nothing of a book is read or waits to be; one in the bin is not waited for. */
  void awaitRead(String book) throws IOException {
    Answer now = asked.get("/api/books/" + book);
    while (now.status() >= 500 || now.isDone() && !now.json().path("job").isMissingNode()) {
      Pause.of(STEP_MILLIS);
      now = asked.get("/api/books/" + book);
    }
  }

  /** Lets the folder stay when this is closed; returns it. */
  Path keep() {
    kept = true;
    return folder;
  }

  @Override
  public void close() throws IOException {
    process.destroy();
    process.onExit().join();
    if (kept) {
      return;
    }
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(file);
      }
    }
  }
}
