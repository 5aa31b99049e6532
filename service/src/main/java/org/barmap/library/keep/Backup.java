package org.barmap.library.keep;

import java.time.Instant;
import java.util.List;
import java.util.Objects;

/**
 * What is in a backup, {@code manifest.json} at its end: a zip with the store as it was at one
 * moment and the pictures it names.
 *
 * @param format {@code barbackup/1}
 * @param made when
 * @param store the version of the store in it
 * @param books how many books, those in the bin too
 * @param pictures whether the pictures of pages are in it
 * @param files every other entry
 */
record Backup(
    String format, Instant made, String store, int books, boolean pictures, List<Entry> files) {

  static final String FORMAT = "barbackup/1";
  static final String NAME = "manifest.json";
  static final String STORE = "barmap.db";

  /** Takes a defensive copy. */
  Backup {
    files = files == null ? List.of() : List.copyOf(files);
  }

  /**
   * An entry of the zip.
   *
   * @param name {@code barmap.db} or {@code books/BOOK/FILE}
   */
  record Entry(String name, long bytes, String sha256) {

    /** What is missing in a list that others wrote is nothing at all. */
    Entry {
      name = Objects.requireNonNullElse(name, "");
      sha256 = Objects.requireNonNullElse(sha256, "");
    }

    /** Tells whether these are the bytes; where no hash was kept, whether they are as many. */
    boolean isAs(PictureMark mark) {
      return mark.bytes() == bytes && (mark.sha256().isEmpty() || mark.sha256().equals(sha256));
    }
  }
}
