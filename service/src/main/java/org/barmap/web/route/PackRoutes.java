package org.barmap.web.route;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.UploadedFile;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.barmap.exchange.CutList;
import org.barmap.exchange.musicxml.UnreadableMusicXmlException;
import org.barmap.exchange.musicxml.book.ScoreBook;
import org.barmap.library.BookCard;
import org.barmap.library.Library;
import org.barmap.map.json.BarMapJson;
import org.barmap.pack.BadPackException;
import org.barmap.pack.PackOpener;
import org.barmap.pack.PackWriter;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.web.api.ApiError;
import org.barmap.web.api.ApiException;
import org.barmap.web.api.Requests;
import org.barmap.web.planned.Planning;
import org.barmap.work.Events;
import tools.jackson.core.type.TypeReference;
import tools.jackson.databind.node.ObjectNode;

/** A book in one file, out and in; a bar map and a list of changes in the same way. */
public record PackRoutes(Library library, Events events) {

  /** Adds them to the server. */
  public void register(RoutesConfig routes) {
    routes.get("/api/books/{b}/pack", this::pack);
    routes.post("/api/books/open", this::open);
    routes.post("/api/books/{b}/changes/open", this::changes);
    routes.post("/api/books/{b}/changes/read", this::readBack);
  }

  private void pack(Context ctx) throws IOException {
    BookCard book = Requests.book(library, ctx);
    boolean pictures = "true".equals(ctx.queryParam("pictures"));
    // whole before it is sent: a file that breaks off would look like one that arrived
    Path file = Files.createTempFile(library.pages().cache(), "pack", ".zip");
    try {
      try (var out = Files.newOutputStream(file)) {
        PackWriter.write(library, book, pictures, out);
      }
      ctx.contentType("application/zip");
      ctx.header(
          "Content-Disposition",
          "attachment; filename=\"" + ExportRoutes.fileName(book) + ".barpack.zip\"");
      ctx.header("Content-Length", String.valueOf(Files.size(file)));
      try (InputStream in = Files.newInputStream(file)) {
        in.transferTo(ctx.outputStream());
      }
    } finally {
      Files.deleteIfExists(file);
    }
  }

  private void open(Context ctx) throws IOException {
    UploadedFile upload =
        Upload.files(ctx::uploadedFiles).stream()
            .findFirst()
            .orElseThrow(() -> new ApiException(ApiError.NO_FILES, ApiError.NO_FILES.title()));
    Path file = Files.createTempFile(library.pages().cache(), "open", ".tmp");
    try {
      try (InputStream in = upload.content()) {
        Files.copy(in, file, StandardCopyOption.REPLACE_EXISTING);
      }
      BookCard book =
          ScoreBook.isScore(file)
              ? score(file, Upload.name(upload.filename()), part(ctx))
              : new PackOpener(library).open(file);
      ctx.status(201);
      ctx.header("Location", "/api/books/" + book.id());
      ctx.json(Views.book(library, book));
    } catch (BadPackException e) {
      String name = Upload.name(upload.filename());
      throw new ApiException(ApiError.REFUSED, name + " can't be opened: " + e.getMessage());
    } finally {
      Files.deleteIfExists(file);
    }
  }

  /**
   * A part of a score as a book without pages; where several may be meant the answer names them.
   */
  private BookCard score(Path file, String name, String part) throws BadPackException, IOException {
    try (InputStream in = Files.newInputStream(file)) {
      ScoreBook score = ScoreBook.read(name, in);
      OptionalInt found = score.part(part);
      if (found.isEmpty()) {
        String detail =
            part.isBlank() ? "Say which part is yours" : "It has no such part, or several";
        throw new ApiException(ApiError.WHICH_PART, detail, Map.of("parts", score.parts()));
      }
      return new PackOpener(library)
          .open(score.book(found.getAsInt()).map(), PackOpener.FROM_SCORE);
    } catch (UnreadableMusicXmlException e) {
      throw new BadPackException(String.valueOf(e.getMessage()));
    }
  }

  private static String part(Context ctx) {
    String part = ctx.queryParam("part");
    return part == null ? "" : part;
  }

  private void changes(Context ctx) {
    BookCard book = Requests.book(library, ctx);
    long revision = Requests.revision(ctx);
    try {
      var saved = new PackOpener(library).changes(book.id(), revision, ctx.body());
      long now = Requests.done(saved).now().revision();
      events.tell(book.id(), "plan", Map.of("revision", now));
      Requests.etag(ctx, now);
      ctx.json(Map.of("revision", now));
    } catch (BadPackException e) {
      throw new ApiException(ApiError.REFUSED, "The file can't be opened: " + e.getMessage());
    }
  }

  /**
   * A change of a file, before it is taken.
   *
   * @param change as it stands in the file
   * @param says it in words, with its number
   * @param here the book has one that says the same
   * @param on it is not switched off in the file
   */
  private record Told(ObjectNode change, String says, boolean here, boolean on) {}

  /** Says what a file of changes holds; stores nothing. */
  private void readBack(Context ctx) {
    BookCard book = Requests.book(library, ctx);
    try {
      List<ObjectNode> came = PackOpener.changesIn(ctx.body());
      Set<String> there =
          library.changes().find(book.id()).orElseThrow().value().stream()
              .map(PackRoutes::meaning)
              .collect(Collectors.toSet());
      ctx.json(
          Map.of(
              "changes",
              came.stream()
                  .map(
                      c -> {
                        ShowChange change = Planning.change(c);
                        return new Told(
                            c,
                            CutList.line(change),
                            there.contains(meaning(c)),
                            change.meta().on());
                      })
                  .toList()));
    } catch (BadPackException e) {
      throw new ApiException(ApiError.REFUSED, "The file can't be opened: " + e.getMessage());
    }
  }

  /** What a change says, whoever said it when. */
  private static String meaning(ObjectNode change) {
    ObjectNode bare = change.deepCopy();
    bare.remove(List.of("id", "when", "who"));
    return new TreeMap<>(
            BarMapJson.mapper().convertValue(bare, new TypeReference<Map<String, Object>>() {}))
        .toString();
  }
}
