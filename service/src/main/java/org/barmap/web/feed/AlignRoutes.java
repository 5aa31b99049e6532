package org.barmap.web.feed;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.exchange.chair.AlignTable;
import org.barmap.exchange.chair.Carrying;
import org.barmap.exchange.chair.DirectorList;
import org.barmap.library.BookCard;
import org.barmap.library.Library;
import org.barmap.library.Settings;
import org.barmap.library.Versioned;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import org.barmap.pack.BadPackException;
import org.barmap.pack.PackOpener;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.web.access.Role;
import org.barmap.web.access.Who;
import org.barmap.web.api.ApiError;
import org.barmap.web.api.ApiException;
import org.barmap.web.api.Guard;
import org.barmap.web.api.OtherPart;
import org.barmap.web.api.Requests;
import org.barmap.work.Events;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * Another part of the show beside a book's: whose bars are called what, and changes carried over.
 */
public record AlignRoutes(Library library, Events events) {

  private static final int MOST_LETTERS = 60;
  private static final int MOST_LIST = 100_000;

  /** Adds them to the server. */
  public void register(RoutesConfig routes) {
    routes.get("/api/books/{b}/align", this::show);
    routes.put("/api/books/{b}/align", this::set);
    routes.delete("/api/books/{b}/align", this::remove);
    routes.post("/api/books/{b}/align/list", this::list);
    routes.post("/api/books/{b}/align/carry", this::carry);
  }

  private void show(Context ctx) {
    BookCard book = Requests.book(library, ctx);
    Versioned<Settings> settings = library.books().versionedSettings(book.id());
    answer(ctx, book, settings.value().director(), settings.revision());
  }

  private void answer(
      Context ctx, BookCard book, Optional<Settings.Director> director, long revision) {
    Map<String, Object> answer = new LinkedHashMap<>();
    answer.put("revision", revision);
    answer.put("may", may(ctx));
    director.ifPresent(d -> answer.put("pins", d.pins()));
    Optional<OtherPart> other = director.flatMap(d -> OtherPart.of(library, book.id(), d));
    if (director.isPresent() && other.isEmpty()) {
      answer.put("gone", true);
      director.flatMap(Settings.Director::called).ifPresent(c -> answer.put("called", c));
    }
    boolean all = !"changes".equals(ctx.queryParam("only"));
    other.ifPresent(o -> tell(o, book, all, answer));
    Requests.etag(ctx, revision);
    ctx.json(answer);
  }

  private void tell(OtherPart o, BookCard book, boolean all, Map<String, Object> answer) {
    BookCard card = o.card();
    answer.put("other", Map.of("id", card.id(), "title", card.title(), "part", card.part()));
    answer.put("changes", o.spans(changes(book.id())));
    if (all) {
      answer.put("table", AlignTable.of(o.parts(), o.here(), o.there()));
    } else {
      answer.put("otherwise", AlignTable.otherwise(o.parts()));
    }
  }

  private List<ShowChange> changes(String book) {
    return library.changes().find(book).map(Versioned::value).orElse(List.of()).stream()
        .map(ChangesJson::readOne)
        .toList();
  }

  private void set(Context ctx) {
    BookCard book = Requests.book(library, ctx);
    long revision = Requests.revision(ctx);
    ObjectNode body = Requests.body(ctx);
    String other = Requests.text(body, "book", MOST_LETTERS);
    List<Settings.Pin> pins = new ArrayList<>();
    for (JsonNode pin : body.path("pins")) {
      if (!(pin instanceof ObjectNode one) || pins.size() == Settings.MOST_PINS) {
        throw new ApiException(ApiError.BAD_REQUEST, "A pin has number, here and there");
      }
      String here = Requests.text(one, "here", MOST_LETTERS);
      String there = Requests.text(one, "there", MOST_LETTERS);
      if (here.isEmpty() || there.isEmpty()) {
        throw new ApiException(ApiError.REFUSED, "Say a bar of this book and one of the other");
      }
      pins.add(new Settings.Pin(Requests.text(one, "number", MOST_LETTERS), here, there));
    }
    Settings now = library.books().settings(book.id());
    boolean known = now.director().map(d -> d.book().equals(other)).orElse(false);
    if (!known) {
      ofTheShelf(ctx);
    }
    Settings.Director director = new Settings.Director(other, pins);
    OtherPart laid =
        Optional.of(other)
            .filter(o -> !o.equals(book.id()))
            .flatMap(o -> OtherPart.of(library, book.id(), director))
            .orElseThrow(
                () -> new ApiException(ApiError.NO_BOOK, "Choose another book of the shelf"));
    List<String> problems = laid.parts().problems();
    if (!problems.isEmpty() && pins.size() > now.director().map(d -> d.pins().size()).orElse(0)) {
      throw new ApiException(ApiError.REFUSED, String.join(" ", problems));
    }
    keep(ctx, book, revision, now, Optional.of(director));
  }

