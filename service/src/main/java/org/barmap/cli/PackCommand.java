package org.barmap.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.barmap.cli.out.CommandException;
import org.barmap.cli.out.ExitCode;
import org.barmap.cli.out.OutFile;
import org.barmap.library.BookCard;
import org.barmap.library.Library;
import org.barmap.pack.PackWriter;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code barmap pack}. */
@Command(name = "pack", mixinStandardHelpOptions = true)
final class PackCommand extends DataCommand {

  @Parameters(index = "0", paramLabel = "BOOK")
  private String wanted = "";

  @Option(names = "--pictures")
  private boolean pictures;

  @Option(names = "--out", paramLabel = "FILE")
  private Optional<Path> out = Optional.empty();

  @Override
  public Integer call() throws IOException {
    try (Library library = library()) {
      BookCard book = book(library.books().all());
      Path to = out.orElseGet(() -> Path.of(fileName(book)));
      OutFile.write(to, zip -> PackWriter.write(library, book, pictures, zip));
      answers().println(to + ": " + Files.size(to) + " bytes");
      if (pictures) {
        answers()
            .println(
                "It holds pictures of the pages: the hire agreement decides who may have them.");
      }
      answers().flush();
      return ExitCode.DONE;
    }
  }

  private BookCard book(List<BookCard> books) {
    List<BookCard> fits =
        books.stream()
            .filter(b -> b.id().equals(wanted) || b.title().equalsIgnoreCase(wanted))
            .toList();
    if (fits.size() == 1) {
      return fits.get(0);
    }
    String all =
        String.join(", ", books.stream().map(b -> b.title() + " (" + b.id() + ")").toList());
    String why = fits.isEmpty() ? "there is no book " : "several books are called ";
    throw new CommandException(
        ExitCode.NOTHING_FOUND, why + wanted + "; there are: " + (all.isEmpty() ? "none" : all));
  }

  private static String fileName(BookCard book) {
    String name = book.title().toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", "-");
    String plain = name.replaceAll("^-+|-+$", "");
    return (plain.isEmpty() ? "book" : plain) + ".barpack.zip";
  }
}
