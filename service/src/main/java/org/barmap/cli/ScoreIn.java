package org.barmap.cli;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.OptionalInt;
import java.util.stream.Collectors;
import org.barmap.cli.out.CommandException;
import org.barmap.cli.out.ExitCode;
import org.barmap.exchange.musicxml.UnreadableMusicXmlException;
import org.barmap.exchange.musicxml.book.ScoreBook;
import org.barmap.map.BarMap;
import org.barmap.map.Book;

/** A MusicXML score given instead of pages. */
final class ScoreIn {

  /** How many parts of a score are named in a complaint. */
  private static final int SHOWN = 24;

  private ScoreIn() {}

  /** Tells whether what was given is one score and no page; what can't be opened is a page's. */
  static boolean is(List<Path> paths) throws IOException {
    return paths.size() == 1
        && Files.isRegularFile(paths.get(0))
        && Files.isReadable(paths.get(0))
        && ScoreBook.isScore(paths.get(0));
  }

  /**
   * Returns a part of the score as a book without pages.
   *
   * @param part its name, a part of it, or its place; may be empty for a score of one part
   * @param title what the book is called; empty for what the score says
   */
  static BarMap book(Path file, String part, String title) throws IOException {
    String name = String.valueOf(file.getFileName());
    try (InputStream in = Files.newInputStream(file)) {
      ScoreBook score = ScoreBook.read(name, in);
      OptionalInt found = score.part(part);
      if (found.isEmpty() && score.parts().size() == 1) {
        // --part may as well say what the chair is called
        found = OptionalInt.of(0);
      }
      if (found.isEmpty()) {
        String trouble =
            part.isBlank()
                ? "say which part is yours"
                : "\""
                    + part.strip()
                    + "\" is not one of its parts, or several; say which is yours";
        throw new CommandException(
            ExitCode.WRONG_USE,
            name
                + ": "
                + trouble
                + " with --part NAME or --part N. Its parts are "
                + listed(score));
      }
      BarMap map = score.book(found.getAsInt()).map();
      boolean only = score.parts().size() == 1 && !part.isBlank();
      return title.isBlank() && !only
          ? map
          : new BarMap(
              map.format(),
              new Book(
                  title.isBlank() ? map.book().title() : title.strip(),
                  only && score.part(part).isEmpty() ? part.strip() : map.book().part()),
              map.pages(),
              map.numbers(),
              map.bars(),
              map.findings());
    } catch (UnreadableMusicXmlException e) {
      throw new CommandException(ExitCode.UNREADABLE, name + ": " + e.getMessage());
    }
  }

  private static String listed(ScoreBook score) {
    List<ScoreBook.Choice> parts = score.parts();
    String more = parts.size() > SHOWN ? " and " + (parts.size() - SHOWN) + " more" : "";
    return parts.stream()
            .limit(SHOWN)
            .map(p -> p.place() + " " + p.name())
            .collect(Collectors.joining(", "))
        + more;
  }
}
