package org.barmap.work.books;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.barmap.page.file.PageFiles;

/**
 * The books of a library: a folder that holds pictures is one book, with every page file in it;
 * where a folder holds none, each PDF and each TIFF of it is a book, and its folders are looked
 * into. Links to folders are not followed; what begins with a full stop is passed over.
 */
final class BookFinder {

  /** Folders in folders, no deeper. */
  private static final int DEPTH = 8;

  private final Path library;
  private final Path apart;
  private final List<FoundBook> books = new ArrayList<>();

  private BookFinder(Path library, Path apart) {
    this.library = library;
    this.apart = apart;
  }

  /**
   * Finds them.
   *
   * @param apart a folder that is not looked into
   * @throws IOException when the library can't be listed
   */
  static List<FoundBook> in(Path library, Path apart) throws IOException {
    BookFinder finder = new BookFinder(library, apart.toAbsolutePath().normalize());
    try {
      finder.look(library, 0);
    } catch (UncheckedIOException e) {
      throw e.getCause();
    }
    return finder.books;
  }

  private void look(Path folder, int depth) throws IOException {
    List<Path> pages = PageFiles.list(List.of(folder)).files();
    boolean pictures = pages.stream().anyMatch(f -> !isWhole(f));
    if (pictures && depth > 0) {
      books.add(new FoundBook(library.relativize(folder), pages));
    } else {
      // pictures beside the books are a book called like the library
      List<Path> loose = pages.stream().filter(f -> !isWhole(f)).toList();
      if (!loose.isEmpty()) {
        books.add(new FoundBook(Path.of(PageFiles.name(library.toAbsolutePath())), loose));
      }
      pages.stream()
          .filter(BookFinder::isWhole)
          .forEach(f -> books.add(new FoundBook(library.relativize(f), List.of(f))));
    }
    if (depth < DEPTH) {
      for (Path inside : folders(folder)) {
        look(inside, depth + 1);
      }
    }
  }

  private List<Path> folders(Path folder) throws IOException {
    try (Stream<Path> all = Files.list(folder)) {
      return all.filter(f -> Files.isDirectory(f, LinkOption.NOFOLLOW_LINKS))
          .filter(f -> !PageFiles.name(f).startsWith("."))
          .filter(f -> !f.toAbsolutePath().normalize().equals(apart))
          .sorted()
          .toList();
    } catch (java.nio.file.AccessDeniedException e) {
      // a folder that may not be read holds no books for us
      return List.of();
    }
  }

  private static boolean isWhole(Path file) {
    return PageFiles.name(file).toLowerCase(Locale.ROOT).matches(".*\\.(pdf|tiff?)");
  }
}
