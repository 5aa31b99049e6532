package org.barmap.web.route;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.UploadedFile;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.edit.draft.Draft;
import org.barmap.library.BookCard;
import org.barmap.library.Job;
import org.barmap.library.Jobs;
import org.barmap.library.Library;
import org.barmap.library.PageCard;
import org.barmap.library.Saved;
import org.barmap.library.WholeFile;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.page.PagePictures;
import org.barmap.web.api.ApiError;
import org.barmap.web.api.ApiException;
import org.barmap.web.api.Requests;
import org.barmap.web.picture.PageParts;
import org.barmap.web.picture.Smaller;
import org.barmap.work.Events;
import org.barmap.work.JobView;
import org.barmap.work.Worker;
import tools.jackson.databind.JsonNode;

/** Pages: uploaded, ordered, taken out, shown. */
public record PageRoutes(Library library, Worker worker, Events events) {

  /** Adds them to the server. */
  public void register(RoutesConfig routes) {
    routes.post("/api/books/{b}/pages", this::upload);
    routes.post("/api/books/{b}/pages/order", this::order);
    routes.post("/api/books/{b}/pages/skip", this::skip);
    routes.delete("/api/books/{b}/pages/{p}", this::remove);
    routes.delete("/api/books/{b}/pictures", this::removePictures);
    routes.post("/api/books/{b}/pages/{p}/again", this::again);
    routes.post("/api/books/{b}/pages/{p}/retake", this::retake);
    routes.get("/api/books/{b}/pages/{p}/image", this::image);
    routes.get("/api/books/{b}/pages/{p}/crop", this::crop);
  }

  /** A file that was not taken. */
  private record Refused(String name, String detail) {}

  private void upload(Context ctx) throws IOException {
    BookCard book = Requests.book(library, ctx);
    List<UploadedFile> files = Upload.files(() -> ctx.uploadedFiles("files"));
    if (files.isEmpty()) {
      throw new ApiException(ApiError.NO_FILES, "Send them as multipart field \"files\"");
    }
    if (book.pages() + files.size() > PagePictures.MAX_PAGES) {
      throw new ApiException(ApiError.TOO_MANY_PAGES, "Split it into several books");
    }
    List<Jobs.Upload> taken = new ArrayList<>();
    List<Refused> refused = new ArrayList<>();
    Path folder = library.pages().folder(book.id());
    for (UploadedFile file : files) {
      String name = Upload.name(file.filename());
      Optional<String> wrong = Upload.wrong(file);
      if (wrong.isPresent()) {
        refused.add(new Refused(name, wrong.get()));
      } else {
        taken.add(keep(folder, name, file));
      }
    }
    if (taken.isEmpty()) {
      throw new ApiException(
          ApiError.REFUSED,
          refused.get(0).name() + ": " + refused.get(0).detail(),
          Map.of("refused", refused));
    }
    fits(book, taken);
    Job job = library.jobs().add(book.id(), taken);
    worker.wake();
    ctx.status(202);
    ctx.json(
        Map.of(
            "job",
            JobView.of(job),
            "accepted",
            taken.stream().map(Jobs.Upload::name).toList(),
            "refused",
            refused));
  }

  /** Counts the pages inside the files; when they are too many for the book none is kept. */
  private void fits(BookCard book, List<Jobs.Upload> taken) throws IOException {
    int pages = book.pages();
    for (Jobs.Upload upload : taken) {
      int inside = worker.count(upload.file());
      pages += inside;
      if (pages > PagePictures.MAX_PAGES) {
        for (Jobs.Upload kept : taken) {
          Files.deleteIfExists(kept.file());
        }
        throw new ApiException(
            ApiError.TOO_MANY_PAGES,
            "%s has %d pages, with those before it the book would have %d; split it"
                .formatted(upload.name(), inside, pages));
      }
    }
  }

  private static Jobs.Upload keep(Path folder, String name, UploadedFile file) throws IOException {
    String id = Upload.id();
    Path to = folder.resolve(id + Upload.ending(name));
    try (InputStream in = file.content()) {
      WholeFile.copy(in, to);
    }
    return new Jobs.Upload(id, name, to);
  }

  private void order(Context ctx) {
    BookCard book = Requests.book(library, ctx);
    List<String> order = new ArrayList<>();
    for (JsonNode id : Requests.body(ctx).path("order")) {
      order.add(id.asString(""));
    }
    arranged(ctx, library.pages().order(book.id(), Requests.revision(ctx), order));
  }

