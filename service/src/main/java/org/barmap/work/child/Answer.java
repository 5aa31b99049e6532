package org.barmap.work.child;

import java.util.List;
import java.util.Optional;
import org.barmap.library.Pages;
import org.barmap.map.Finding;
import org.barmap.sign.ReadPage;
import org.barmap.sign.StoredPage;
import org.barmap.work.PageReader;

/**
 * One answer of the child.
 *
 * @param ask which question
 * @param number of pages, or the index of a page in the book
 * @param text a page as it is stored, or what failed
 * @param picture of an opened page
 * @param findings about a page
 */
record Answer(
    long ask,
    Kind kind,
    int number,
    Optional<String> text,
    Optional<Pages.NewPage> picture,
    List<Finding> findings) {

  /** What it holds. */
  enum Kind {
    COUNT,
    PICTURE,
    PAGE,
    END,
    /** A defect of the program. */
    FAILED,
    /** The disk is full, or the file is gone. */
    NOT_KEPT,
    /** Never sent: the child has ended. */
    GONE
  }

  /** Takes a defensive copy. */
  Answer {
    findings = List.copyOf(findings);
  }

  static Answer count(int number) {
    return new Answer(0, Kind.COUNT, number, Optional.empty(), Optional.empty(), List.of());
  }

  static Answer picture(Pages.NewPage picture) {
    return new Answer(0, Kind.PICTURE, 0, Optional.empty(), Optional.of(picture), List.of());
  }

  static Answer page(PageReader.Result result) {
    int index = result.page().map(ReadPage::index).orElse(1);
    Optional<String> stored = result.page().map(StoredPage::write);
    return new Answer(0, Kind.PAGE, index, stored, Optional.empty(), result.findings());
  }

  /** An answer without anything but words. */
  static Answer plain(Kind kind, String text) {
    return new Answer(0, kind, 0, Optional.of(text), Optional.empty(), List.of());
  }

  Answer to(Ask question) {
    return new Answer(question.id(), kind, number, text, picture, findings);
  }

  /** Returns what was read on a page. */
  PageReader.Result result() {
    return new PageReader.Result(text.map(t -> StoredPage.read(t, number)), findings);
  }
}
