package org.barmap.library.keep;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.DigestInputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.Optional;

/**
 * How a file was when it was kept.
 *
 * @param bytes its size
 * @param sha256 of its bytes, in hexadecimal; empty where it was not worked out then
 */
public record PictureMark(long bytes, String sha256) {

  /** Looks at a file; empty when it can't be read. */
  public static Optional<PictureMark> of(Path file) {
    try (InputStream in = Files.newInputStream(file)) {
      return Optional.of(copy(in, OutputStream.nullOutputStream()));
    } catch (IOException e) {
      return Optional.empty();
    }
  }

  /** Looks at a file from outside only. */
  public static Optional<PictureMark> sizeOf(Path file) {
    try {
      return Optional.of(new PictureMark(Files.size(file), ""));
    } catch (IOException e) {
      return Optional.empty();
    }
  }

  /** Copies bytes and says how they were. */
  public static PictureMark copy(InputStream from, OutputStream to) throws IOException {
    MessageDigest digest = digest();
    long bytes = new DigestInputStream(from, digest).transferTo(to);
    return new PictureMark(bytes, HexFormat.of().formatHex(digest.digest()));
  }

  private static MessageDigest digest() throws IOException {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IOException(e);
    }
  }
}
