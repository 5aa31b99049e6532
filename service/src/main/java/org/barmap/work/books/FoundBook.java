package org.barmap.work.books;

import java.nio.file.Path;
import java.util.List;
import org.barmap.map.Book;

/**
 * A book in a library.
 *
 * @param path of its folder or file, below the library's
 * @param files its page files, in order
 */
public record FoundBook(Path path, List<Path> files) {

  /** Takes a defensive copy. */
  public FoundBook {
    files = List.copyOf(files);
  }

  /** Returns what it is called in lists: its path with slashes. */
  public String name() {
    return path.toString().replace('\\', '/');
  }

  /** Its own name, and the folder around it: SHOW/PART, or the show alone. */
  Book book() {
    String own = String.valueOf(path.getFileName()).replaceFirst("(?i)\\.(pdf|tiff?)$", "");
    Path around = path.getParent();
    return around == null ? new Book(own, "") : new Book(String.valueOf(around.getFileName()), own);
  }

  /** Returns where its map goes, below a folder. */
  Path map(Path out) {
    Path file = out.resolve(path.toString());
    return file.resolveSibling(file.getFileName() + ".barmap.json");
  }
}
