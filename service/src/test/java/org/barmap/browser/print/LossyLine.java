package org.barmap.browser.print;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.regex.Pattern;

/**
 * A line to a service that breaks off: what is asked comes to the service, and of what it answers
 * nothing comes back; then nothing comes through until the line is mended.
 */
final class LossyLine implements AutoCloseable {

  private final ServerSocket here;
  private final int there;
  private final ConcurrentLinkedQueue<Socket> open = new ConcurrentLinkedQueue<>();
  private volatile Pattern loses = Pattern.compile("(?!)");
  private volatile CountDownLatch lost = new CountDownLatch(1);
  private volatile boolean cut;

  /** Opens a line to a service on this machine. */
  LossyLine(String base) throws IOException {
    here = new ServerSocket(0, 50, InetAddress.getLoopbackAddress());
    there = URI.create(base).getPort();
    start(this::listen);
  }

  /** Returns where the service is found by this line. */
  String base() {
    return "http://127.0.0.1:" + here.getLocalPort();
  }

  /**
   * Breaks the line off as soon as something was taken.
   *
   * @param request its method and address, as a pattern
   */
  void breakAfter(String request) {
    lost = new CountDownLatch(1);
    loses = Pattern.compile(request + "[^\\r]* HTTP/1.1\\r");
  }

  /** Waits until the answer that was to be lost is lost. */
  void isLost() throws InterruptedException {
    if (!lost.await(30, TimeUnit.SECONDS)) {
      throw new AssertionError("nothing was asked that is to be lost");
    }
  }

  /** Lets all through again. */
  void mend() {
    loses = Pattern.compile("(?!)");
    cut = false;
  }

  private void listen() {
    while (!here.isClosed()) {
      try {
        Socket from = here.accept();
        if (cut) {
          from.close();
          continue;
        }
        Socket to = new Socket(InetAddress.getLoopbackAddress(), there);
        open.add(from);
        open.add(to);
        Line line = new Line(from, to);
        start(line::ask);
        start(line::answer);
      } catch (IOException e) {
        // closed
      }
    }
  }

  private static void start(Runnable run) {
    Thread thread = new Thread(run, "lossy-line");
    thread.setDaemon(true);
    thread.start();
  }

  /** One connection. */
  private final class Line {
    private final Socket from;
    private final Socket to;
    private volatile boolean loses;

    Line(Socket from, Socket to) {
      this.from = from;
      this.to = to;
    }

    void ask() {
      try (InputStream in = from.getInputStream();
          OutputStream out = to.getOutputStream()) {
        byte[] some = new byte[1 << 16];
        for (int n = in.read(some); n >= 0; n = in.read(some)) {
          String text = new String(some, 0, n, StandardCharsets.ISO_8859_1);
          if (LossyLine.this.loses.matcher(text).find()) {
            loses = true;
          }
          out.write(some, 0, n);
          out.flush();
        }
      } catch (IOException e) {
        // the other end is closed
      }
    }

    void answer() {
      try (InputStream in = to.getInputStream();
          OutputStream out = from.getOutputStream()) {
        byte[] some = new byte[1 << 16];
        for (int n = in.read(some); n >= 0; n = in.read(some)) {
          if (loses) {
            cut = true;
            closeAll();
            lost.countDown();
            return;
          }
          out.write(some, 0, n);
          out.flush();
        }
      } catch (IOException e) {
        // the other end is closed
      }
    }
  }

  private void closeAll() {
    for (Socket socket = open.poll(); socket != null; socket = open.poll()) {
      try {
        socket.close();
      } catch (IOException e) {
        // it is closed
      }
    }
  }

  @Override
  public void close() throws IOException {
    here.close();
    closeAll();
  }
}
