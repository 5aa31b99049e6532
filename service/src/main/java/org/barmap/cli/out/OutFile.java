package org.barmap.cli.out;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.Optional;

/**
 * A file that a command is told to write. A plain file is written whole or not at all and keeps its
 * rights; a pipe or a device is written into; where a link points, that is written, and the link
 * stays. No folder is made.
 */
public final class OutFile {

  private static final int TRIES = 100;

  private OutFile() {}

  /** Writes what goes into a file. */
  @FunctionalInterface
  public interface Content {
    void writeTo(OutputStream out) throws IOException;
  }

  /**
   * Fails when nothing can be written there, before anything takes long.
   *
   * @throws CommandException says why
   */
  public static void check(Path to) {
    if (Files.isDirectory(to)) {
      throw new CommandException(ExitCode.UNREADABLE, to + " is a folder; name a file");
    }
    Path folder = folderOf(to);
    if (!Files.isDirectory(folder)) {
      throw new CommandException(
          ExitCode.UNREADABLE, "there is no folder " + folder + "; make it first");
    }
  }

  /** Writes a text that ends with the end of a line. */
  public static void text(Path to, String text) throws IOException {
    byte[] bytes = (text.stripTrailing() + "\n").getBytes(StandardCharsets.UTF_8);
    write(to, out -> out.write(bytes));
  }

  /** Writes a file. */
  public static void write(Path to, Content content) throws IOException {
    check(to);
    Path file = Files.isSymbolicLink(to) && Files.exists(to) ? to.toRealPath() : to;
    boolean plain = Files.isRegularFile(file);
    if (!plain && (Files.exists(file) || Files.isSymbolicLink(file))) {
      try (OutputStream out = Files.newOutputStream(file)) {
        content.writeTo(out);
      }
      return;
    }
    Path part = part(file);
    try {
      try (OutputStream out = Files.newOutputStream(part, StandardOpenOption.WRITE)) {
        content.writeTo(out);
      }
      if (plain) {
        keepRights(file, part);
      }
      Files.move(part, file, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
    } finally {
      Files.deleteIfExists(part);
    }
  }

  /** Makes a file beside another one, with the rights that new files have. */
  private static Path part(Path file) throws IOException {
    Path folder = folderOf(file);
    for (int i = 1; ; i++) {
      Path part = folder.resolve("." + file.getFileName() + "." + i + ".part");
      try {
        return Files.createFile(part);
      } catch (java.nio.file.FileAlreadyExistsException e) {
        if (i == TRIES) {
          throw e;
        }
      }
    }
  }

  private static void keepRights(Path from, Path to) throws IOException {
    try {
      Files.setPosixFilePermissions(to, Files.getPosixFilePermissions(from));
    } catch (UnsupportedOperationException e) {
      // a system without such rights
      return;
    }
  }

  private static Path folderOf(Path file) {
    return Optional.ofNullable(file.toAbsolutePath().getParent()).orElse(Path.of("."));
  }
}
