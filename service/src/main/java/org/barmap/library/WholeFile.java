package org.barmap.library;

import java.io.IOException;
import java.io.InputStream;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;

/** Writes files whole or not at all, and so that a power cut does not lose them afterwards. */
public final class WholeFile {

  private WholeFile() {}

  /**
   * Copies a stream into a file.
   *
   * @return the number of bytes
   * @throws IOException when it can't be written whole, for instance on a full disk; then there is
   *     no file
   */
  public static long copy(InputStream from, Path to) throws IOException {
    Path folder = folderOf(to);
    Path part = Files.createTempFile(folder, ".barmap", ".part");
    try {
      long bytes = Files.copy(from, part, StandardCopyOption.REPLACE_EXISTING);
      moveInto(part, to);
      return bytes;
    } finally {
      Files.deleteIfExists(part);
    }
  }

  /** Moves a finished file of the same disk into its place. */
  public static void moveInto(Path part, Path to) throws IOException {
    try (FileChannel file = FileChannel.open(part, StandardOpenOption.WRITE)) {
      file.force(true);
    }
    Files.move(part, to, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
    try (FileChannel folder = FileChannel.open(folderOf(to), StandardOpenOption.READ)) {
      folder.force(true);
    } catch (IOException e) {
      // some systems don't open folders; there the move itself is as durable as it gets
      return;
    }
  }

  private static Path folderOf(Path file) throws IOException {
    Path folder = file.toAbsolutePath().getParent();
    if (folder == null) {
      throw new IOException(file + " has no folder");
    }
    return Files.createDirectories(folder);
  }
}
