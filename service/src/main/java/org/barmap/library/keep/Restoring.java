package org.barmap.library.keep;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.DirectoryNotEmptyException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.time.Clock;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipException;
import java.util.zip.ZipFile;
import org.barmap.map.json.BarMapJson;
import tools.jackson.core.JacksonException;

/**
 * Puts a backup back, whole or not at all.
 *
 * <p>It is unpacked into {@code restoring} and checked there; then {@code complete} says that it
 * may take its place, and names the folder below {@code set-aside} that takes what was there. From
 * then on {@link #finish} brings it to an end, after a kill the next start does.
 */
public final class Restoring {

  private static final System.Logger LOG = System.getLogger(Restoring.class.getName());

  private static final String FOLDER = "restoring";
  private static final String COMPLETE = "complete";
  private static final String MOVED = "moved";

  /** The folder of the pictures. */
  public static final String BOOKS = "books";

  private static final Pattern FILE =
      Pattern.compile("books/[a-z0-9]{1,40}/\\.?[A-Za-z0-9_ -][A-Za-z0-9._ -]{0,120}");

  private static final DateTimeFormatter MOMENT =
      DateTimeFormatter.ofPattern("'before-'yyyy-MM-dd-HHmmss", Locale.ROOT)
          .withZone(ZoneOffset.UTC);

  /** More than the names of a million pictures. */
  private static final int MOST_MANIFEST = 200 << 20;

  /** A store of texts packs to a twentieth, an empty one to a fiftieth. */
  private static final long MOST_PACKED = 200;

  /** So much nobody minds. */
  private static final long SLACK = 16L << 20;

  private static final String LIST =
      """
      This is what was in the data folder before a backup was put back: the database and the
      pictures. Nothing here is used. Delete this folder when you don't need it any more.
      """;

  private Restoring() {}

  /** What is done with a backup that was unpacked, before it may take its place. */
  public interface Check extends Outside {
    /**
     * Fails when it can't be used.
     *
     * @param store the store in it
     * @param books the folder of its pictures
     */
    void of(Path store, Path books) throws IOException;
  }

  /** Tells whether an entry may be a file of a book; such a name leads to no other place. */
  public static boolean isFile(String entry) {
    return FILE.matcher(entry).matches();
  }

  /**
   * What was unpacked.
   *
   * @param books how many, those in the bin too
   * @param pictures how many files
   */
  public record Unpacked(int books, int pictures) {}

  /**
   * Unpacks a backup beside what is there, and checks all of it.
   *
   * @param place the store it is for; empty for the one in the folder
   * @throws BadBackupException when it is no whole backup; nothing is left of it
   */
  public static Unpacked unpack(Path file, Path root, String place, Check check, Clock clock)
      throws IOException {
    Path to = root.resolve(FOLDER);
    try (ZipFile zip = new ZipFile(file.toFile(), StandardCharsets.UTF_8)) {
      Backup backup = manifest(zip);
      fits(zip, backup, root);
      if (UnpackLock.isHeld(root.resolve(FOLDER))) {
        throw new RefusedFolderException("another backup is just being put back into " + root);
      }
      drop(root, check);
      Files.createDirectory(to, Closing.folder(root));
      boolean whole = false;
      try (FileChannel mine = UnpackLock.take(to, root)) {
        Files.createDirectory(to.resolve("books"), Closing.folder(root));
        for (Backup.Entry entry : backup.files()) {
          unpack(zip, entry, root, to);
        }
        check.of(to.resolve(Backup.STORE), to.resolve("books"));
        mark(root, to.resolve(COMPLETE), MOMENT.format(clock.instant()) + "\n" + place);
        whole = true;
      } finally {
        if (!whole) {
          dropNow(root, check);
        }
      }
      return new Unpacked(backup.books(), backup.files().size() - 1);
    } catch (ZipException e) {
      throw new BadBackupException(file + " is no whole backup: it is no zip, or part of one");
    }
  }

