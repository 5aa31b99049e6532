package org.barmap.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Optional;
import org.barmap.cli.out.CommandException;
import org.barmap.cli.out.ExitCode;
import org.barmap.cli.run.Home;
import org.barmap.library.Library;
import org.barmap.library.picture.FolderPictures;
import org.barmap.library.picture.PictureStore;
import org.barmap.library.picture.S3Address;
import org.barmap.library.picture.S3Pictures;
import org.barmap.library.postgres.DatabaseAddress;
import org.barmap.library.postgres.PostgresLibrary;
import org.barmap.library.sqlite.SqliteLibrary;
import picocli.CommandLine.Option;

/** A command on the folder in which books are kept. */
abstract class DataCommand extends PrintingCommand {

  @Option(names = "--data", paramLabel = "DIR")
  private Optional<Path> data = Optional.empty();

  @Option(names = "--database", paramLabel = "ADDRESS")
  private Optional<String> database = Optional.empty();

  /** Returns what an option names as the store of pictures, where a command has one. */
  Optional<String> picturesNamed() {
    return Optional.empty();
  }

  /** Returns the store of pictures that was named; empty for the folder. */
  Optional<S3Address> pictures() {
    try {
      return picturesNamed()
          .or(() -> Optional.ofNullable(System.getenv("BARMAP_PICTURES")))
          .filter(a -> !a.isBlank())
          .map(S3Address::of);
    } catch (IllegalArgumentException e) {
      throw new CommandException(ExitCode.WRONG_USE, String.valueOf(e.getMessage()));
    }
  }

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
    return library(folder(), database(), pictures());
  }

  static Library library(
      Path folder, Optional<DatabaseAddress> database, Optional<S3Address> pictures)
      throws IOException {
    Clock clock = Clock.systemUTC();
    PictureStore kept = kept(folder, pictures);
    try {
      return database.isPresent()
          ? PostgresLibrary.open(database.get(), folder, kept, clock)
          : SqliteLibrary.open(folder, kept, clock);
    } catch (IllegalArgumentException e) {
      throw new CommandException(ExitCode.WRONG_USE, String.valueOf(e.getMessage()));
    }
  }

  /** Opens where pictures are kept. */
  PictureStore kept() throws IOException {
    return kept(folder(), pictures());
  }

  private static PictureStore kept(Path folder, Optional<S3Address> pictures) throws IOException {
    return pictures.isPresent()
        ? S3Pictures.open(pictures.get(), folder)
        : new FolderPictures(folder.resolve("books"));
  }

  /** Returns that folder. */
  Path folder() {
    return data.orElseGet(Home::data);
  }
}
