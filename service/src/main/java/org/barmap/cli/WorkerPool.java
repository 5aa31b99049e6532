package org.barmap.cli;

import java.util.ArrayList;
import java.util.List;
import org.barmap.library.Library;
import org.barmap.work.Events;
import org.barmap.work.PageReader;
import org.barmap.work.Worker;
import org.barmap.work.child.ChildReader;

/** The workers of a process; each reads in a child process of its own. */
final class WorkerPool implements AutoCloseable {

  private final Library library;
  private final Events events;
  private final List<Worker> workers = new ArrayList<>();
  private final List<PageReader> readers = new ArrayList<>();

  /**
   * Makes one.
   *
   * @param first the worker that requests are answered with; whoever opened its reader closes it
   */
  WorkerPool(Library library, Events events, Worker first) {
    this.library = library;
    this.events = events;
    workers.add(first);
  }

  /** Starts so many workers; with none the first one still answers requests. */
  synchronized void start(int many) {
    while (workers.size() < many) {
      PageReader reader = new ChildReader(ReadingMain.class);
      readers.add(reader);
      workers.add(new Worker(library, reader, events));
    }
    workers.subList(0, many).forEach(Worker::start);
  }

  /** Says that nothing is to be begun any more. */
  synchronized void stop() {
    workers.forEach(Worker::stop);
  }

  /** Stops and waits for the pages at hand. */
  @Override
  public synchronized void close() {
    stop();
    workers.forEach(Worker::close);
    readers.forEach(PageReader::close);
  }
}
