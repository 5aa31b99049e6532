package org.barmap.library.picture;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Path;
import java.util.Map;
import java.util.Set;

/** Keeps the files of books. */
public interface PictureStore extends AutoCloseable {

  /**
   * Keeps a file that lies in the folder of its book: afterwards it is there whole, or not at all.
   *
   * @throws IOException when it can't be kept now
   */
  void keep(String book, Path file) throws IOException;

  /**
   * Returns a file to be read, in the folder of its book; brought there when it is kept elsewhere.
   *
   * @throws IOException when it can't be brought, or is not as it was kept
   * @throws java.nio.file.NoSuchFileException when it is not kept
   */
  Path bring(String book, String file) throws IOException;

  /**
   * Opens a file as it is kept, without making a copy of it.
   *
   * @throws IOException when it can't be read now
   * @throws java.nio.file.NoSuchFileException when it is not kept
   */
  InputStream read(String book, String file) throws IOException;

  /** Removes a file wherever it is kept; it need not be there. */
  void remove(String book, String file) throws IOException;

  /** Removes what is kept of a book elsewhere than in its folder, also what nothing names. */
  void removeBook(String book) throws IOException;

  /**
   * Returns the sizes of all files that are kept, by {@code BOOK/FILE}.
   *
   * @throws IOException when that can't be told now
   */
  Map<String, Long> sizes() throws IOException;

  /**
   * Makes the folder and the store one, while nothing else is at work: what lies in the folder only
   * is kept, and copies of what nothing names go.
   *
   * @param named the files in use, {@code BOOK/FILE}
   */
  void tidy(Set<String> named) throws IOException;

  /**
   * Deletes copies in the folder of what nothing names, others may be at work: it was removed
   * elsewhere.
   *
   * @param named the files in use, {@code BOOK/FILE}
   */
  void dropCopies(Set<String> named) throws IOException;

  /** Tells whether files can be kept at this moment. */
  boolean isReady();

  /** Tells whether that is elsewhere than in the folder, which then has copies only. */
  boolean isElsewhere();

  /** Returns where that is, in words for whoever runs it. */
  String place();

  @Override
  void close();
}
