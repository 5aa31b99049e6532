package org.barmap.library.keep;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.UserPrincipal;
import java.util.List;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.regex.Pattern;

/**
 * A folder for what is needed in passing, copies of rented pages among it. A file in it is locked
 * for as long as the process that made it lives, however that ends; what is left by a process that
 * was killed is told by the lock that nobody holds, and goes at the next start.
 */
public final class OwnFolder implements AutoCloseable {

  /** What such folders in the temporary folder begin with. */
  public static final List<String> PASSING = List.of("barmap-engine-", "barmap-reading-");

  private static final System.Logger LOG = System.getLogger(OwnFolder.class.getName());
  private static final String OWNER = ".barmap-owner";
  private static final int TRIES = 10;

  /**
   * What this process holds: to open such a file again and close it would let go of its lock (as
   * {@code FileLock} says of some systems).
   */
  private static final Set<Path> MINE = ConcurrentHashMap.newKeySet();

  private final Path folder;
  private final FileChannel channel;

  private OwnFolder(Path folder, FileChannel channel) {
    this.folder = folder;
    this.channel = channel;
  }

  /**
   * Makes one, closed to other accounts.
   *
   * @param in where
   * @param prefix what its name begins with
   */
  public static OwnFolder make(Path in, String prefix) throws IOException {
    for (int left = TRIES; left > 0; left--) {
      Path folder = Files.createTempDirectory(in, prefix).toAbsolutePath();
      MINE.add(folder);
      FileChannel channel =
          FileChannel.open(
              folder.resolve(OWNER), StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
      FileLock lock = channel.tryLock();
      if (lock != null && Files.exists(folder.resolve(OWNER), LinkOption.NOFOLLOW_LINKS)) {
        return new OwnFolder(folder, channel);
      }
      // another one that starts now took it for a left one: it deletes it, or has done so
      channel.close();
      MINE.remove(folder);
    }
    throw new IOException("no folder can be made in " + in);
  }

  /** Returns where it is. */
  public Path path() {
    return folder;
  }

  /** Deletes it with what is in it. */
  @Override
  public void close() {
    try {
      if (Files.exists(folder, LinkOption.NOFOLLOW_LINKS)) {
        Trees.delete(folder);
      }
      channel.close();
      MINE.remove(folder);
    } catch (IOException e) {
      LOG.log(System.Logger.Level.INFO, "a folder stays for now: {0} ({1})", folder, e);
    }
  }

  /** Deletes what processes that are gone left in the temporary folder. */
  public static int sweep() {
    Path temporary = Path.of(System.getProperty("java.io.tmpdir", ""));
    return PASSING.stream().mapToInt(prefix -> sweep(temporary, prefix)).sum();
  }

  /**
   * Deletes folders of this account whose process is gone.
   *
   * @return how many
   */
  public static int sweep(Path in, String prefix) {
    Pattern name = Pattern.compile(Pattern.quote(prefix) + "\\d+");
    int gone = 0;
    for (Path folder : OurFiles.list(in)) {
      if (name.matcher(OurFiles.name(folder)).matches()) {
        gone += deleteLeft(folder.toAbsolutePath()) ? 1 : 0;
      }
    }
    return gone;
  }

  /** Deletes one that is left, with its lock held: who makes one at this moment sees it. */
  private static boolean deleteLeft(Path folder) {
    Path owner = folder.resolve(OWNER);
    if (MINE.contains(folder)
        || !Files.isDirectory(folder, LinkOption.NOFOLLOW_LINKS)
        || !Files.isRegularFile(owner, LinkOption.NOFOLLOW_LINKS)) {
      return false;
    }
    try {
      UserPrincipal me =
          folder
              .getFileSystem()
              .getUserPrincipalLookupService()
              .lookupPrincipalByName(System.getProperty("user.name", ""));
      if (!Files.getOwner(folder, LinkOption.NOFOLLOW_LINKS).equals(me)) {
        return false;
      }
      try (FileChannel channel =
          FileChannel.open(owner, StandardOpenOption.WRITE, LinkOption.NOFOLLOW_LINKS)) {
        if (channel.tryLock() == null) {
          return false;
        }
        Trees.delete(folder);
        return true;
      }
    } catch (IOException | OverlappingFileLockException | UnsupportedOperationException e) {
      LOG.log(System.Logger.Level.INFO, "what may be left stays: {0} ({1})", folder, e);
      return false;
    }
  }
}
