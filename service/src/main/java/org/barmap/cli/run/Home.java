package org.barmap.cli.run;

import java.nio.file.Files;
import java.nio.file.Path;
import org.barmap.cli.out.CommandException;
import org.barmap.cli.out.ExitCode;

/** Where the program lies, and where it keeps things unless told otherwise. */
public final class Home {

  private Home() {}

  /** Returns the folder of the checkout, as the start script says; else the current one. */
  public static Path folder() {
    return Path.of(System.getProperty("barmap.home", "")).toAbsolutePath().normalize();
  }

  /** Returns the folder for books unless the user names one. */
  public static Path data() {
    return folder().resolve(".barmap");
  }

  /**
   * Returns the folder of the demo book.
   *
   * @throws CommandException when it is not there
   */
  public static Path demoBook() {
    Path book = folder().resolve("corpus").resolve("saltmarsh");
    if (!Files.isDirectory(book)) {
      throw new CommandException(
          ExitCode.UNREADABLE,
          "the demo book is not at " + book + "; run ./barmap from a whole checkout");
    }
    return book;
  }
}
