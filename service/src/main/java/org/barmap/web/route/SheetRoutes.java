package org.barmap.web.route;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.barmap.library.BookCard;
import org.barmap.library.Library;
import org.barmap.library.PageCard;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.plan.Plan;
import org.barmap.plan.change.ShowChanges;
import org.barmap.sheet.Pieces;
import org.barmap.sheet.SheetKind;
import org.barmap.sheet.SheetSettings;
import org.barmap.sheet.SheetSettings.Paper;
import org.barmap.sheet.Sheets;
import org.barmap.web.api.ApiError;
import org.barmap.web.api.ApiException;
import org.barmap.web.api.OtherPart;
import org.barmap.web.api.Requests;
import org.barmap.web.picture.PageParts;
import org.barmap.web.planned.Planning;

/** Printed sheets. */
public record SheetRoutes(Library library, Planning planning) {

  /** Pixels across a printed piece of a page: about 200 to the inch. */
  private static final int PIECE_WIDTH = 1500;

  /** Adds them to the server. */
  public void register(RoutesConfig routes) {
    routes.get("/api/books/{b}/sheets/{sheet}", this::sheet);
  }

  private void sheet(Context ctx) {
    BookCard book = Requests.book(library, ctx);
    SheetKind kind =
        kind(ctx.pathParam("sheet"))
            .orElseThrow(
                () -> new ApiException(ApiError.NOT_FOUND, "There is no sheet of that name"));
    boolean letter = "letter".equalsIgnoreCase(ctx.queryParam("paper"));
    boolean big = "true".equals(ctx.queryParam("big"));
    boolean crops = !"false".equals(ctx.queryParam("crops"));
    BarMap map = Requests.draft(library, ctx).value().map();
    ShowChanges changes = planning.changes(book);
    Plan plan = planning.plan(book, map, changes);
    Optional<String> number = Optional.ofNullable(ctx.queryParam("number"));
    byte[] pdf =
        Sheets.pdf(
            map,
            changes,
            plan,
            List.of(kind),
            new SheetSettings(letter ? Paper.LETTER : Paper.A4, big)
                .with(LocalDateTime.now(ZoneId.systemDefault()), number)
                .beside(
                    beside(book, changes),
                    OtherPart.of(library, book.id()).map(o -> o.words().their())),
            crops ? pieces(ctx, map) : Pieces.none(),
            MarkRoutes.written(library, book.id()));
    ctx.contentType("application/pdf");
    ctx.header("Content-Disposition", "inline; filename=\"" + kind.word() + ".pdf\"");
    ctx.result(pdf);
  }

  /** The bars of the changes in the part that lies beside this book, if one does. */
  private Map<String, String> beside(BookCard book, ShowChanges changes) {
    Map<String, String> said = new HashMap<>();
    OtherPart.of(library, book.id())
        .ifPresent(
            o -> o.spans(changes.changes()).forEach((id, s) -> said.put(id, o.name() + ": " + s)));
    return said;
  }

  /** Cuts the line from a bar on out of the page's picture, where there is one. */
  private Pieces pieces(Context ctx, BarMap map) {
    Map<Integer, PageCard> pages =
        library.pages().all(ctx.pathParam("b")).stream()
            .collect(Collectors.toMap(PageCard::index, p -> p, (a, b) -> a));
    return bar -> {
      PageCard page = pages.get(bar.page());
      if (page == null || page.picture().isEmpty()) {
        return Optional.empty();
      }
      List<Bar> line = PageParts.lineFrom(map, bar);
      try {
        return Optional.of(
            PageParts.forPaper(
                library.pages().picture(ctx.pathParam("b"), page), line, PIECE_WIDTH));
      } catch (IOException e) {
        return Optional.empty(); // the slip is right without it
      }
    };
  }

  /** Returns the sheet an address names; run is short for its whole name. */
  private static Optional<SheetKind> kind(String file) {
    String word = file.replaceFirst("\\.pdf$", "");
    return word.equals("run") ? Optional.of(SheetKind.RUN_SHEET) : SheetKind.of(word);
  }
}
