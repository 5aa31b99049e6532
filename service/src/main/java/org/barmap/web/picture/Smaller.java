package org.barmap.web.picture;

import java.io.IOException;
import java.io.InputStream;
import org.barmap.library.PageCard;
import org.barmap.web.api.ApiError;
import org.barmap.web.api.ApiException;
import org.barmap.work.PageCopies;
import org.barmap.work.PageLostException;

/** Pictures of pages made smaller, or why there is none. */
public final class Smaller {

  private Smaller() {}

  /**
   * Returns a page's picture as JPEG.
   *
   * @param page one that has a picture
   * @param width wanted, pixels; never larger than it is
   * @throws IOException when the picture can't be read
   */
  public static InputStream of(PageCopies copies, String book, PageCard page, int width)
      throws IOException {
    try {
      return copies
          .jpeg(book, page, width)
          .orElseThrow(() -> new ApiException(ApiError.NO_PAGE, "It may have been taken out"));
    } catch (PageLostException e) {
      throw new ApiException(ApiError.NO_PICTURE, String.valueOf(e.getMessage()));
    }
  }
}
