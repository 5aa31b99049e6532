package org.barmap.library.picture;

import java.io.IOException;
import java.nio.file.Files;
import java.util.List;
import java.util.Optional;
import org.barmap.edit.Made;
import org.barmap.library.Library;
import org.barmap.library.Pages;

/** Books of one page whose picture is a file, for tests of what is kept and copied. */
public final class OnePicture {

  /** The picture's file. */
  public static final String NAME = "u" + "a".repeat(32) + ".png";

  private OnePicture() {}

  /** Adds a book that is not read yet; its picture says the title. */
  public static String unread(Library library, String title) throws IOException {
    String book = library.books().add(title, "Bass").id();
    Files.writeString(library.pages().folder(book).resolve(NAME), "picture of " + title);
    library
        .pages()
        .add(
            book,
            List.of(new Pages.NewPage("p.png", NAME, 10, 10, Optional.empty())),
            Optional.empty());
    return book;
  }

  /** Adds a book that is read. */
  public static String book(Library library, String title) throws IOException {
    String book = unread(library, title);
    library.readings().lay(book, library.readings().material(book), Made.book(3));
    return book;
  }
}
