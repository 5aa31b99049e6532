package org.barmap.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.barmap.cli.option.EngineOptions;
import org.barmap.cli.out.CommandException;
import org.barmap.cli.out.ExitCode;
import org.barmap.cli.out.ProgressBar;
import org.barmap.page.file.PageFiles;
import org.barmap.work.books.LibraryReading;
import org.barmap.work.books.LibraryReport;
import org.barmap.work.child.ChildReader;

/**
 * {@code barmap read LIBRARY/ --books}.
 *
 * @param library a folder of folders and PDFs
 * @param out where the maps go; beside the library unless said
 * @param engines other readers that are asked about each book
 */
record ReadBooks(Path library, Optional<Path> out, EngineOptions engines) {

  private static final int MINUTE = 60;

  int run(PrintWriter answers, PrintWriter err) throws IOException {
    if (!Files.isDirectory(library)) {
      throw new CommandException(
          ExitCode.UNREADABLE, library + " is no folder; --books takes a folder of books");
    }
    Path to = out.orElseGet(this::beside);
    if (Files.exists(to) && !Files.isDirectory(to)) {
      throw new CommandException(
          ExitCode.WRONG_USE, to + " is a file; with --books, --out is a folder");
    }
    ProgressBar bar = ProgressBar.onTerminal(err);
    LibraryReport report;
    try (ChildReader reader = new ChildReader(ReadingMain.class)) {
      LibraryReading reading =
          new LibraryReading(
              library,
              to,
              reader,
              book -> engines.ask(book.files(), "", err),
              (done, of, book, left) ->
                  bar.show(done, of, book + left.map(ReadBooks::left).orElse("")));
      report = new LibraryReport(reading.run());
    } catch (IllegalStateException e) {
      throw new CommandException(ExitCode.UNREADABLE, String.valueOf(e.getMessage()));
    } finally {
      bar.end();
    }
    report.write(to);
    answers.print(report.text());
    answers.println("The maps and this report are in " + to);
    answers.flush();
    if (report.books().isEmpty()) {
      throw new CommandException(ExitCode.NOTHING_FOUND, library + " holds no books");
    }
    return report.failed() ? ExitCode.UNREADABLE : ExitCode.DONE;
  }

  private Path beside() {
    Path whole = library.toAbsolutePath().normalize();
    return whole.resolveSibling(PageFiles.name(whole) + "-maps");
  }

  private static String left(double seconds) {
    if (seconds <= 0) {
      return "";
    }
    return seconds < MINUTE
        ? ", under a minute left"
        : ", " + Math.round(seconds / MINUTE) + " min left";
  }

  /** Says what of the options of a single book was given too. */
  static Optional<String> unfit(List<Path> paths, List<String> given) {
    if (paths.size() != 1) {
      return Optional.of("--books takes one folder");
    }
    return given.isEmpty()
        ? Optional.empty()
        : Optional.of(given.get(0) + " is for one book; leave it out with --books");
  }
}
