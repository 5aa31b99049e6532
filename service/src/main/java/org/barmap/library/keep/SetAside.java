package org.barmap.library.keep;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.time.Clock;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;

/**
 * Files that nothing in the store names any more, moved into {@code set-aside/MOMENT} with their
 * place below the data folder. A list beside them says where each was and why. Only a person
 * deletes them.
 */
public final class SetAside {

  /** The list's name in each folder. */
  public static final String LIST = "what-this-is.txt";

  private static final Set<String> OUR_LISTS = Set.of(LIST, Outside.ELSEWHERE);

  private static final System.Logger LOG = System.getLogger(SetAside.class.getName());

  private static final DateTimeFormatter MOMENT =
      DateTimeFormatter.ofPattern("yyyy-MM-dd-HHmmss", Locale.ROOT).withZone(ZoneOffset.UTC);

  private static final String HEAD =
      """
      barmap moved these files here when it started: they are its own, and nothing in its database
      names them. Nothing here is used. Keep them, move them back while barmap doesn't run, or
      delete this folder. Pictures of rented pages among them are as much the publisher's as before.

      """;

  private final Path root;
  private final Clock clock;
  private final List<Path> moved = new ArrayList<>();
  private Optional<Path> now = Optional.empty();

  /** Makes it for a data folder. */
  public SetAside(Path root, Clock clock) {
    this.root = root;
    this.clock = clock;
  }

  /** Moves a file or a folder aside; false when it can't be moved, which is logged. */
  public boolean move(Path file, String why) {
    try {
      Path to = folder().resolve(root.relativize(file).toString());
      Files.createDirectories(to.getParent(), Closing.folder(root));
      Files.move(file, to, StandardCopyOption.ATOMIC_MOVE);
      note(root.relativize(file) + ": " + why);
      moved.add(file);
      return true;
    } catch (IOException e) {
      LOG.log(System.Logger.Level.WARNING, "cannot be set aside: {0} ({1})", file, e);
      return false;
    }
  }

  private Path folder() throws IOException {
    if (now.isEmpty()) {
      Path all = root.resolve("set-aside");
      String moment = MOMENT.format(clock.instant());
      Path folder = all.resolve(moment);
      for (int i = 2; Files.exists(folder, LinkOption.NOFOLLOW_LINKS); i++) {
        folder = all.resolve(moment + "-" + i);
      }
      Files.createDirectories(folder, Closing.folder(root));
      now = Optional.of(folder);
      note(HEAD.strip() + "\n");
    }
    return now.get();
  }

  private void note(String line) throws IOException {
    Path list = now.orElseThrow().resolve(LIST);
    if (!Files.exists(list)) {
      Files.createFile(list, Closing.file(root));
    }
    Files.write(list, (line + "\n").getBytes(StandardCharsets.UTF_8), StandardOpenOption.APPEND);
  }

  /** Returns what this start moved. */
  public List<Path> moved() {
    return List.copyOf(moved);
  }

  /** Returns the folder of this start, where it moved something. */
  public Optional<Path> place() {
    return now;
  }

  /**
   * Moves a file back that is missing in its place; false when it was never set aside.
   *
   * @param file where it has to be
   */
  public boolean bringBack(Path file) {
    List<Path> folders = new ArrayList<>(OurFiles.list(root.resolve("set-aside")));
    folders.sort(Comparator.reverseOrder());
    for (Path folder : folders) {
      Path kept = folder.resolve(root.relativize(file).toString());
      if (Files.isRegularFile(kept, LinkOption.NOFOLLOW_LINKS)) {
        try {
          Files.createDirectories(file.getParent(), Closing.folder(root));
          Files.move(kept, file, StandardCopyOption.ATOMIC_MOVE);
          return true;
        } catch (IOException e) {
          LOG.log(System.Logger.Level.WARNING, "cannot be moved back: {0} ({1})", kept, e);
        }
      }
    }
    return false;
  }

  /** Returns all that was ever set aside and is still there, without the lists. */
  public List<Path> files() {
    List<Path> all = new ArrayList<>();
    for (Path folder : OurFiles.list(root.resolve("set-aside"))) {
      try (Stream<Path> files = Files.walk(folder)) {
        files
            .filter(f -> Files.isRegularFile(f, LinkOption.NOFOLLOW_LINKS))
            .filter(f -> !OUR_LISTS.contains(OurFiles.name(f)))
            .forEach(all::add);
      } catch (IOException e) {
        LOG.log(System.Logger.Level.WARNING, "cannot be looked through: {0} ({1})", folder, e);
      }
    }
    return all;
  }

  /**
   * Returns the files of books that were set aside, {@code BOOK/FILE}, which are kept outside of
   * the folder; the books there now may name some of them.
   */
  public Set<String> elsewhere() {
    Set<String> all = new HashSet<>();
    for (Path folder : OurFiles.list(root.resolve("set-aside"))) {
      Path list = folder.resolve(Outside.ELSEWHERE);
      try {
        if (Files.isRegularFile(list, LinkOption.NOFOLLOW_LINKS)) {
          Files.readAllLines(list).stream()
              .filter(f -> Restoring.isFile(Restoring.BOOKS + "/" + f))
              .forEach(all::add);
        }
      } catch (IOException e) {
        LOG.log(System.Logger.Level.WARNING, "cannot be read: {0} ({1})", list, e);
      }
    }
    return all;
  }

  /** Deletes all that was set aside: a person said so. */
  public void deleteAll() throws IOException {
    Path all = root.resolve("set-aside");
    if (Files.isDirectory(all, LinkOption.NOFOLLOW_LINKS)) {
      Trees.delete(all);
    }
    now = Optional.empty();
  }

  /** Deletes what was set aside of a book: a person let the book go. */
  public void deleteOf(String book) throws IOException {
    for (Path folder : OurFiles.list(root.resolve("set-aside"))) {
      Path of = folder.resolve("books").resolve(book);
      if (Files.isDirectory(of, LinkOption.NOFOLLOW_LINKS)) {
        Trees.delete(of);
        forget(folder.resolve(LIST), book);
      }
    }
  }

  private static void forget(Path list, String book) throws IOException {
    if (Files.isRegularFile(list, LinkOption.NOFOLLOW_LINKS)) {
      List<String> lines = Files.readAllLines(list);
      Files.write(list, lines.stream().filter(l -> !l.contains("books/" + book + "/")).toList());
    }
  }
}
