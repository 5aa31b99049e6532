package org.barmap.library.picture;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** In the folder, where the only copy is. */
class FolderPicturesTest extends PictureStoreContract {

  @Override
  PictureStore open() {
    return new FolderPictures(root.resolve("books"));
  }

  @Override
  Set<String> seen() throws IOException {
    Path books = Files.createDirectories(root.resolve("books"));
    try (Stream<Path> all = Files.walk(books)) {
      return all.filter(Files::isRegularFile)
          .map(f -> books.relativize(f).toString())
          .collect(Collectors.toSet());
    }
  }

  @Override
  void forgetCopies() {
    // there are none
  }
}
