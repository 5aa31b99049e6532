package org.barmap.cli.out;

import java.io.IOException;
import java.nio.charset.CharacterCodingException;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import java.nio.file.NoSuchFileException;

/** Says in plain words why a file could not be used. */
public final class Reasons {

  private Reasons() {}

  /** Returns one sentence: what, and what to do. */
  public static String of(Throwable e) {
    for (Throwable t = e; t != null; t = t.getCause()) {
      if (t instanceof NoSuchFileException f) {
        return "there is no file " + f.getFile() + "; check the name";
      }
      if (t instanceof AccessDeniedException f) {
        return f.getFile() + " may not be used; change its permissions or choose another place";
      }
      if (t instanceof CharacterCodingException) {
        return "the file is no text in UTF-8; is it the right one?";
      }
      if (isDiskFull(t)) {
        return "the disk is full; make room and run the command again";
      }
      if (t instanceof FileSystemException f && f.getReason() != null) {
        return f.getFile() + ": " + f.getReason();
      }
    }
    return String.valueOf(e.getMessage()).lines().findFirst().orElse("it can't be read");
  }

  /** Tells whether a failure says that the disk is full. */
  public static boolean isDiskFull(Throwable e) {
    for (Throwable t = e; t != null; t = t.getCause()) {
      String text = String.valueOf(t.getMessage());
      if (t instanceof IOException && text.contains("No space left on device")
          || text.contains("SQLITE_FULL")
          || text.contains("database or disk is full")) {
        return true;
      }
    }
    return false;
  }
}
