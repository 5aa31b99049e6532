package org.barmap.work.engine;

import java.io.File;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.charset.Charset;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

/**
 * One run of an engine. Where there is a shell and {@code setsid} it gets a process group of its
 * own behind a guard, which ends the whole group when the engine ends, and when the pipe from this
 * program closes: we close it, or die. Elsewhere the processes that are seen to descend from it are
 * ended.
 */
final class EngineProcess {

  /** Why a run ended. */
  enum End {
    DONE,
    FAILED,
    TIME,
    TOO_MUCH
  }

  /**
   * How a run ended.
   *
   * @param code the exit code; 0 is good
   * @param said the end of what it printed
   */
  record Result(End end, int code, String said) {}

  /** The guard: starts its arguments as a group, ends the group with the engine or the pipe. */
  private static final String GUARD =
      """
      exec 3<&0
      setsid "$@" 3<&- </dev/null & p=$!
      ( read x <&3; kill -s KILL -- "-$p" || kill -s KILL "$p" ) >/dev/null 2>&1 & w=$!
      exec 3<&-
      wait "$p"; code=$?
      kill -s KILL -- "-$p" 2>/dev/null
      kill -s KILL "$w" 2>/dev/null
      exit "$code"
      """;

  private static final List<String> KEYS = List.of("BARMAP_", "AWS_", "PGPASS");

  private static final Path SHELL = Path.of("/bin/sh");

  private final Process process;
  private final boolean guarded;
  private final Tail said;

  private EngineProcess(Process process, boolean guarded, int console) {
    this.process = process;
    this.guarded = guarded;
    this.said = new Tail(process.getInputStream(), console);
  }

  /**
   * Runs a command to its end, or ends it.
   *
   * @param words program and arguments
   * @param folder where it runs, with a folder {@code tmp} inside for what it keeps meanwhile
   * @param time for all of it
   * @throws IOException when it can't be started
   * @throws InterruptedException after it was ended
   */
  static Result run(List<String> words, Path folder, Duration time, EngineLimits limits)
      throws IOException, InterruptedException {
    boolean guarded = Files.isExecutable(SHELL) && onPath("setsid");
    List<String> command = new ArrayList<>();
    if (guarded) {
      command.addAll(List.of(SHELL.toString(), "-c", GUARD, "engine"));
    }
    command.addAll(words);
    ProcessBuilder builder = new ProcessBuilder(command);
    builder.directory(folder.toFile()).redirectErrorStream(true);
    withoutKeys(builder.environment());
    builder.environment().put("TMPDIR", Files.createDirectory(folder.resolve("tmp")).toString());
    return new EngineProcess(builder.start(), guarded, limits.console())
        .finish(folder, time, limits);
  }

  /** Passwords and keys of this program's own stores are nothing for another program. */
  static void withoutKeys(Map<String, String> environment) {
    environment.keySet().removeIf(name -> KEYS.stream().anyMatch(name::startsWith));
  }

  private Result finish(Path folder, Duration time, EngineLimits limits)
      throws InterruptedException {
    try {
      if (!guarded) {
        close();
      }
      long end = System.nanoTime() + time.toNanos();
      while (!process.waitFor(limits.look().toMillis(), TimeUnit.MILLISECONDS)) {
        if (System.nanoTime() > end) {
          return new Result(End.TIME, -1, said.text());
        }
        if (bytes(folder) > limits.bytes()) {
          return new Result(End.TOO_MUCH, -1, said.text());
        }
      }
      End how =
          bytes(folder) > limits.bytes()
              ? End.TOO_MUCH
              : process.exitValue() == 0 ? End.DONE : End.FAILED;
      return new Result(how, process.exitValue(), said.end());
    } finally {
      end();
    }
  }

  /** Ends whatever of it is left; returns when the guard has seen the end. */
  private void end() {
    List<ProcessHandle> left = process.descendants().toList();
    close();
    if (guarded) {
      boolean interrupted = Thread.interrupted();
      try {
        process.waitFor(5, TimeUnit.SECONDS);
      } catch (InterruptedException e) {
        interrupted = true;
      }
      if (interrupted) {
        Thread.currentThread().interrupt();
      }
    }
    left.forEach(ProcessHandle::destroyForcibly);
    process.destroyForcibly();
  }

  private void close() {
    try {
      process.getOutputStream().close();
    } catch (IOException e) {
      // it has ended already
      return;
    }
  }

  private static boolean onPath(String program) {
    String path = System.getenv("PATH");
    return Arrays.stream((path == null ? "" : path).split(File.pathSeparator))
        .filter(p -> !p.isEmpty())
        .anyMatch(p -> Files.isExecutable(Path.of(p, program)));
  }

  /** What lies in a folder and below; bytes. Files come and go meanwhile. */
  private static long bytes(Path folder) {
    try (Stream<Path> files = Files.walk(folder)) {
      return files.mapToLong(EngineProcess::size).sum();
    } catch (IOException | UncheckedIOException e) {
      return 0;
    }
  }

  private static long size(Path file) {
    try {
      return Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS) ? Files.size(file) : 0;
    } catch (IOException e) {
      return 0;
    }
  }

  /** Takes what a process prints, and keeps the end of it. */
  private static final class Tail {
    private final StringBuilder kept = new StringBuilder();
    private final int most;
    private final Thread thread;

    Tail(InputStream from, int most) {
      this.most = most;
      this.thread = new Thread(() -> drain(from), "barmap-engine-says");
      thread.setDaemon(true);
      thread.start();
    }

    private void drain(InputStream from) {
      char[] buffer = new char[4096];
      try (Reader in = new InputStreamReader(from, Charset.defaultCharset())) {
        for (int n = in.read(buffer); n >= 0; n = in.read(buffer)) {
          synchronized (kept) {
            kept.append(buffer, 0, n);
            kept.delete(0, Math.max(0, kept.length() - most));
          }
        }
      } catch (IOException e) {
        // the process was ended while it spoke
        return;
      }
    }

    String text() {
      synchronized (kept) {
        return kept.toString();
      }
    }

    /** The same when it has said everything; a process left behind may hold its pipe open. */
    String end() throws InterruptedException {
      thread.join(2_000);
      return text();
    }
  }
}
