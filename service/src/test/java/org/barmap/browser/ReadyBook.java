package org.barmap.browser;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import org.barmap.library.Pages;
import org.barmap.library.sqlite.SqliteLibrary;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Page;
import org.barmap.map.json.BarMapJson;

/** The demo book as it truly is, put on a shelf without being read first. */
public final class ReadyBook {

  private ReadyBook() {}

  /** Puts the book with its pages into a data folder that no service has open; returns its id. */
  public static String into(Path data) throws IOException {
    return into(data, "");
  }

  /**
   * Puts the book on a shelf, one number of it without its words.
   *
   * @param wordless label of that number, empty for none
   */
  public static String into(Path data, String wordless) throws IOException {
    return into(data, map -> without(map, wordless));
  }

  /** Puts the book on a shelf as if it had been read otherwise than it is. */
  public static String into(Path data, UnaryOperator<BarMap> misread) throws IOException {
    BarMap map = misread.apply(BarMapJson.read(DemoBook.page("saltmarsh.barmap.json")));
    try (SqliteLibrary library = SqliteLibrary.open(data, Clock.systemUTC())) {
      String book = library.books().add(map.book().title(), map.book().part()).id();
      List<Pages.NewPage> pages = new ArrayList<>();
      for (Page page : map.pages()) {
        Path picture = DemoBook.page(page.source());
        Files.copy(picture, library.pages().folder(book).resolve(page.source()));
        pages.add(
            new Pages.NewPage(
                page.source(), page.source(), page.width(), page.height(), Optional.empty()));
      }
      library.pages().add(book, pages, Optional.empty());
      library.readings().lay(book, library.readings().material(book), map);
      return book;
    }
  }

  private static BarMap without(BarMap map, String number) {
    Set<String> ids =
        map.numbers().stream()
            .filter(n -> n.label().equals(number))
            .flatMap(n -> map.barsOf(n).stream())
            .map(Bar::id)
            .collect(Collectors.toSet());
    return map.withBars(
        map.bars().stream()
            .map(b -> ids.contains(b.id()) ? b.toBuilder().words(List.of()).build() : b)
            .toList());
  }
}
