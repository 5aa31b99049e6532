package org.barmap.library.sqlite;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Set;
import org.barmap.library.keep.Closing;

/** Keeps a second program out of a data folder; a kill lets go of it. */
final class FolderLock implements AutoCloseable {

  private static final System.Logger LOG = System.getLogger(FolderLock.class.getName());

  /** Another program has the folder open. */
  static final class InUseException extends IOException {

    private static final long serialVersionUID = 1;

    InUseException() {
      super("it is in use by another barmap");
    }
  }

  private final FileChannel channel;

  private FolderLock(FileChannel channel) {
    this.channel = channel;
  }

  /** Takes the lock of a folder, or fails when another program has it. */
  static FolderLock take(Path folder) throws IOException {
    FileChannel channel =
        FileChannel.open(
            folder.resolve("barmap.lock"),
            Set.of(StandardOpenOption.CREATE, StandardOpenOption.WRITE),
            Closing.file(folder));
    try {
      if (channel.tryLock() != null) {
        return new FolderLock(channel);
      }
    } catch (OverlappingFileLockException e) {
      LOG.log(System.Logger.Level.DEBUG, "a folder is open in this process", e);
    }
    channel.close();
    throw new InUseException();
  }

  @Override
  public void close() {
    try {
      channel.close();
    } catch (IOException e) {
      // the lock goes with the process at the latest
      return;
    }
  }
}
