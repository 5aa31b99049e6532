package org.barmap.library.keep;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

/**
 * A file that is locked for as long as a process unpacks a backup, so that a start beside it does
 * not take that for what a kill left. A folder on a system without locks goes without.
 */
final class UnpackLock {

  private static final System.Logger LOG = System.getLogger(UnpackLock.class.getName());

  private static final String FILE = "unpacks";

  private UnpackLock() {}

  /**
   * Makes and locks it; to close what is returned lets go of it.
   *
   * @param folder that is unpacked into
   * @param root the data folder
   */
  static FileChannel take(Path folder, Path root) throws IOException {
    Path file = Files.createFile(folder.resolve(FILE), Closing.file(root));
    FileChannel channel = FileChannel.open(file, StandardOpenOption.WRITE);
    try {
      channel.tryLock();
    } catch (IOException e) {
      LOG.log(System.Logger.Level.INFO, "no locks in {0} ({1})", folder, e);
    }
    return channel;
  }

  /** Tells whether another process that lives unpacks there, as far as that can be told. */
  static boolean isHeld(Path folder) {
    Path file = folder.resolve(FILE);
    if (!Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS)) {
      return false;
    }
    try (FileChannel channel =
        FileChannel.open(file, StandardOpenOption.WRITE, LinkOption.NOFOLLOW_LINKS)) {
      return channel.tryLock() == null;
    } catch (OverlappingFileLockException e) {
      return true;
    } catch (IOException e) {
      LOG.log(System.Logger.Level.INFO, "no locks in {0} ({1})", folder, e);
      return false;
    }
  }
}
