package org.barmap.web.lost;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;

/** A port that passes on to another one, until the line is cut or nothing gets through any more. */
final class LooseLine implements AutoCloseable {

  private final ServerSocket door;
  private final int to;
  private final Set<Socket> open = ConcurrentHashMap.newKeySet();
  private volatile boolean cut;
  private boolean stuck;
  private long left = Long.MAX_VALUE;

  LooseLine(int to) throws IOException {
    this.to = to;
    door = new ServerSocket(0, 50, InetAddress.getLoopbackAddress());
    thread(this::accept);
  }

  private static void thread(Runnable task) {
    Thread thread = new Thread(task, "loose-line");
    thread.setDaemon(true);
    thread.start();
  }

  int port() {
    return door.getLocalPort();
  }

  private void accept() {
    while (!door.isClosed()) {
      try {
        Socket here = door.accept();
        if (cut) {
          here.close();
          continue;
        }
        Socket there = new Socket(InetAddress.getLoopbackAddress(), to);
        open.add(here);
        open.add(there);
        thread(() -> pass(here, there));
        thread(() -> pass(there, here));
      } catch (IOException e) {
        if (!door.isClosed()) {
          throw new UncheckedIOException(e);
        }
      }
    }
  }

  private void pass(Socket from, Socket into) {
    try (from;
        into) {
      InputStream in = from.getInputStream();
      OutputStream out = into.getOutputStream();
      byte[] some = new byte[8192];
      for (int n = in.read(some); n >= 0; n = in.read(some)) {
        waitWhileStuck(n);
        out.write(some, 0, n);
        out.flush();
      }
    } catch (IOException e) {
      open.remove(from);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private synchronized void waitWhileStuck(int bytes) throws InterruptedException {
    left -= bytes;
    stuck |= left < 0;
    while (stuck) {
      wait();
    }
  }

  /** Ends every connection and takes no other. */
  void cut() throws IOException {
    cut = true;
    for (Socket socket : open) {
      socket.close();
    }
    open.clear();
  }

  /** Lets nothing through any more, though every connection stays. */
  synchronized void stick() {
    stuck = true;
  }

  /** Lets so many more bytes through, of both ways together, and then nothing. */
  synchronized void stickAfter(long bytes) {
    left = bytes;
  }

  /** Everything is as before. */
  synchronized void mend() {
    cut = false;
    stuck = false;
    left = Long.MAX_VALUE;
    notifyAll();
  }

  @Override
  public void close() throws IOException {
    door.close();
    mend();
    cut();
  }
}
