package org.barmap.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Optional;
import org.barmap.cli.out.CommandException;
import org.barmap.cli.out.ExitCode;
import org.barmap.library.keep.BadBackupException;
import org.barmap.library.keep.RefusedFolderException;
import org.barmap.library.picture.PictureStore;
import org.barmap.library.postgres.PostgresBackup;
import org.barmap.library.sqlite.SqliteBackup;
import org.barmap.library.sqlite.copy.BackupFile;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code barmap restore}. */
@Command(name = "restore", mixinStandardHelpOptions = true)
final class RestoreCommand extends PicturesCommand {

  @Parameters(index = "0", paramLabel = "FILE")
  private Path file = Path.of("");

  @Option(names = "--replace")
  private boolean replace;

  @Override
  public Integer call() throws IOException {
    Path folder = folder();
    String place = database().map(d -> d + " and " + folder).orElse(folder.toString());
    Clock clock = Clock.systemUTC();
    BackupFile.PutBack back;
    Optional<String> store = Optional.empty();
    try (PictureStore kept = kept()) {
      store = kept.isElsewhere() ? Optional.of(kept.place()) : store;
      back =
          database().isPresent()
              ? PostgresBackup.restore(file, database().get(), folder, kept, replace, clock)
              : SqliteBackup.restore(file, folder, kept, replace, clock);
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
          place
              + " is in use: they take their place there when barmap starts next"
              + (database().isPresent() ? ", after every barmap on it has ended," : "")
              + " and what is there then is set aside.");
    } else {
      out.println(place + ": " + content + ", all whole.");
    }
    back.before()
        .ifPresent(old -> out.println("What was there before is in " + old + ", nothing is lost."));
    if (back.before().isPresent() || back.waits()) {
      store.ifPresent(
          s ->
              out.println(
                  "Pictures of the books that are replaced stay in "
                      + s
                      + " until you delete what is set aside: on the page of what is kept, not by"
                      + " hand."));
    }
    out.flush();
    return ExitCode.DONE;
  }
}