  private static Backup manifest(ZipFile zip) throws IOException {
    ZipEntry entry = zip.getEntry(Backup.NAME);
    if (entry == null || entry.getSize() > MOST_MANIFEST) {
      throw new BadBackupException(zip.getName() + " is no backup of barmap");
    }
    Backup backup;
    try (InputStream in = new Limited(zip.getInputStream(entry), MOST_MANIFEST)) {
      backup =
          Optional.ofNullable(BarMapJson.mapper().readValue(in, Backup.class))
              .orElseThrow(() -> new BadBackupException(zip.getName() + " is no backup of barmap"));
    } catch (JacksonException e) {
      throw new BadBackupException(zip.getName() + " is no whole backup: its list can't be read");
    }
    if (!Backup.FORMAT.equals(backup.format())) {
      throw new BadBackupException(
          zip.getName() + " is no backup that this barmap knows (" + backup.format() + ")");
    }
    Set<String> names = new HashSet<>(Set.of(Backup.NAME));
    for (Backup.Entry one : backup.files()) {
      boolean named = one.name().equals(Backup.STORE) || FILE.matcher(one.name()).matches();
      if (!named || !names.add(one.name())) {
        throw new BadBackupException(zip.getName() + " is no whole backup: its list is wrong");
      }
    }
    Set<String> there = new HashSet<>();
    zip.stream().filter(e -> !e.isDirectory()).forEach(e -> there.add(e.getName()));
    if (!there.equals(names) || !names.contains(Backup.STORE)) {
      throw new BadBackupException(
          zip.getName() + " is no whole backup: it holds other files than its list says");
    }
    return backup;
  }

  /** Refuses what would fill the disk, before anything of it is written. */
  private static void fits(ZipFile zip, Backup backup, Path root) throws IOException {
    double all = 0;
    for (Backup.Entry entry : backup.files()) {
      ZipEntry packed = zip.getEntry(entry.name());
      if (packed.getSize() != entry.bytes()) {
        throw changed(zip, entry);
      }
      if (entry.bytes() > SLACK + MOST_PACKED * packed.getCompressedSize()) {
        throw new BadBackupException(
            zip.getName()
                + " is no backup of barmap: "
                + entry.name()
                + " in it would become far larger than any that barmap packs");
      }
      all += entry.bytes();
    }
    long room = Files.getFileStore(root).getUsableSpace();
    if (all > room - SLACK) {
      throw new IOException(
          "there is no room for the backup: it needs %d MB, %s has %d; nothing was changed"
              .formatted((long) all >> 20, root, room >> 20));
    }
  }

  private static void unpack(ZipFile zip, Backup.Entry entry, Path root, Path to)
      throws IOException {
    Path file = to.resolve(entry.name());
    Files.createDirectories(file.getParent(), Closing.folder(root));
    Files.createFile(file, Closing.file(root));
    ZipEntry packed = zip.getEntry(entry.name());
    try (InputStream in = new Limited(zip.getInputStream(packed), entry.bytes());
        OutputStream out = Files.newOutputStream(file)) {
      if (!entry.isAs(PictureMark.copy(in, out))) {
        throw changed(zip, entry);
      }
    } catch (ZipException e) {
      throw changed(zip, entry);
    }
    force(file);
  }

  private static BadBackupException changed(ZipFile zip, Backup.Entry entry) {
    return new BadBackupException(
        zip.getName() + ": " + entry.name() + " in it is not as it was saved; use another copy");
  }

  private static void force(Path file) throws IOException {
    try (FileChannel channel = FileChannel.open(file, StandardOpenOption.WRITE)) {
      channel.force(true);
    }
  }

  private static void mark(Path root, Path file, String text) throws IOException {
    Path part = file.resolveSibling(file.getFileName() + ".part");
    Files.deleteIfExists(part);
    Files.createFile(part, Closing.file(root));
    Files.writeString(part, text);
    force(part);
    Files.move(part, file, StandardCopyOption.ATOMIC_MOVE);
  }

  /** Deletes what was unpacked, and what was brought outside of it. */
  private static void drop(Path root, Outside outside) throws IOException {
    Path folder = root.resolve(FOLDER);
    if (Files.isDirectory(folder, LinkOption.NOFOLLOW_LINKS)) {
      outside.takeOut(folder);
      Trees.delete(folder);
    }
  }

  /** The same, or the next start does it: why it comes to nothing is said first. */
  private static void dropNow(Path root, Outside outside) {
    try {
      drop(root, outside);
    } catch (IOException e) {
      LOG.log(System.Logger.Level.WARNING, "what was unpacked stays for now: {0}", e);
    }
  }

  /** Where a backup takes its place. */
  public interface Swap {

    /** Returns the store it is for; empty for the one in the folder. */
    String place();

