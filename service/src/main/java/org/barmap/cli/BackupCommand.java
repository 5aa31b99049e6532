package org.barmap.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
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
@Command(name = "backup", mixinStandardHelpOptions = true)
final class BackupCommand extends PicturesCommand {

  @Parameters(index = "0", paramLabel = "FILE")
  private Path file = Path.of("");

  @Option(names = "--no-pictures")
  private boolean noPictures;

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
