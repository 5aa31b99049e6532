package org.barmap.cli.out;

import java.io.FilterOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.util.Optional;

/** Where a command's answer goes: it remembers what went wrong, which print writers forget. */
public final class Answers extends FilterOutputStream {

  private Optional<IOException> trouble = Optional.empty();

  public Answers(OutputStream to) {
    super(to);
  }

  @Override
  public void write(byte[] bytes, int from, int length) throws IOException {
    try {
      out.write(bytes, from, length);
    } catch (IOException e) {
      trouble = Optional.of(e);
      throw e;
    }
  }

  @Override
  public void write(int b) throws IOException {
    write(new byte[] {(byte) b}, 0, 1);
  }

  /** Returns why the answer did not arrive whole; empty when it did. */
  public Optional<IOException> trouble() {
    return trouble;
  }

  /** Tells whether whoever read it wanted no more, as {@code head} does. */
  public static boolean isUnwanted(IOException trouble) {
    return String.valueOf(trouble.getMessage()).contains("Broken pipe");
  }
}
