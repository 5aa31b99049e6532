package org.barmap.web.lost;

import java.io.IOException;
import org.barmap.PassingPort;

/** A port that passes on to another one, until the line is cut or nothing gets through any more. */
final class LooseLine implements AutoCloseable {

  private final PassingPort line;
  private boolean stuck;
  private long left = Long.MAX_VALUE;

  LooseLine(int to) throws IOException {
    line =
        new PassingPort(
            to,
            () ->
                (some, count, asked) -> {
                  waitWhileStuck(count);
                  return true;
                });
  }

  int port() {
    return line.port();
  }

  private synchronized void waitWhileStuck(int bytes) throws InterruptedException {
    left -= bytes;
    stuck |= left < 0;
    while (stuck) {
      wait();
    }
  }

  /** Ends every connection and takes no other. */
  void cut() {
    line.shut();
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
    line.reopen();
    stuck = false;
    left = Long.MAX_VALUE;
    notifyAll();
  }

  @Override
  public void close() throws IOException {
    mend();
    line.close();
  }
}
