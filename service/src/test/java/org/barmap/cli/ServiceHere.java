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

  private ServiceHere(Service service) {
    this.service = service;
    this.entry = service.start(Optional.empty()).entry();
  }

  /** Starts it on a data folder, on the next free port. */
  public static ServiceHere start(Path data) {
    try {
      return new ServiceHere(Service.open(data, new ChildReader(ReadingMain.class)));
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
