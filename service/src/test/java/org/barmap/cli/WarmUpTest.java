package org.barmap.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.barmap.cli.run.WarmUp;
import org.barmap.library.Library;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.Content;
import org.barmap.map.Outline;
import org.barmap.map.Page;
import org.barmap.map.StaffSystem;
import org.barmap.web.WebServer;
import org.barmap.work.ExtractorReader;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a service asks itself when it starts is answered, and changes nothing. */
class WarmUpTest {

  @Test
  void theDeskOfTheNewestReadBookIsAskedForAndNothingIsStored(@TempDir Path data) throws Exception {
    try (Service service = Service.open(data, new ExtractorReader())) {
      Library library = service.library();
      WebServer server = service.start(Optional.empty());
      String address = server.address();
      String key = server.key();
      assertThat(WarmUp.run(library, address, key)).as("an empty shelf").isZero();
      String book = library.books().add("Saltmarsh", "Bass").id();
      library.readings().lay(book, library.readings().material(book), aRest());
      library.books().add("Not read yet", "Bass");
      long before = library.drafts().find(book).orElseThrow().revision();
      assertThat(WarmUp.run(library, address, key))
          .as("the desk, and corrections")
          .isGreaterThan(20);
      assertThat(WarmUp.run(library, address, "no key")).as("nobody comes in").isZero();
      assertThat(library.drafts().find(book).orElseThrow().revision()).isEqualTo(before);
      assertThat(library.drafts().history(book).entries()).isEmpty();
      assertThat(WarmUp.run(library, "http://127.0.0.1:1/", key)).as("nobody answers").isZero();
    }
  }

  private static BarMap aRest() {
    Outline line = Outline.box(100, 100, 900, 140);
    Bar rest = Bar.builder("b1", 1, 1, line).number(1).content(Content.MULTI_REST).count(8).build();
    StaffSystem system = new StaffSystem(1, line, 10, Optional.empty(), 1, List.of());
    Page page = new Page(1, "page-1.png", 1000, 1400, List.of(system));
    return BarMap.of(new Book("Saltmarsh", "Bass"), List.of(page), List.of(), List.of(rest));
  }
}
