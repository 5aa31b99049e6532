package org.barmap.web.route;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.UploadedFile;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.edit.draft.Draft;
import org.barmap.exchange.musicxml.MusicXmlReader;
import org.barmap.exchange.musicxml.UnreadableMusicXmlException;
import org.barmap.library.BookCard;
import org.barmap.library.Library;
import org.barmap.library.Saved;
import org.barmap.library.SecondCard;
import org.barmap.library.WholeFile;
import org.barmap.map.SecondReading;
import org.barmap.web.api.ApiError;
import org.barmap.web.api.ApiException;
import org.barmap.web.api.Requests;
import org.barmap.work.Worker;

/** A second reading of a book's music: attached, its part chosen, taken away. */
public record SecondRoutes(Library library, Worker worker) {

  private static final long MAX_BYTES = 32L << 20;

  /** Adds them to the server. */
  public void register(RoutesConfig routes) {
    routes.get("/api/books/{b}/second", this::show);
    routes.post("/api/books/{b}/second", this::attach);
    routes.put("/api/books/{b}/second", this::choose);
    routes.delete("/api/books/{b}/second", this::remove);
  }

  private void show(Context ctx) {
    long revision = Requests.draft(library, ctx).revision();
    answer(ctx, revision, library.seconds().find(ctx.pathParam("b")));
  }

  private void attach(Context ctx) throws IOException {
    BookCard book = Requests.book(library, ctx);
    long revision = Requests.revision(ctx);
    List<UploadedFile> files = Upload.files(() -> ctx.uploadedFiles("files"));
    if (files.size() != 1) {
      throw new ApiException(ApiError.NO_FILES, "Send one file as multipart field \"files\"");
    }
    UploadedFile file = files.get(0);
    if (file.size() > MAX_BYTES) {
      throw new ApiException(ApiError.TOO_LARGE, "A score has 32 MB at most");
    }
    SecondReading reading = read(file);
    Path kept = library.pages().folder(book.id()).resolve(Upload.id() + ".score");
    try (InputStream in = file.content()) {
      WholeFile.copy(in, kept);
    }
    library.pages().keep(book.id(), kept);
    SecondCard card =
        new SecondCard(
            reading.source(), kept.getFileName().toString(), own(reading, book), parts(reading));
    boolean taken = false;
    try {
      save(ctx, revision, Optional.of(card));
      taken = true;
    } finally {
      if (!taken) {
        library.pages().drop(book.id(), kept.getFileName().toString());
      }
    }
  }

  private static SecondReading read(UploadedFile file) throws IOException {
    try (InputStream in = file.content()) {
      return MusicXmlReader.read(Upload.name(file.filename()), in);
    } catch (UnreadableMusicXmlException e) {
      throw new ApiException(
          ApiError.REFUSED, "This is no MusicXML file that can be read: " + e.getMessage());
    }
  }

  /** The part that must be this chair's: the only one, or the only one called like the book's. */
  private static String own(SecondReading reading, BookCard book) {
    List<SecondReading.Part> parts =
        reading.parts().size() == 1 || book.part().isBlank()
            ? reading.parts()
            : reading.partsNamed(book.part());
    return parts.size() == 1 ? parts.get(0).id() : "";
  }

  private static List<SecondCard.PartCard> parts(SecondReading reading) {
    return reading.parts().stream()
        .map(p -> new SecondCard.PartCard(p.id(), p.name(), p.measures().size()))
        .toList();
  }

  private void choose(Context ctx) throws IOException {
    Requests.book(library, ctx);
    long revision = Requests.revision(ctx);
    String part = Requests.text(Requests.body(ctx), "part", 200);
    SecondCard card =
        library
            .seconds()
            .find(ctx.pathParam("b"))
            .orElseThrow(() -> new ApiException(ApiError.NOT_FOUND, "Attach a score first"));
    if (card.parts().stream().noneMatch(p -> p.id().equals(part))) {
      throw new ApiException(ApiError.REFUSED, "The score has no such part");
    }
    save(ctx, revision, Optional.of(card.withPart(part)));
  }

  private void remove(Context ctx) throws IOException {
    Requests.book(library, ctx);
    save(ctx, Requests.revision(ctx), Optional.empty());
  }

  private void save(Context ctx, long revision, Optional<SecondCard> second) throws IOException {
    String book = ctx.pathParam("b");
    Optional<SecondCard> before = library.seconds().find(book);
    Saved.Done<Draft> done = Requests.done(worker.settling().second(book, revision, second));
    if (before.isPresent() && !before.map(SecondCard::file).equals(second.map(SecondCard::file))) {
      library.pages().drop(book, before.get().file());
    }
    answer(ctx, done.now().revision(), second);
  }

  private static void answer(Context ctx, long revision, Optional<SecondCard> second) {
    Requests.etag(ctx, revision);
    Map<String, Object> answer = new LinkedHashMap<>();
    answer.put("revision", revision);
    second.ifPresent(
        s -> answer.put("second", Map.of("name", s.name(), "part", s.part(), "parts", s.parts())));
    ctx.json(answer);
  }
}
