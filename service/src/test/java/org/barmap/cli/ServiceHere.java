package org.barmap.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.Optional;
import org.barmap.work.child.ChildReader;

/**
 * What {@code barmap serve} opens, in the process of the tests: its code is compiled once for all
 * of them, where a process of its own begins anew. It reads in a child process, as always.
 */
public final class ServiceHere implements AutoCloseable {

  private final Service service;
  private final String entry;

  private ServiceHere(Service service, Optional<Integer> port) {
    this.service = service;
    this.entry = service.start(port).entry();
  }

  /**
   * Starts it on a data folder.
   *
   * @param port empty for the next free one
   */
  public static ServiceHere start(Path data, Optional<Integer> port) {
    try {
      return new ServiceHere(Service.open(data, new ChildReader(ReadingMain.class)), port);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Returns the address that opens it with the owner's key. */
  public String entry() {
    return entry;
  }

  @Override
  public void close() {
    service.close();
  }
}
