package org.barmap.library.picture;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import java.util.Set;
import org.barmap.library.keep.OurFiles;
import org.barmap.library.keep.PictureMark;

/** Keeps them where they are worked on, in the folders of books. */
public record FolderPictures(Path books) implements PictureStore {

  @Override
  public void keep(String book, Path file) throws IOException {
    if (!Files.exists(file)) {
      throw new NoSuchFileException(file.toString());
    }
  }

  @Override
  public Path bring(String book, String file) {
    return books.resolve(book).resolve(file);
  }

  @Override
  public InputStream read(String book, String file) throws IOException {
    return Files.newInputStream(bring(book, file));
  }

  @Override
  public void remove(String book, String file) throws IOException {
    Files.deleteIfExists(books.resolve(book).resolve(file));
  }

  @Override
  public void removeBook(String book) {
    // its folder is taken away by whoever takes the book away
  }

  @Override
  public Map<String, Long> sizes() {
    Map<String, Long> sizes = new HashMap<>();
    for (Path book : OurFiles.list(books)) {
      if (OurFiles.isBook(book)) {
        for (Path file : OurFiles.list(book)) {
          PictureMark.sizeOf(file)
              .ifPresent(
                  m -> sizes.put(OurFiles.name(book) + "/" + OurFiles.name(file), m.bytes()));
        }
      }
    }
    return sizes;
  }

  @Override
  public void tidy(Set<String> named) {
    // there are no copies
  }

  @Override
  public void dropCopies(Set<String> named) {
    // there are none
  }

  @Override
  public boolean isReady() {
    return Files.isWritable(books);
  }

  @Override
  public boolean isElsewhere() {
    return false;
  }

  @Override
  public String place() {
    return books.toString();
  }

  @Override
  public void close() {
    // nothing is open
  }
}
