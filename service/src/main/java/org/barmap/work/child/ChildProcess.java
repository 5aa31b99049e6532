package org.barmap.work.child;

import java.io.BufferedOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.EOFException;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import org.barmap.library.keep.OwnFolder;
import org.barmap.page.pixel.LibraryFolder;
import org.barmap.work.child.LostException.Why;

/** A running child, as the service sees it. */
final class ChildProcess {

  private static final Answer GONE = Answer.plain(Answer.Kind.GONE, "");

  /**
   * What of this program's own options holds for the child too: its archive of classes, how it
   * compiles and collects.
   */
  private static final List<String> PASSED_ON =
      List.of(
          "-D",
          "-XX:SharedArchiveFile",
          "-Xshare",
          "-Xlog:cds",
          "-XX:TieredStopAtLevel",
          "-XX:+UseSerialGC");

  /** 128 and the number of a signal: SIGKILL, SIGTERM (as Java gives the end of a process). */
  private static final Set<Integer> KILLS = Set.of(128 + 9, 128 + 15);

  private static final int ENDING_SECONDS = 5;

  /** Where this program found libraries in machine code; each child would unpack its own. */
  private static final List<String> LIBRARIES =
      List.of("onnxruntime.native.path", LibraryFolder.PROPERTY);

  private final Process process;
  private final DataOutputStream questions;
  private final Map<Long, BlockingQueue<Answer>> waiting = new ConcurrentHashMap<>();
  private volatile Why why = Why.GONE;
  private volatile boolean over;

  private final Path temporary;

  private ChildProcess(Process process, Path temporary) {
    this.process = process;
    this.temporary = temporary;
    this.questions = new DataOutputStream(new BufferedOutputStream(process.getOutputStream()));
  }

  /** Starts one; it has loaded no models yet. */
  static ChildProcess start(Class<?> main, int heap) throws IOException {
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    for (String option : ManagementFactory.getRuntimeMXBean().getInputArguments()) {
      if (PASSED_ON.stream().anyMatch(option::startsWith)) {
        command.add(option);
      }
    }
    LibraryFolder.choose();
    for (String library : LIBRARIES) {
      Optional.ofNullable(System.getProperty(library))
          .ifPresent(folder -> command.add("-D" + library + "=" + folder));
    }
    OwnFolder temporary = ChildFolder.make();
    command.addAll(
        List.of(
            ChildFolder.option(temporary.path()),
            "-Xmx" + heap + "m",
            "-Djava.awt.headless=true",
            "-XX:+DisplayVMOutputToStderr",
            "-XX:-CreateCoredumpOnCrash",
            "-XX:ErrorFile=" + Path.of(System.getProperty("java.io.tmpdir"), "barmap-crash-%p.log"),
            "-cp",
            System.getProperty("java.class.path"),
            main.getName()));
    ChildProcess child;
    try {
      child =
          new ChildProcess(
              new ProcessBuilder(command).redirectError(ProcessBuilder.Redirect.DISCARD).start(),
              temporary.path());
    } catch (IOException e) {
      temporary.close();
      throw e;
    }
    child.process.onExit().thenRun(temporary::close);
    Thread thread = new Thread(child::listen, "barmap-child-answers");
    thread.setDaemon(true);
    thread.start();
    return child;
  }

  private void listen() {
    try (DataInputStream answers = new DataInputStream(process.getInputStream())) {
      while (true) {
        Answer answer = Frames.read(answers, Answer.class);
        Optional.ofNullable(waiting.get(answer.ask())).ifPresent(q -> q.add(answer));
      }
    } catch (IOException e) {
      if (e instanceof EOFException && hasEnded() && KILLS.contains(process.exitValue())) {
        why = why == Why.GONE ? Why.KILLED : why;
      }
      process.destroyForcibly();
      over = true;
      waiting.values().forEach(q -> q.add(GONE));
    }
  }

  /** Waits for the end of a process that says nothing more: how it ended is told by its code. */
  private boolean hasEnded() {
    try {
      return process.waitFor(ENDING_SECONDS, TimeUnit.SECONDS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return false;
    }
  }

  boolean isOver() {
    return over;
  }

  /** Returns its folder for what it needs in passing. */
  Path temporary() {
    return temporary;
  }

  long pid() {
    return process.pid();
  }

  /** Ends it at once. */
  void kill(Why reason) {
    why = reason;
    process.destroyForcibly();
  }

  /**
   * Asks and takes every answer.
   *
   * @param most how long each answer may take
   * @throws LostException when the child ended before all had come, or was ended for its slowness
   * @throws IOException when something could not be written to the disk
   */
  void ask(Ask ask, Duration most, Consumer<Answer> taker) throws IOException {
    BlockingQueue<Answer> answers = new LinkedBlockingQueue<>();
    waiting.put(ask.id(), answers);
    try {
      send(ask);
      for (Answer a = next(answers, most); a.kind() != Answer.Kind.END; a = next(answers, most)) {
        taker.accept(a);
      }
    } finally {
      waiting.remove(ask.id());
    }
  }

  private void send(Ask ask) {
    try {
      Frames.write(questions, ask);
    } catch (IOException e) {
      throw new LostException(why);
    }
  }

  private Answer next(BlockingQueue<Answer> answers, Duration most) throws IOException {
    Answer answer = over && answers.isEmpty() ? GONE : polled(answers, most);
    switch (answer.kind()) {
      case GONE -> throw new LostException(why);
      case NOT_KEPT -> throw new IOException(answer.text().orElse(""));
      case FAILED -> throw new IllegalStateException(answer.text().orElse(""));
      default -> {
        return answer;
      }
    }
  }

  /** Waits; whoever is interrupted meanwhile goes on waiting, and is so afterwards. */
  private Answer polled(BlockingQueue<Answer> answers, Duration most) {
    long end = System.nanoTime() + most.toNanos();
    boolean interrupted = false;
    try {
      while (true) {
        try {
          Answer answer = answers.poll(end - System.nanoTime(), TimeUnit.NANOSECONDS);
          if (answer == null) {
            process.destroyForcibly();
            throw new LostException(Why.TIME);
          }
          return answer;
        } catch (InterruptedException e) {
          interrupted = true;
        }
      }
    } finally {
      if (interrupted) {
        Thread.currentThread().interrupt();
      }
    }
  }
}
