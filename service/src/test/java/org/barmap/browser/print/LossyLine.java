package org.barmap.browser.print;

import java.io.IOException;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.regex.Pattern;
import org.barmap.PassingPort;

/**
 * A line to a service that breaks off: what is asked comes to the service, and of what it answers
 * nothing comes back; then nothing comes through until the line is mended.
 */
final class LossyLine implements AutoCloseable {

  private static final Pattern NOTHING = Pattern.compile("(?!)");

  private final PassingPort line;
  private volatile Pattern loses = NOTHING;
  private volatile CountDownLatch lost = new CountDownLatch(1);

  /** Opens a line to a service on this machine. */
  LossyLine(String base) throws IOException {
    line = new PassingPort(URI.create(base).getPort(), Losing::new);
  }

  /** Returns where the service is found by this line. */
  String base() {
    return "http://127.0.0.1:" + line.port();
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
    loses = NOTHING;
    line.reopen();
  }

  /** One connection. */
  private final class Losing implements PassingPort.Watch {
    private volatile boolean loses;

    @Override
    public boolean passes(byte[] some, int count, boolean asked) {
      if (asked) {
        String text = new String(some, 0, count, StandardCharsets.ISO_8859_1);
        loses |= LossyLine.this.loses.matcher(text).find();
        return true;
      }
      if (loses) {
        line.shut();
        lost.countDown();
      }
      return !loses;
    }
  }

  @Override
  public void close() throws IOException {
    line.close();
  }
}
