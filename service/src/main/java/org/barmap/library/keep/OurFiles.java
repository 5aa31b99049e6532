package org.barmap.library.keep;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/** Tells the files that barmap made from all others, by names that nobody gives by chance. */
public final class OurFiles {

  private static final System.Logger LOG = System.getLogger(OurFiles.class.getName());

  /** As {@code Ids} makes them. */
  private static final Pattern BOOK = Pattern.compile("[a-hjkmnp-z2-9]{10}");

  private static final Pattern PICTURE =
      Pattern.compile("u[0-9a-f]{32}\\.(png|jpe?g|tiff?|pdf|page|score|reading)(-\\d+\\.png)?");

  private static final Pattern PART = Pattern.compile("\\.barmap\\d+\\.part|\\.unfinished");

  /** Smaller pictures, and what the server keeps of an upload or a saved file under way. */
  private static final Pattern SCALED = Pattern.compile("[a-z0-9]+-\\d+\\.jpg");

  private static final Pattern PASSING =
      Pattern.compile("MultiPart\\w*|pack\\d+\\.zip|(open|list)\\d+\\.tmp|\\.barmap\\d+\\.part");

  private OurFiles() {}

  /** Tells whether this is a folder of a book; a link to one is not. */
  public static boolean isBook(Path folder) {
    return BOOK.matcher(name(folder)).matches()
        && Files.isDirectory(folder, LinkOption.NOFOLLOW_LINKS);
  }

  /**
   * Tells whether this is a page picture, an upload, a score or another reading in the folder of a
   * book.
   */
  public static boolean isPicture(Path file) {
    return PICTURE.matcher(name(file)).matches() && isPlain(file);
  }

  /** Returns the folders of books with pictures in them. */
  public static List<Path> pictured(Path root) {
    return list(root.resolve("books")).stream()
        .filter(OurFiles::isBook)
        .filter(book -> list(book).stream().anyMatch(OurFiles::isPicture))
        .toList();
  }

  /** Tells whether this is a picture, or what a kill left of one. */
  public static boolean isOfBook(Path file) {
    return isPicture(file) || PART.matcher(name(file)).matches() && isPlain(file);
  }

  /** Tells whether this is what a request under way keeps in the folder for smaller pictures. */
  public static boolean isPassing(Path file) {
    return PASSING.matcher(name(file)).matches() && isPlain(file);
  }

  /** Tells whether this is a smaller picture of a page. */
  public static boolean isScaled(Path file) {
    return !pageOf(file).isEmpty() && isPlain(file);
  }

  /** Returns the page a smaller picture is of; empty for any other file. */
  public static String pageOf(Path file) {
    String name = name(file);
    return SCALED.matcher(name).matches() ? name.substring(0, name.indexOf('-')) : "";
  }

  /** Returns what is in a folder; nothing when it can't be looked through, which is logged. */
  public static List<Path> list(Path folder) {
    if (!Files.exists(folder)) {
      return List.of();
    }
    try (Stream<Path> files = Files.list(folder)) {
      return files.sorted().toList();
    } catch (IOException e) {
      LOG.log(System.Logger.Level.WARNING, "cannot be looked through: {0} ({1})", folder, e);
      return List.of();
    }
  }

  /** Returns the last part of a path. */
  public static String name(Path file) {
    return String.valueOf(file.getFileName());
  }

  private static boolean isPlain(Path file) {
    return Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS);
  }
}
