package org.barmap;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Supplier;

/** A port of this machine that passes on to another one, as long as it is open. */
public final class PassingPort implements AutoCloseable {

  /** Sees what goes through one connection. */
  @FunctionalInterface
  public interface Watch {
    /**
     * Returns whether bytes go on; if not the connection ends.
     *
     * @param asked whether they come from who connected, and are no answer
     */
    boolean passes(byte[] some, int count, boolean asked) throws InterruptedException;
  }

  private final ServerSocket door;
  private final int to;
  private final Supplier<Watch> watches;
  private final Set<Socket> open = ConcurrentHashMap.newKeySet();
  private volatile boolean shut;

  /**
   * Opens a port.
   *
   * @param watches one for each connection
   */
  public PassingPort(int to, Supplier<Watch> watches) throws IOException {
    this.to = to;
    this.watches = watches;
    door = new ServerSocket(0, 50, InetAddress.getLoopbackAddress());
    start(this::accept);
  }

  private static void start(Runnable task) {
    Thread thread = new Thread(task, "passing-port");
    thread.setDaemon(true);
    thread.start();
  }

  public int port() {
    return door.getLocalPort();
  }

  private void accept() {
    while (!door.isClosed()) {
      try {
        Socket here = door.accept();
        if (shut) {
          here.close();
          continue;
        }
        Socket there = new Socket(InetAddress.getLoopbackAddress(), to);
        open.add(here);
        open.add(there);
        Watch watch = watches.get();
        start(() -> pass(here, there, watch, true));
        start(() -> pass(there, here, watch, false));
      } catch (IOException e) {
        if (!door.isClosed()) {
          throw new UncheckedIOException(e);
        }
      }
    }
  }

  private void pass(Socket from, Socket into, Watch watch, boolean asked) {
    try (from;
        into) {
      InputStream in = from.getInputStream();
      OutputStream out = into.getOutputStream();
      byte[] some = new byte[8192];
      for (int n = in.read(some); n >= 0 && watch.passes(some, n, asked); n = in.read(some)) {
        out.write(some, 0, n);
        out.flush();
      }
    } catch (IOException e) {
      open.remove(from);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  /** Ends every connection and takes no other. */
  public void shut() {
    shut = true;
    for (Socket socket : open) {
      try {
        socket.close();
      } catch (IOException e) {
        // it is closed
      }
    }
    open.clear();
  }

  /** Takes connections again. */
  public void reopen() {
    shut = false;
  }

  @Override
  public void close() throws IOException {
    door.close();
    shut();
  }
}