    /**
     * Puts the rows of the backup in the place of those that are there; done again after a kill.
     *
     * @param backup the store in the backup
     * @param aside a folder that takes what was there
     * @throws BadBackupException when the store does not take them, now or later
     */
    void rows(Path backup, Path aside) throws IOException;

    /** Returns what else moves, below the data folder. */
    List<String> files();
  }

  /** Tells whether a backup was unpacked whole and waits for its place. */
  public static boolean isWaiting(Path root) {
    return Files.exists(root.resolve(FOLDER).resolve(COMPLETE));
  }

  /**
   * Gives a backup that was unpacked its place in the folder, while nobody else has that open; what
   * was cut short before it was whole goes.
   *
   * @return where the old books are now; empty when there was nothing to be done
   */
  public static Optional<Path> finish(Path root, Outside outside) throws IOException {
    return finish(root, new InFolder(), outside);
  }

  /** Gives it its place in another store; see the other one. */
  public static Optional<Path> finish(Path root, Swap swap, Outside outside) throws IOException {
    Path from = root.resolve(FOLDER);
    if (!isWaiting(root)) {
      if (!UnpackLock.isHeld(root.resolve(FOLDER))) {
        drop(root, outside);
      }
      return Optional.empty();
    }
    String[] complete = Files.readString(from.resolve(COMPLETE)).strip().split("\n", 2);
    String place = complete.length > 1 ? complete[1] : "";
    if (!place.equals(swap.place())) {
      throw new RefusedFolderException(
          "in the data folder "
              + root
              + " a backup waits to be put back into "
              + (place.isEmpty() ? "this folder alone" : place)
              + "; start barmap "
              + (place.isEmpty() ? "without a database" : "with that database")
              + " once, or delete "
              + from);
    }
    Path aside = root.resolve("set-aside").resolve(complete[0]);
    if (!Files.exists(from.resolve(MOVED))) {
      Files.createDirectories(aside, Closing.folder(root));
      try {
        swap.rows(from.resolve(Backup.STORE), aside);
      } catch (BadBackupException e) {
        Trees.delete(aside);
        drop(root, outside);
        throw e;
      }
      for (String old : swap.files()) {
        if (!isMadeAnew(root.resolve(old), aside.resolve(old))) {
          moveInto(root.resolve(old), aside.resolve(old));
        }
      }
      Path list = aside.resolve(SetAside.LIST);
      if (!Files.exists(list)) {
        Files.writeString(Files.createFile(list, Closing.file(root)), LIST);
      }
      outside.note(aside);
      mark(root, from.resolve(MOVED), "");
    }
    moveInto(from.resolve(BOOKS), root.resolve(BOOKS));
    if (swap.files().contains(Backup.STORE)) {
      moveInto(from.resolve(Backup.STORE), root.resolve(Backup.STORE));
    }
    Trees.delete(from);
    LOG.log(System.Logger.Level.INFO, "a backup was put back; what was there is in {0}", aside);
    return Optional.of(aside);
  }

  /** The store is a file as well. */
  private record InFolder() implements Swap {

    @Override
    public String place() {
      return "";
    }

    @Override
    public void rows(Path backup, Path aside) {
      // they move with their file
    }

    @Override
    public List<String> files() {
      return List.of("barmap.db-wal", "barmap.db-shm", Backup.STORE, BOOKS);
    }
  }

  /** Tells whether a folder was moved before a kill, and the start after it made another one. */
  private static boolean isMadeAnew(Path from, Path moved) throws IOException {
    if (!Files.isDirectory(from, LinkOption.NOFOLLOW_LINKS) || !Files.exists(moved)) {
      return false;
    }
    try (Stream<Path> inside = Files.list(from)) {
      return inside.findAny().isEmpty();
    }
  }

  /** Moves what is still there; a folder that is there and empty gives way. */
  private static void moveInto(Path from, Path to) throws IOException {
    if (!Files.exists(from, LinkOption.NOFOLLOW_LINKS)) {
      return;
    }
    if (Files.isDirectory(to, LinkOption.NOFOLLOW_LINKS)) {
      try {
        Files.delete(to);
      } catch (DirectoryNotEmptyException e) {
        throw new IOException(to + " is in the way of a backup that is put back", e);
      }
    }
    Files.move(from, to, StandardCopyOption.ATOMIC_MOVE);
  }
}
