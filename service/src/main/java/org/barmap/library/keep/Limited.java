package org.barmap.library.keep;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.util.zip.ZipException;

/** A stream that fails when more comes than was said: an entry of a zip can lie about its size. */
final class Limited extends FilterInputStream {

  private long left;

  Limited(InputStream in, long most) {
    super(in);
    left = most;
  }

  @Override
  public int read() throws IOException {
    int one = super.read();
    count(one < 0 ? 0 : 1);
    return one;
  }

  @Override
  public int read(byte[] bytes, int from, int most) throws IOException {
    int many = super.read(bytes, from, most);
    count(Math.max(0, many));
    return many;
  }

  @Override
  public long skip(long many) throws IOException {
    long skipped = super.skip(many);
    count(skipped);
    return skipped;
  }

  private void count(long many) throws IOException {
    left -= many;
    if (left < 0) {
      throw new ZipException("more than was said");
    }
  }
}
