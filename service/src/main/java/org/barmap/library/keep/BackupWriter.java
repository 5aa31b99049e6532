package org.barmap.library.keep;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.zip.Deflater;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.barmap.map.json.BarMapJson;

/** Writes a backup: a store that was copied already, and the pictures it names. */
public final class BackupWriter {

  private BackupWriter() {}

  /**
   * A picture that the store names.
   *
   * @param path {@code BOOK/FILE}
   * @param of the book's title and part
   * @param mark how it was when it was kept; empty where that is not known
   */
  public record Named(String path, String of, Optional<PictureMark> mark) {}

  /** Where pictures are read from. */
  @FunctionalInterface
  public interface Pictures {

    /**
     * Opens one, as it is kept.
     *
     * @throws NoSuchFileException when it is not there
     */
    InputStream read(String book, String file) throws IOException;
  }

  /**
   * What a store has in it.
   *
   * @param file a copy of it that nobody writes to
   * @param version of its tables
   * @param books how many
   * @param pictures whether the pictures of pages go along
   * @param named the files that do
   */
  public record Source(Path file, String version, int books, boolean pictures, List<Named> named) {

    /** Takes a defensive copy. */
    public Source {
      named = List.copyOf(named);
    }
  }

  /**
   * What came of it.
   *
   * @param files how many pictures are in it
   * @param gone the pictures that were not there
   * @param flaws the same and those that are not as they were kept, one sentence each
   */
  public record Written(int files, List<Named> gone, List<String> flaws) {

    /** Takes a defensive copy. */
    public Written {
      gone = List.copyOf(gone);
      flaws = List.copyOf(flaws);
    }
  }

  /**
   * Writes a whole backup.
   *
   * @throws IOException also when a picture can't be read now, but may be later
   */
  public static Written write(Source source, Pictures pictures, Path to) throws IOException {
    List<Backup.Entry> files = new ArrayList<>();
    List<Named> gone = new ArrayList<>();
    List<String> flaws = new ArrayList<>();
    try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(to));
        ZipOutputStream zip = new ZipOutputStream(out, StandardCharsets.UTF_8)) {
      // pictures are packed already; the store is not
      zip.setLevel(Deflater.BEST_SPEED);
      try (InputStream in = Files.newInputStream(source.file)) {
        files.add(entry(zip, Backup.STORE, in));
      }
      for (Named one : source.named) {
        int slash = one.path.indexOf('/');
        try (InputStream in =
            pictures.read(one.path.substring(0, slash), one.path.substring(slash + 1))) {
          Backup.Entry entry = entry(zip, "books/" + one.path, in);
          files.add(entry);
          if (!one.mark.map(entry::isAs).orElse(true)) {
            flaws.add("A picture of " + one.of + " is damaged (" + one.path + ")");
          }
        } catch (NoSuchFileException e) {
          gone.add(one);
          flaws.add("A picture of " + one.of + " is missing (" + one.path + ")");
        }
      }
      Backup manifest =
          new Backup(
              Backup.FORMAT, Instant.now(), source.version, source.books, source.pictures, files);
      zip.putNextEntry(new ZipEntry(Backup.NAME));
      zip.write(BarMapJson.mapper().writeValueAsBytes(manifest));
      zip.closeEntry();
    }
    return new Written(files.size() - 1, gone, flaws);
  }

  private static Backup.Entry entry(ZipOutputStream zip, String name, InputStream in)
      throws IOException {
    zip.putNextEntry(new ZipEntry(name));
    PictureMark mark = PictureMark.copy(in, zip);
    zip.closeEntry();
    return new Backup.Entry(name, mark.bytes(), mark.sha256());
  }
}
