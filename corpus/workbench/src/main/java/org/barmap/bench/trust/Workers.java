package org.barmap.bench.trust;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;

/**
 * Processes that read pages for a service which only listens, on the same database. Each can be
 * killed; another one takes its place.
 */
final class Workers implements AutoCloseable {

  /** Starts one. */
  @FunctionalInterface
  interface Start {
    Process another() throws IOException;
  }

  private final Start start;
  private final Random random;
  private final List<Process> processes = new ArrayList<>();

  /** Those whose reader was killed: a page that ends two readers of one process is given up. */
  private final List<Process> spared = new ArrayList<>();

  Workers(int many, Random random, Start start) throws IOException {
    this.start = start;
    this.random = random;
    for (int i = 0; i < many; i++) {
      processes.add(start.another());
    }
  }

  /** Kills one with what reads for it, and starts another; false when it had ended by itself. */
  boolean killOne() throws IOException {
    int which = random.nextInt(processes.size());
    boolean lived = kill(processes.get(which));
    processes.set(which, start.another());
    return lived;
  }

  /** Kills all of them. */
  boolean killAll() {
    boolean lived = true;
    for (Process process : processes) {
      lived &= kill(process);
    }
    return lived;
  }

  /** Starts as many again. */
  void startAll() throws IOException {
    for (int i = 0; i < processes.size(); i++) {
      processes.set(i, start.another());
    }
  }

  private boolean kill(Process process) {
    boolean lived = process.isAlive();
    List<ProcessHandle> readers = process.toHandle().children().toList();
    process.destroyForcibly();
    process.onExit().join();
    // a reader without its service ends by itself; here the next one is not to share the cores
    readers.forEach(ProcessHandle::destroyForcibly);
    spared.remove(process);
    return lived;
  }

  /** Kills what reads for one of them; false when nothing does that may be killed. */
  boolean killReader() {
    Process process = processes.get(random.nextInt(processes.size()));
    Optional<ProcessHandle> reader = process.toHandle().children().findFirst();
    if (reader.isEmpty() || spared.contains(process)) {
      return false;
    }
    spared.add(process);
    return reader.get().destroyForcibly();
  }

  @Override
  public void close() {
    processes.forEach(Process::destroy);
    processes.forEach(process -> process.onExit().join());
  }
}
