package org.barmap.library.keep;

import java.io.IOException;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Set;
import java.util.regex.Pattern;

/** Keeps a data folder to the account that runs barmap, where the system knows such rights. */
public final class Closing {

  private static final System.Logger LOG = System.getLogger(Closing.class.getName());

  private static final Set<PosixFilePermission> FOLDER =
      PosixFilePermissions.fromString("rwx------");

  private static final Set<PosixFilePermission> FILE = PosixFilePermissions.fromString("rw-------");

  /** All that barmap makes right in a data folder. */
  private static final Pattern OURS =
      Pattern.compile(
          "barmap\\.(db(-wal|-shm|-journal)?|lock|\\d+\\.log(\\.\\d+)?(\\.lck)?)"
              + "|access\\.json|books|cache|looks|set-aside|restoring");

  private Closing() {}

  /**
   * Returns the rights of a new folder below a data folder; none where there are no such rights.
   */
  public static FileAttribute<?>[] folder(Path root) {
    return isPosix(root)
        ? new FileAttribute<?>[] {PosixFilePermissions.asFileAttribute(FOLDER)}
        : new FileAttribute<?>[0];
  }

  /** Returns the rights of a new file below a data folder. */
  public static FileAttribute<?>[] file(Path root) {
    return isPosix(root)
        ? new FileAttribute<?>[] {PosixFilePermissions.asFileAttribute(FILE)}
        : new FileAttribute<?>[0];
  }

  /** Makes a data folder with what is always in it, closed from the beginning. */
  public static void make(Path root) throws IOException {
    if (!Files.isDirectory(root)) {
      Path above = root.toAbsolutePath().getParent();
      if (above != null) {
        Files.createDirectories(above);
      }
      Files.createDirectory(root, folder(root));
    }
    Files.createDirectories(root.resolve("books"), folder(root));
    Files.createDirectories(root.resolve("cache"), folder(root));
  }

  /**
   * Closes what is open to other accounts: the folder when nothing but ours is in it, and all that
   * is ours in it. Nothing is done through links.
   *
   * @return whether anything was open that another account could reach
   */
  public static boolean close(Path root) {
    if (!isPosix(root)) {
      return false;
    }
    boolean reached = isReached(root);
    boolean open = false;
    boolean alone = true;
    for (Path inside : OurFiles.list(root)) {
      if (!OURS.matcher(OurFiles.name(inside)).matches()) {
        alone = false;
      } else if (Files.isRegularFile(inside, LinkOption.NOFOLLOW_LINKS)) {
        open |= set(inside, FILE);
      } else if (Files.isDirectory(inside, LinkOption.NOFOLLOW_LINKS)) {
        open |= set(inside, FOLDER);
        open |= closeIn(inside);
      }
    }
    if (alone) {
      open |= setRoot(root);
    }
    return reached && open;
  }

  /** Closes the folders of books and the pictures in them. */
  private static boolean closeIn(Path folder) {
    boolean open = false;
    for (Path inside : OurFiles.list(folder)) {
      if (OurFiles.isBook(inside)) {
        open |= set(inside, FOLDER);
        open |= closeIn(inside);
      } else if (OurFiles.isOfBook(inside)
          || OurFiles.isPassing(inside)
          || OurFiles.isScaled(inside)) {
        open |= set(inside, FILE);
      }
    }
    return open;
  }

  /** Tells whether no other account can look into the books of a data folder. */
  public static boolean isClosed(Path root) {
    return isPosix(root) && (!isReached(root) || !isReached(root.resolve("books")));
  }

  private static boolean isReached(Path root) {
    try {
      return !FOLDER.containsAll(Files.getPosixFilePermissions(root));
    } catch (IOException e) {
      return true;
    }
  }

  /** The data folder itself may be named by a link. */
  private static boolean setRoot(Path root) {
    try {
      return set(root.toRealPath(), FOLDER);
    } catch (IOException e) {
      return false;
    }
  }

  private static boolean set(Path path, Set<PosixFilePermission> rights) {
    try {
      boolean open = !rights.containsAll(Files.getPosixFilePermissions(path));
      if (open) {
        Files.setPosixFilePermissions(path, rights);
      }
      return open;
    } catch (IOException e) {
      LOG.log(System.Logger.Level.WARNING, "stays open to other accounts: {0} ({1})", path, e);
      return false;
    }
  }

  private static boolean isPosix(Path root) {
    try {
      return root.getFileSystem() == FileSystems.getDefault()
          && FileSystems.getDefault().supportedFileAttributeViews().contains("posix")
          && (!Files.exists(root) || Files.getFileStore(root).supportsFileAttributeView("posix"));
    } catch (IOException e) {
      return false;
    }
  }
}
