package org.barmap.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Clock;
import org.barmap.cli.out.CommandException;
import org.barmap.cli.out.ExitCode;
import org.barmap.library.keep.BadBackupException;
import org.barmap.library.keep.RefusedFolderException;
import org.barmap.library.sqlite.SqliteBackup;
import org.barmap.library.sqlite.copy.BackupFile;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code barmap restore}. */
@Command(
    name = "restore",
    mixinStandardHelpOptions = true,
    description = {
      "Puts a file of `barmap backup` back: all of it, or nothing when it is not whole.",
      "While `barmap serve` runs on the folder, it takes its place at the next start."
    })
final class RestoreCommand extends DataCommand {

  @Parameters(index = "0", paramLabel = "FILE", description = "The backup.")
  private Path file = Path.of("");

  @Option(
      names = "--replace",
      description = {
        "Puts it in the place of books that are there. Those are not deleted: they lie in the",
        "folder set-aside afterwards."
      })
  private boolean replace;

  @Override
  public Integer call() throws IOException {
    if (database().isPresent()) {
      throw new CommandException(
          ExitCode.WRONG_USE,
          "a database is saved and put back by its own tools (pg_dump, pg_restore), and the folder"
              + " of pictures with it");
    }
    Path folder = folder();
    BackupFile.PutBack back;
    try {
      back = SqliteBackup.restore(file, folder, replace, Clock.systemUTC());
    } catch (RefusedFolderException e) {
      throw new CommandException(ExitCode.WRONG_USE, String.valueOf(e.getMessage()));
    } catch (BadBackupException e) {
      throw new CommandException(ExitCode.UNREADABLE, String.valueOf(e.getMessage()));
    }
    PrintWriter out = answers();
    String content = BackupCommand.content(back.books(), back.pictures(), back.pictures() > 0);
    if (back.waits()) {
      out.println(content + ", all whole.");
      out.println(
          folder
              + " is in use: they take their place there when barmap starts next, and what is"
              + " there then is set aside.");
    } else {
      out.println(folder + ": " + content + ", all whole.");
    }
    back.before()
        .ifPresent(old -> out.println("What was there before is in " + old + ", nothing is lost."));
    out.flush();
    return ExitCode.DONE;
  }
}
