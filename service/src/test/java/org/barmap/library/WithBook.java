package org.barmap.library;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.edit.Made;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.kind.BarCorrection;
import org.barmap.edit.kind.Correction;
import org.barmap.edit.kind.PageCorrection;
import org.barmap.map.BarMap;

/** A test with a library in which books are read, corrected and checked. */
abstract class WithBook extends OnEachStore {

  String readBook(int seed) {
    return readBook(Made.book(seed));
  }

  String readBook(BarMap map) {
    String book = library.books().add("Saltmarsh", "Bass").id();
    List<Pages.NewPage> pages = new ArrayList<>();
    map.pages()
        .forEach(
            p ->
                pages.add(
                    new Pages.NewPage(
                        p.source(), p.source(), p.width(), p.height(), Optional.empty())));
    library.pages().add(book, pages, Optional.empty());
    lay(book, map);
    return book;
  }

  void lay(String book, BarMap map) {
    done(library.readings().lay(book, library.readings().material(book), map));
  }

  Versioned<Draft> draft(String book) {
    return library.drafts().find(book).orElseThrow();
  }

  static <T> Saved.Done<T> done(Saved<T> saved) {
    assertThat(saved).isInstanceOf(Saved.Done.class);
    return (Saved.Done<T>) saved;
  }

  void correct(String book, String who, Correction correction) {
    done(library.drafts().correct(book, draft(book).revision(), who, correction));
  }

  /** Checks every page that is not checked. */
  void checkAll(String book) {
    draft(book)
        .value()
        .map()
        .pages()
        .forEach(
            page -> {
              if (!draft(book).value().settled().verifiedPages().contains(page.index())) {
                correct(book, "Ada", new PageCorrection.VerifyPage(page.index(), true));
              }
            });
  }

  void setCount(String book, int bar, int count) {
    String id = draft(book).value().map().bars().get(bar).id();
    correct(book, "Ben", new BarCorrection.SetCount(id, count));
  }
}
