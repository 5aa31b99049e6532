package org.barmap.library.keep;

import java.io.IOException;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import org.jspecify.annotations.Nullable;

/** Deletes a folder that is ours with what is in it; a link in it goes, what it points to stays. */
public final class Trees {

  private Trees() {}

  /** Deletes it. */
  public static void delete(Path folder) throws IOException {
    Files.walkFileTree(
        folder,
        new SimpleFileVisitor<>() {
          @Override
          public FileVisitResult visitFile(Path file, BasicFileAttributes attributes)
              throws IOException {
            Files.deleteIfExists(file);
            return FileVisitResult.CONTINUE;
          }

          @Override
          public FileVisitResult postVisitDirectory(Path visited, @Nullable IOException e)
              throws IOException {
            if (e != null) {
              throw e;
            }
            Files.deleteIfExists(visited);
            return FileVisitResult.CONTINUE;
          }
        });
  }
}
