package org.barmap.web.feed;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import org.barmap.exchange.region.BookManifest;
import org.barmap.exchange.region.Served;
import org.barmap.exchange.region.Sizes;
import org.barmap.library.Library;
import org.barmap.library.PageCard;
import org.barmap.web.api.ApiError;
import org.barmap.web.api.ApiException;
import org.barmap.web.api.Guard;
import org.barmap.web.api.Requests;
import org.barmap.web.picture.Smaller;
import org.barmap.work.PageCopies;

/**
 * A book's pages as a IIIF manifest with an image service of level 0: fixed sizes only. It leads to
 * all pictures of a book, so it is for the book's owner.
 */
public record PictureRoutes(Library library, PageCopies copies, Guard guard) {

  /** Adds them to the server. */
  public void register(RoutesConfig routes) {
    routes.get("/api/books/{b}/iiif/manifest", this::manifest);
    routes.get("/api/books/{b}/iiif/{p}", this::service);
    routes.get("/api/books/{b}/iiif/{p}/info.json", this::info);
    routes.get("/api/books/{b}/iiif/{p}/full/{size}/0/default.jpg", this::image);
  }

  private void manifest(Context ctx) {
    Serving serving = Serving.of(library, guard, ctx);
    BookManifest book = new BookManifest(serving.served(), serving.map());
    Requests.etag(ctx, serving.revision());
    ctx.json(
        book.manifest()
            .orElseThrow(
                () ->
                    new ApiException(
                        ApiError.NO_PICTURE,
                        "No page of the book has one: it came without pages, or they were taken off"
                            + " the disk")));
    ctx.contentType(BookManifest.TYPE);
  }

  /** Image API 3.0, 2.1: the bare address of an image leads to what is said of it. */
  private void service(Context ctx) {
    PageCard page = page(ctx);
    ctx.redirect(
        guard.address(ctx)
            + "/api/books/"
            + ctx.pathParam("b")
            + "/iiif/"
            + page.id()
            + "/info.json",
        io.javalin.http.HttpStatus.SEE_OTHER);
  }

  private void info(Context ctx) {
    PageCard page = page(ctx);
    Serving serving = Serving.of(library, guard, ctx);
    Served.Leaf leaf = serving.served().page(page.index()).orElseThrow();
    ctx.json(new BookManifest(serving.served(), serving.map()).info(leaf));
    ctx.contentType(BookManifest.IMAGE_TYPE);
  }

  private void image(Context ctx) throws IOException {
    PageCard page = page(ctx);
    Sizes.Size size =
        Sizes.named(ctx.pathParam("size"), page.width(), page.height())
            .orElseThrow(
                () ->
                    new ApiException(
                        ApiError.BAD_REQUEST,
                        "There are fixed sizes only, "
                            + Sizes.of(page.width(), page.height())
                            + ", and max"));
    ctx.header("Cache-Control", "private, max-age=31536000, immutable");
    ctx.contentType("image/jpeg");
    ctx.result(Smaller.of(copies, ctx.pathParam("b"), page, size.width()));
  }

  private PageCard page(Context ctx) {
    PageCard page = Requests.page(library, ctx);
    if (page.picture().isEmpty()) {
      throw new ApiException(ApiError.NO_PICTURE, "The file could not be opened, or is gone");
    }
    return page;
  }
}
