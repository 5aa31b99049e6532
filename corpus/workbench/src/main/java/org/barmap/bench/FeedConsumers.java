package org.barmap.bench;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.atomic.AtomicLong;
import java.util.concurrent.locks.LockSupport;

/**
 * Programs that ask again and again whether there is something new, each with a connection of its
 * own; one thread asks for all of them in turn.
 */
final class FeedConsumers implements AutoCloseable {

  private final List<Consumer> consumers = new ArrayList<>();
  private final AtomicLong asked = new AtomicLong();
  private final AtomicLong whole = new AtomicLong();
  private volatile boolean stopped;
  private volatile String failure = "";
  private Thread thread = new Thread(() -> {});

  /** One of them; what it knows is the tag it was given last. */
  private static final class Consumer {
    private final int port;
    private Socket socket;
    private InputStream in;
    private String tag = "";

    Consumer(int port) throws IOException {
      this.port = port;
      socket = new Socket("127.0.0.1", port);
      in = connected();
    }

    private InputStream connected() throws IOException {
      socket.setTcpNoDelay(true);
      return new BufferedInputStream(socket.getInputStream());
    }

    /** Asks once, over a new connection where the service has closed the one that lay idle. */
    boolean ask(String head) throws IOException {
      try {
        return askOnce(head);
      } catch (IOException e) {
        socket.close();
        socket = new Socket("127.0.0.1", port);
        in = connected();
        return askOnce(head);
      }
    }

    /** Asks once; tells whether it was given the whole. */
    private boolean askOnce(String head) throws IOException {
      String known = tag.isEmpty() ? "" : "If-None-Match: " + tag + "\r\n";
      socket.getOutputStream().write((head + known + "\r\n").getBytes(StandardCharsets.US_ASCII));
      String status = line();
      long length = 0;
      for (String line = line(); !line.isEmpty(); line = line()) {
        int colon = line.indexOf(':');
        String value = line.substring(colon + 1).strip();
        switch (line.substring(0, colon).toLowerCase(Locale.ROOT)) {
          case "etag" -> tag = value;
          case "content-length" -> length = Long.parseLong(value);
          default -> {
            // nothing else is asked for
          }
        }
      }
      boolean given = status.contains(" 200 ");
      if (!given && !status.contains(" 304 ")) {
        throw new IOException(status);
      }
      if (given) {
        in.skipNBytes(length);
      }
      return given;
    }

    private String line() throws IOException {
      StringBuilder line = new StringBuilder();
      for (int c = in.read(); c != '\n'; c = in.read()) {
        if (c < 0) {
          throw new IOException("the connection ended");
        }
        if (c != '\r') {
          line.append((char) c);
        }
      }
      return line.toString();
    }
  }

  /** Connects so many, each of which has the newest one already. */
  FeedConsumers(int many, int port) throws IOException {
    for (int i = 0; i < many; i++) {
      consumers.add(new Consumer(port));
    }
  }

  /**
   * Begins to ask.
   *
   * @param head request line and header fields
   * @param everySeconds how long each of them waits between two questions; 0 for not at all
   */
  void begin(String head, double everySeconds) {
    stopped = false;
    long step = (long) (everySeconds * 1e9 / consumers.size());
    thread = new Thread(() -> ask(head, step), "consumers");
    thread.start();
  }

  private void ask(String head, long step) {
    long next = System.nanoTime();
    try {
      for (int i = 0; !stopped; i = (i + 1) % consumers.size()) {
        if (consumers.get(i).ask(head)) {
          whole.incrementAndGet();
        }
        asked.incrementAndGet();
        next += step;
        LockSupport.parkNanos(next - System.nanoTime());
      }
    } catch (IOException e) {
      failure = e.toString();
    }
  }

  /** Stops asking. */
  void end() throws IOException {
    stopped = true;
    try {
      thread.join();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    if (!failure.isEmpty()) {
      throw new IOException(failure);
    }
  }

  /** How often it was asked so far. */
  long asked() {
    return asked.get();
  }

  /** How often the whole was given so far. */
  long whole() {
    return whole.get();
  }

  @Override
  public void close() throws IOException {
    end();
    for (Consumer consumer : consumers) {
      consumer.socket.close();
    }
  }
}
