package org.barmap.library.picture;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Map;
import java.util.Set;

/** Keeps files in a second folder, as a store on another machine does. */
public record ApartPictures(FolderPictures kept, FolderPictures copies) implements PictureStore {

  /** Makes one. */
  public static ApartPictures of(Path apart, Path data) {
    return new ApartPictures(new FolderPictures(apart), new FolderPictures(data.resolve("books")));
  }

  @Override
  public void keep(String book, Path file) throws IOException {
    copy(file, kept.bring(book, String.valueOf(file.getFileName())));
  }

  @Override
  public Path bring(String book, String file) throws IOException {
    Path here = copies.bring(book, file);
    if (!Files.exists(here)) {
      if (!Files.isDirectory(kept.books())) {
        throw new StoreAwayException("the other folder is away", new IOException());
      }
      copy(kept.bring(book, file), here);
    }
    return here;
  }

  private static void copy(Path from, Path to) throws IOException {
    Files.createDirectories(to.getParent());
    Files.copy(from, to, StandardCopyOption.REPLACE_EXISTING);
  }

  @Override
  public InputStream read(String book, String file) throws IOException {
    return kept.read(book, file);
  }

  @Override
  public void remove(String book, String file) throws IOException {
    copies.remove(book, file);
    kept.remove(book, file);
  }

  @Override
  public void removeBook(String book) throws IOException {
    for (String one : sizes().keySet()) {
      if (one.startsWith(book + "/")) {
        Files.deleteIfExists(kept.books().resolve(one));
      }
    }
  }

  @Override
  public Map<String, Long> sizes() {
    return kept.sizes();
  }

  @Override
  public void tidy(Set<String> named) {
    // nothing is kept twice in a test
  }

  @Override
  public void dropCopies(Set<String> named) {
    // nothing is removed elsewhere
  }

  @Override
  public boolean isElsewhere() {
    return true;
  }

  @Override
  public boolean isReady() {
    return true;
  }

  @Override
  public String place() {
    return kept.place();
  }

  @Override
  public void close() {
    // nothing is open
  }
}