  /** What the one who asks may do here, so that a page shows nothing that would be refused. */
  private static String may(Context ctx) {
    Optional<Who> who = Guard.whoAsks(ctx);
    if (who.filter(Who.Owner.class::isInstance).isPresent()) {
      return "choose";
    }
    return who.filter(w -> w.role() == Role.OWNER).isPresent() ? "name" : "look";
  }

  /** A key of one book tells nothing of the others on the shelf. */
  private static void ofTheShelf(Context ctx) {
    if (Guard.whoAsks(ctx).filter(Who.Owner.class::isInstance).isEmpty()) {
      throw new ApiException(
          ApiError.NOT_YOURS, "Whoever has the shelf chooses which book is laid beside this one");
    }
  }

  private void remove(Context ctx) {
    BookCard book = Requests.book(library, ctx);
    long revision = Requests.revision(ctx);
    keep(ctx, book, revision, library.books().settings(book.id()), Optional.empty());
  }

  private void keep(
      Context ctx,
      BookCard book,
      long revision,
      Settings now,
      Optional<Settings.Director> director) {
    if (!library.books().setSettings(book.id(), revision, now.withDirector(director))) {
      throw new ApiException(ApiError.STALE, "Someone set it meanwhile; load it again");
    }
    events.settingsChanged(book.id(), revision + 1);
    answer(ctx, book, director, revision + 1);
  }

  /** A list of the director's bar numbers becomes a book of the shelf, without pages. */
  private void list(Context ctx) throws IOException {
    BookCard book = Requests.book(library, ctx);
    String text = Requests.text(Requests.body(ctx), "text", MOST_LIST);
    DirectorList.Read read = DirectorList.read(text, book.title(), "Director");
    BarMap map =
        read.map()
            .orElseThrow(
                () ->
                    new ApiException(
                        ApiError.REFUSED,
                        String.join(" ", read.problems()),
                        Map.of("reasons", read.problems())));
    ofTheShelf(ctx);
    Path file = Files.createTempFile(library.pages().cache(), "list", ".tmp");
    try {
      Files.writeString(file, BarMapJson.write(map), StandardCharsets.UTF_8);
      BookCard made = new PackOpener(library).open(file);
      ctx.status(201);
      ctx.json(Map.of("id", made.id(), "title", made.title(), "part", made.part()));
    } catch (BadPackException e) {
      throw new ApiException(ApiError.REFUSED, "The list can't be kept: " + e.getMessage());
    } finally {
      Files.deleteIfExists(file);
    }
  }

  /** Says changes of one part in the bars of the other; stores nothing. */
  private void carry(Context ctx) {
    BookCard book = Requests.book(library, ctx);
    String to = Requests.text(Requests.body(ctx), "to", MOST_LETTERS);
    if (!to.equals("here") && !to.equals("there")) {
      throw new ApiException(ApiError.BAD_REQUEST, "\"to\" is here or there");
    }
    boolean out = to.equals("there");
    if (!out) {
      ofTheShelf(ctx);
    }
    OtherPart other =
        OtherPart.of(library, book.id())
            .orElseThrow(() -> new ApiException(ApiError.NOT_FOUND, "Choose the other book first"));
    Carrying.Carried carried =
        out
            ? Carrying.carry(other.parts(), changes(book.id()))
            : Carrying.carry(other.parts().turned(), changes(other.card().id()));
    Map<String, Object> answer = new LinkedHashMap<>();
    answer.put("format", ShowChanges.FORMAT);
    answer.put("changes", carried.changes().stream().map(ChangesJson::tree).toList());
    answer.put(
        "left",
        carried.left().stream()
            .map(l -> Map.of("id", l.change().meta().id(), "says", l.says(), "why", l.why()))
            .toList());
    ctx.json(answer);
  }
}
