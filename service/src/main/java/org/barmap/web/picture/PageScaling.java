package org.barmap.web.picture;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.barmap.library.Library;
import org.barmap.library.PageCard;
import org.barmap.library.WholeFile;
import org.barmap.page.PagePictures;
import org.barmap.web.api.ApiError;
import org.barmap.web.api.ApiException;

/** Pictures of pages made smaller, kept in the store's cache. */
public final class PageScaling {

  /**
   * One picture is made once, however many ask for it, and not more of them at the same time than
   * there are processors: each takes one whole, and the memory of a page.
   */
  private static final List<Object> AT_WORK =
      Stream.generate(Object::new).limit(Runtime.getRuntime().availableProcessors()).toList();

  private PageScaling() {}

  /**
   * Returns a page's picture as JPEG.
   *
   * @param page one that has a picture
   * @param width wanted, pixels; never larger than it is
   * @throws IOException when the picture can't be read
   */
  public static InputStream jpeg(Library library, String book, PageCard page, int width)
      throws IOException {
    Path small = library.pages().cache().resolve(page.id() + "-" + width + ".jpg");
    if (!Files.exists(small)) {
      int place = Math.floorMod(small.hashCode(), AT_WORK.size());
      synchronized (AT_WORK.get(place)) {
        // another one may have waited for the same picture and made it
        if (!Files.exists(small)) {
          make(library, book, page, width, small);
        }
      }
    }
    return Files.newInputStream(small);
  }

  private static void make(Library library, String book, PageCard page, int width, Path small)
      throws IOException {
    byte[] made = PagePictures.scaled(library.pages().picture(book, page), width);
    WholeFile.copy(new ByteArrayInputStream(made), small);
    if (library.pages().find(book, page.id()).isEmpty()) {
      // it was taken out meanwhile, and its scaled pictures before this one was there
      Files.deleteIfExists(small);
      throw new ApiException(ApiError.NO_PAGE, "It may have been taken out");
    }
  }
}
