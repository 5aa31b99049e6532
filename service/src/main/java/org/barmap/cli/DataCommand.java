package org.barmap.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Optional;
import org.barmap.cli.out.CommandException;
import org.barmap.cli.out.ExitCode;
import org.barmap.cli.run.Home;
import org.barmap.library.Library;
import org.barmap.library.postgres.DatabaseAddress;
import org.barmap.library.postgres.PostgresLibrary;
import org.barmap.library.sqlite.SqliteLibrary;
import picocli.CommandLine.Option;

/** A command on the folder in which books are kept. */
abstract class DataCommand extends PrintingCommand {

  @Option(
      names = "--data",
      paramLabel = "DIR",
      description = "Where books are kept (.barmap in the program's folder unless you say so).")
  private Optional<Path> data = Optional.empty();

  @Option(
      names = "--database",
      paramLabel = "ADDRESS",
      description = {
        "For several machines at once: keeps books in PostgreSQL, postgresql://USER@HOST/NAME, and only",
        "their pictures in the folder, which all of them see. The password is taken from",
        "BARMAP_DATABASE_PASSWORD, the address from BARMAP_DATABASE where this is not given."
      })
  private Optional<String> database = Optional.empty();

  /** Returns the database that was named; empty for the one in the folder. */
  Optional<DatabaseAddress> database() {
    Optional<String> address =
        database.or(() -> Optional.ofNullable(System.getenv("BARMAP_DATABASE")));
    try {
      return address
          .filter(a -> !a.isBlank())
          .map(
              a ->
                  DatabaseAddress.of(
                      a, Optional.ofNullable(System.getenv("BARMAP_DATABASE_PASSWORD"))));
    } catch (IllegalArgumentException e) {
      throw new CommandException(ExitCode.WRONG_USE, String.valueOf(e.getMessage()));
    }
  }

  /** Opens the books, wherever they are. */
  Library library() throws IOException {
    return library(folder(), database());
  }

  static Library library(Path folder, Optional<DatabaseAddress> database) throws IOException {
    Clock clock = Clock.systemUTC();
    try {
      return database.isPresent()
          ? PostgresLibrary.open(database.get(), folder, clock)
          : SqliteLibrary.open(folder, clock);
    } catch (IllegalArgumentException e) {
      throw new CommandException(ExitCode.WRONG_USE, String.valueOf(e.getMessage()));
    }
  }

  /** Returns that folder. */
  Path folder() {
    return data.orElseGet(Home::data);
  }
}