  private void remove(Context ctx) {
    PageCard page = Requests.page(library, ctx);
    String book = ctx.pathParam("b");
    arranged(ctx, library.pages().remove(book, Requests.revision(ctx), page.id()));
    Views.forgotten(ctx);
  }

  /** The book goes back to its publisher: what was read stays, its pictures don't. */
  private void removePictures(Context ctx) {
    BookCard book = Requests.book(library, ctx);
    long there =
        library.pages().all(book.id()).stream().filter(p -> !p.picture().isEmpty()).count();
    Saved.Done<Draft> done =
        Requests.done(library.pages().removePictures(book.id(), Requests.revision(ctx)));
    events.mapChanged(book.id(), done.now().revision());
    Requests.etag(ctx, done.now().revision());
    Views.forgotten(ctx);
    ctx.json(Map.of("removed", there));
  }

  private void arranged(Context ctx, Saved<Draft> saved) {
    Saved.Done<Draft> done = Requests.done(saved);
    events.mapChanged(ctx.pathParam("b"), done.now().revision());
    Requests.etag(ctx, done.now().revision());
    ctx.status(204);
  }

  /** Gives up the page being read, for whoever does not want to wait any longer. */
  private void skip(Context ctx) {
    if (!worker.skip(Requests.book(library, ctx).id())) {
      throw new ApiException(ApiError.NO_PAGE, "No page of this book is being read");
    }
    ctx.status(204);
  }

  private void again(Context ctx) {
    PageCard page = Requests.page(library, ctx);
    long revision = Requests.revision(ctx);
    if (page.picture().isEmpty()) {
      throw new ApiException(ApiError.NO_PICTURE, "Upload it again");
    }
    String book = ctx.pathParam("b");
    Requests.done(library.pages().again(book, revision, page.id()));
    worker.wake();
    ctx.status(202);
    ctx.json(Map.of("job", JobView.of(library.jobs().latest(book).orElseThrow())));
  }

  /** The page of a new picture takes the place of this one. */
  private void retake(Context ctx) {
    PageCard old = Requests.page(library, ctx);
    String book = ctx.pathParam("b");
    long revision = Requests.revision(ctx);
    String with = Requests.text(Requests.body(ctx), "with", 40);
    if (library.pages().find(book, with).isEmpty()) {
      throw new ApiException(ApiError.NO_PAGE, "Name the page of the new picture");
    }
    Saved.Done<Draft> done =
        Requests.done(worker.settling().retake(book, revision, old.id(), with));
    Requests.etag(ctx, done.now().revision());
    ctx.json(Map.of("revision", done.now().revision(), "entry", Views.EntryView.of(done.entry())));
  }

  private void image(Context ctx) throws IOException {
    PageCard page = Requests.page(library, ctx);
    Path picture = picture(ctx, page);
    Optional<Integer> width = Requests.number(ctx, "width", 16, 6000);
    ctx.header("Cache-Control", "private, max-age=31536000, immutable");
    if (width.isEmpty() || width.get() >= page.width()) {
      ctx.contentType(Upload.type(picture));
      ctx.result(Files.newInputStream(picture));
      return;
    }
    // in steps, so that the cache stays small
    int wanted = (width.get() + 99) / 100 * 100;
    ctx.contentType("image/jpeg");
    ctx.result(Smaller.of(worker.copies(), ctx.pathParam("b"), page, wanted));
  }

  private void crop(Context ctx) throws IOException {
    PageCard page = Requests.page(library, ctx);
    String id = Optional.ofNullable(ctx.queryParam("bar")).orElse("");
    BarMap map = Requests.draft(library, ctx).value().map();
    Bar bar =
        map.bar(id)
            .filter(b -> b.page() == page.index())
            .orElseThrow(() -> new ApiException(ApiError.NO_BAR, "It is not on this page"));
    int many = Requests.number(ctx, "bars", 1, 100).orElse(1);
    List<Bar> bars = PageParts.lineFrom(map, bar).stream().limit(many).toList();
    int width = Requests.number(ctx, "width", 16, 3000).orElse(3000);
    ctx.contentType("image/jpeg");
    ctx.header("Cache-Control", "private, no-cache");
    ctx.result(PageParts.jpeg(picture(ctx, page), bars, width));
  }

  private Path picture(Context ctx, PageCard page) {
    if (page.picture().isEmpty()) {
      throw new ApiException(ApiError.NO_PICTURE, "The file could not be opened");
    }
    return library.pages().picture(ctx.pathParam("b"), page);
  }
}
