package org.barmap.work.books;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Comparator;
import java.util.HexFormat;
import java.util.Optional;
import java.util.stream.Stream;
import org.barmap.library.WholeFile;
import org.barmap.map.json.BarMapJson;
import tools.jackson.core.JacksonException;

/**
 * What is kept of a book between runs, in folders beside the maps: {@code .under-way} while it is
 * read, {@code .done} afterwards. What can't be understood is as if it were not there.
 *
 * @param out the folder of maps
 * @param name of the book
 * @param stamp of its files: names, sizes, times; another one begins the book anew
 */
record UnderWay(Path out, String name, String stamp) {

  /**
   * What is kept of a book that is done.
   *
   * @param stamp of the files it was read from
   * @param again a page was lost that may be read another time
   */
  record Done(String stamp, boolean again, BookLine line) {}

  static UnderWay of(Path out, FoundBook book) throws IOException {
    StringBuilder files = new StringBuilder();
    for (Path file : book.files()) {
      files.append(file.getFileName()).append('\n');
      if (Files.exists(file)) {
        files.append(Files.size(file)).append(' ');
        files.append(Files.getLastModifiedTime(file).toMillis()).append('\n');
      }
    }
    return new UnderWay(out, book.name(), hash(files.toString()));
  }

  private static String hash(String text) {
    try {
      MessageDigest digest = MessageDigest.getInstance("SHA-256");
      return HexFormat.of().formatHex(digest.digest(text.getBytes(StandardCharsets.UTF_8)), 0, 12);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
  }

  /** The book's folder while it is read. */
  Path folder() {
    return out.resolve(".under-way").resolve(hash(name) + "-" + stamp);
  }

  private Path doneFile() {
    return out.resolve(".done").resolve(hash(name) + ".json");
  }

  /** What is kept of it when it is done with these files, and its map is there. */
  Optional<Done> done() throws IOException {
    return kept(doneFile(), Done.class)
        .filter(d -> d.stamp().equals(stamp) && !d.again())
        .filter(d -> d.line().map().map(m -> Files.exists(out.resolve(m))).orElse(true));
  }

  /** It is done; its pages are forgotten, unless some are to be read again. */
  void finish(BookLine line, boolean again) throws IOException {
    keep(doneFile(), new Done(stamp, again, line));
    if (!again) {
      drop();
    }
  }

  /** Forgets the pages of this book, those of its files as they were before too. */
  void drop() throws IOException {
    Path all = out.resolve(".under-way");
    if (!Files.isDirectory(all)) {
      return;
    }
    try (Stream<Path> folders = Files.list(all)) {
      String own = hash(name) + "-";
      for (Path f : folders.filter(f -> f.getFileName().toString().startsWith(own)).toList()) {
        delete(f);
      }
    }
  }

  private static void delete(Path folder) throws IOException {
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
        Files.deleteIfExists(file);
      }
    }
  }

  static void keep(Path file, Object what) throws IOException {
    byte[] json = BarMapJson.mapper().writeValueAsBytes(what);
    WholeFile.copy(new ByteArrayInputStream(json), file);
  }

  static <T> Optional<T> kept(Path file, Class<T> type) throws IOException {
    if (!Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS)) {
      return Optional.empty();
    }
    try {
      return Optional.ofNullable(BarMapJson.mapper().readValue(Files.readAllBytes(file), type));
    } catch (JacksonException e) {
      return Optional.empty();
    }
  }
}
