package org.barmap.library;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

/** Looks at a data folder as someone would who got hold of the disk. */
public final class Disk {

  private Disk() {}

  /** Returns the files and folders, below a folder, that have a word in their name or bytes. */
  public static List<String> holding(Path folder, String word) throws IOException {
    try (Stream<Path> paths = Files.walk(folder)) {
      return paths
          .filter(p -> p.toString().contains(word) || Files.isRegularFile(p) && holds(p, word))
          .map(p -> folder.relativize(p).toString())
          .toList();
    }
  }

  private static boolean holds(Path file, String word) {
    try {
      return Files.readString(file, StandardCharsets.ISO_8859_1).contains(word);
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }
}
