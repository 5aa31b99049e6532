package org.barmap.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.barmap.cli.out.CommandException;
import org.barmap.cli.out.ExitCode;
import org.barmap.cli.out.OutFile;
import org.barmap.library.keep.RefusedFolderException;
import org.barmap.library.picture.PictureStore;
import org.barmap.library.postgres.PostgresBackup;
import org.barmap.library.sqlite.SqliteBackup;
import org.barmap.library.sqlite.copy.BackupFile;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code barmap backup}. */
@Command(
    name = "backup",
    mixinStandardHelpOptions = true,
    description = {
      "Saves all books into one file (barbackup/1, a zip with checksums), also while `barmap serve`",
      "runs. `barmap restore` puts it back, also into another database or store of pictures.",
      "In it: books with all their corrections, changes, editions and history, the bin, and the",
      "pictures of pages. Not in it: keys and links by which somebody comes in, secrets of web hooks",
      "(these come back turned off), the log of who looked at pages, what was deleted for good."
    })
final class BackupCommand extends DataCommand {

  @Parameters(index = "0", paramLabel = "FILE", description = "Where it is written.")
  private Path file = Path.of("");

  @Option(
      names = "--no-pictures",
      description = {
        "Leaves the pictures of the pages out: maps, corrections and changes only. With them the",
        "file is a copy of rented pages: the hire agreement decides whether you may make it."
      })
  private boolean noPictures;

  @Option(
      names = "--pictures",
      paramLabel = "ADDRESS",
      description = "Where pictures are kept, when that is a store; as for barmap serve.")
  private Optional<String> pictures = Optional.empty();

  @Override
  Optional<String> picturesNamed() {
    return pictures;
  }

  @Override
  public Integer call() throws IOException {
    OutFile.check(file);
    BackupFile.Saved saved;
    try (PictureStore kept = kept()) {
      saved =
          database().isPresent()
              ? PostgresBackup.save(database().get(), kept, file, !noPictures)
              : SqliteBackup.save(folder(), kept, file, !noPictures);
    } catch (RefusedFolderException e) {
      throw new CommandException(ExitCode.UNREADABLE, String.valueOf(e.getMessage()));
    }
    answers()
        .println(
            "%s: %s, %d bytes"
                .formatted(
                    file, content(saved.books(), saved.pictures(), !noPictures), Files.size(file)));
    if (!noPictures && saved.pictures() > 0) {
      answers()
          .println("It holds pictures of the pages: the hire agreement decides who may have them.");
    }
    answers().flush();
    saved.flaws().forEach(flaw -> remarks().println("barmap: " + flaw));
    remarks().flush();
    return saved.flaws().isEmpty() ? ExitCode.DONE : ExitCode.UNREADABLE;
  }

  /** Says what is in a backup. */
  static String content(int books, int pictures, boolean with) {
    String many = books == 1 ? "1 book" : books + " books";
    String files = pictures == 1 ? "1 picture" : pictures + " pictures";
    return many + " with " + (with ? files : "no pictures of pages");
  }
}
