package org.barmap.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.List;
import java.util.Optional;
import org.barmap.library.BookCard;
import org.barmap.library.Library;
import org.barmap.map.BarMap;
import org.barmap.plan.change.ShowChanges;
import org.barmap.sheet.SheetKind;
import org.barmap.sheet.SheetSettings;
import org.barmap.sheet.SheetSettings.Paper;
import org.barmap.sheet.Sheets;

/** Printed sheets. */
final class SheetRoutes {

  private final Library library;
  private final Planning planning;

  SheetRoutes(Library library, Planning planning) {
    this.library = library;
    this.planning = planning;
  }

  void register(RoutesConfig routes) {
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
    BarMap map = Requests.draft(library, ctx).value().map();
    ShowChanges changes = planning.changes(book);
    byte[] pdf =
        Sheets.pdf(
            map,
            changes,
            planning.plan(book, map, changes),
            List.of(kind),
            new SheetSettings(letter ? Paper.LETTER : Paper.A4, big));
    ctx.contentType("application/pdf");
    ctx.header("Content-Disposition", "inline; filename=\"" + kind.word() + ".pdf\"");
    ctx.result(pdf);
  }

  /** Returns the sheet an address names; run and erase are short for their whole names. */
  private static Optional<SheetKind> kind(String file) {
    String word = file.replaceFirst("\\.pdf$", "");
    return switch (word) {
      case "run" -> Optional.of(SheetKind.RUN_SHEET);
      case "erase" -> Optional.of(SheetKind.PENCIL);
      default -> SheetKind.of(word);
    };
  }
}
