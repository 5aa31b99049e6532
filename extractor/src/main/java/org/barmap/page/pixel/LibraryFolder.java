package org.barmap.page.pixel;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;

/**
 * Where libraries in machine code are unpacked to and loaded from: a folder that no other account
 * can put anything into. By itself JavaCPP takes a folder with a known name in the temporary one
 * where the home can't be written, which somebody else may have made before.
 */
public final class LibraryFolder {

  private static final System.Logger LOG = System.getLogger(LibraryFolder.class.getName());

  /** Tells JavaCPP its folder. */
  public static final String PROPERTY = "org.bytedeco.javacpp.cachedir";

  /** Names the folder for all libraries in machine code. */
  private static final String NAMED = "barmap.natives";

  private static final String OF_ALL = "unix:mode,uid,gid,owner,group";
  private static final int ROOT = 0;
  private static final int STICKY = 01000;
  private static final int OTHERS_WRITE = 02;
  private static final int GROUP_WRITES = 020;
  private static final int NOT_MINE = 077;

  private LibraryFolder() {}

  /**
   * Tells JavaCPP where to unpack, unless that was said; before it is used for the first time.
   *
   * @throws UncheckedIOException when there is no place for a folder
   */
  public static synchronized void choose() {
    if (System.getProperty(PROPERTY) == null) {
      Path home = Path.of(System.getProperty("user.home", ""));
      System.setProperty(PROPERTY, chosen(home).toString());
    }
  }

  private static Path chosen(Path home) {
    Optional<String> named = Optional.ofNullable(System.getProperty(NAMED));
    if (named.isPresent()) {
      return Path.of(named.get()).toAbsolutePath().resolve("opencv");
    }
    try {
      Optional<Path> own = inHome(home, ".javacpp", "cache");
      Optional<Path> found = own.isPresent() ? own : passing();
      return found.isPresent() ? found.get() : forThisRun();
    } catch (IOException e) {
      throw new UncheckedIOException(
          "there is no folder for libraries: neither the home nor "
              + temporary()
              + " can be written; name one with -D"
              + NAMED,
          e);
    }
  }

  /** Returns a folder in a home, made where it isn't there; empty where it can't be trusted. */
  static Optional<Path> inHome(Path home, String... names) {
    Path folder = home;
    for (String name : names) {
      folder = folder.resolve(name);
    }
    if (!home.isAbsolute()) {
      return Optional.empty(); // of an account that the system has no name for
    }
    try {
      Files.createDirectories(folder, closed(home));
      return Optional.of(folder.toRealPath()).filter(f -> Files.isWritable(f) && isSafe(f));
    } catch (IOException e) {
      return Optional.empty();
    }
  }

  private static Path temporary() {
    return Path.of(System.getProperty("java.io.tmpdir", "")).toAbsolutePath();
  }

  /**
   * Returns this account's folder in the temporary one, where the home is no place; empty where
   * another account has taken its name.
   */
  public static Optional<Path> passing() {
    return passing(temporary());
  }

  static Optional<Path> passing(Path temporary) {
    try {
      Path folder = temporary.toRealPath().resolve("barmap-libraries-" + me(temporary));
      try {
        Files.createDirectory(folder, closed(temporary));
      } catch (FileAlreadyExistsException e) {
        LOG.log(System.Logger.Level.DEBUG, "is there: {0}", folder);
      }
      return Optional.of(folder).filter(f -> isClosed(f) && isSafe(f));
    } catch (IOException e) {
      return Optional.empty();
    }
  }

  /** One that goes at the end of the program. */
  private static Path forThisRun() throws IOException {
    Path folder = Files.createTempDirectory(temporary(), "barmap-libraries-");
    Runtime.getRuntime().addShutdownHook(new Thread(() -> delete(folder), "barmap-libraries"));
    return folder;
  }

  private static void delete(Path folder) {
    try {
      Files.walkFileTree(
          folder,
          new SimpleFileVisitor<>() {
            @Override
            public FileVisitResult visitFile(Path file, BasicFileAttributes of) throws IOException {
              Files.delete(file);
              return FileVisitResult.CONTINUE;
            }

            @Override
            public FileVisitResult postVisitDirectory(
                Path empty, @org.jspecify.annotations.Nullable IOException e) throws IOException {
              Files.delete(empty);
              return FileVisitResult.CONTINUE;
            }
          });
    } catch (IOException e) {
      LOG.log(System.Logger.Level.INFO, "stays: {0} ({1})", folder, e);
    }
  }

  /**
   * Tells whether nobody but this account and the machine's owner can change what is in a folder,
   * or put another one in its place. True where the system knows no such rights.
   */
  public static boolean isSafe(Path folder) {
    try {
      if (!isUnix(folder)) {
        return true;
      }
      Path real = folder.toRealPath();
      Set<Object> trusted =
          Set.copyOf(
              java.util.Arrays.asList(
                  (Object) me(temporary()), ROOT, Files.getAttribute(real.getRoot(), "unix:uid")));
      for (Path at = real; at != null; at = at.getParent()) {
        Map<String, Object> of = Files.readAttributes(at, OF_ALL, LinkOption.NOFOLLOW_LINKS);
        // in a sticky folder others may add what they like, and touch nothing that is not theirs
        boolean open = isOpen(of) && (at.equals(real) || (mode(of) & STICKY) == 0);
        if (open || !trusted.contains(of.get("uid"))) {
          LOG.log(System.Logger.Level.DEBUG, "others can change {0}", at);
          return false;
        }
      }
      return true;
    } catch (IOException e) {
      return false;
    }
  }

  /** A group of the owner's own name is the owner's alone, as Linux systems make one for each. */
  private static boolean isOpen(Map<String, Object> of) {
    int mode = mode(of);
    boolean own = String.valueOf(of.get("group")).equals(String.valueOf(of.get("owner")));
    return (mode & OTHERS_WRITE) != 0 || ((mode & GROUP_WRITES) != 0 && !own);
  }

  private static int mode(Map<String, Object> of) {
    return (int) Objects.requireNonNull(of.get("mode"));
  }

  private static boolean isClosed(Path folder) {
    try {
      return !isUnix(folder)
          || Files.isDirectory(folder, LinkOption.NOFOLLOW_LINKS)
              && ((int) Files.getAttribute(folder, "unix:mode", LinkOption.NOFOLLOW_LINKS)
                      & NOT_MINE)
                  == 0;
    } catch (IOException e) {
      return false;
    }
  }

  /** Returns the number of this account: who owns what it makes. */
  private static int me(Path temporary) throws IOException {
    if (!isUnix(temporary)) {
      return ROOT;
    }
    Path mine = Files.createTempFile(temporary, "barmap", ".me");
    try {
      return (int) Files.getAttribute(mine, "unix:uid");
    } finally {
      Files.delete(mine);
    }
  }

  private static boolean isUnix(Path folder) {
    return folder.getFileSystem().supportedFileAttributeViews().contains("unix");
  }

  private static FileAttribute<?>[] closed(Path in) {
    return isUnix(in)
        ? new FileAttribute<?>[] {
          PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rwx------"))
        }
        : new FileAttribute<?>[0];
  }
}
