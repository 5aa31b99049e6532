package org.barmap.web.route;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Pattern;
import org.barmap.exchange.CutList;
import org.barmap.exchange.Errata;
import org.barmap.exchange.NotWrittenException;
import org.barmap.exchange.NotationFile;
import org.barmap.exchange.chair.ChairBars;
import org.barmap.exchange.table.BookTables;
import org.barmap.exchange.table.CsvFile;
import org.barmap.exchange.table.Table;
import org.barmap.exchange.table.Workbooks;
import org.barmap.library.BookCard;
import org.barmap.library.Library;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.PlanJson;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.ShowChanges;
import org.barmap.web.api.ApiError;
import org.barmap.web.api.ApiException;
import org.barmap.web.api.OtherPart;
import org.barmap.web.api.Requests;
import org.barmap.web.planned.Planning;
import org.barmap.web.site.SubstitutePage;

/** What leaves barmap as a file: the map and the changes in other forms, never a page's picture. */
public record ExportRoutes(Library library, Planning planning) {

  private static final Pattern TEMPO = Pattern.compile("\\d{1,3}(?:\\.\\d{1,3})?");
  private static final String CSV = "text/csv; charset=utf-8";
  private static final String WORKBOOK =
      "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

  /** Adds them to the server. */
  public void register(RoutesConfig routes) {
    routes.get("/api/books/{b}/export/{form}", this::export);
  }

  /** A file to save. */
  private record Made(String type, String ending, byte[] bytes) {

    static Made text(String type, String ending, String text) {
      return new Made(type, ending, text.getBytes(StandardCharsets.UTF_8));
    }
  }

  private void export(Context ctx) throws IOException {
    BookCard book = Requests.book(library, ctx);
    BarMap map = Requests.draft(library, ctx).value().map();
    String form = ctx.pathParam("form");
    Optional<NotationFile.Form> notation = NotationFile.Form.of(form);
    Made made =
        notation.isPresent() ? notation(notation.get(), ctx, book, map) : made(form, book, map);
    ctx.contentType(made.type());
    ctx.header(
        "Content-Disposition",
        "attachment; filename=\"" + fileName(book) + "." + made.ending() + "\"");
    ctx.result(made.bytes());
  }

  private Made notation(NotationFile.Form form, Context ctx, BookCard book, BarMap map)
      throws IOException {
    String number = Optional.ofNullable(ctx.queryParam("number")).orElse("").strip();
    NotationFile.Source source =
        new NotationFile.Source(
            map,
            () -> planning.plan(book, map, planning.changes(book)),
            number.isEmpty() ? Optional.empty() : Optional.of(number),
            tempo(ctx));
    try {
      NotationFile file = NotationFile.of(form, source);
      return new Made(file.type(), file.ending(), file.bytes());
    } catch (NotWrittenException e) {
      throw new ApiException(ApiError.REFUSED, String.valueOf(e.getMessage()));
    }
  }

  /** Beats a minute where the book says no tempo. */
  private static OptionalDouble tempo(Context ctx) {
    String said = Optional.ofNullable(ctx.queryParam("tempo")).orElse("").strip();
    if (said.isEmpty()) {
      return OptionalDouble.empty();
    }
    if (!TEMPO.matcher(said).matches()
        || Double.parseDouble(said) < NotationFile.LEAST_TEMPO
        || Double.parseDouble(said) > NotationFile.MOST_TEMPO) {
      throw new ApiException(
          ApiError.BAD_REQUEST,
          "tempo is beats a minute, from "
              + NotationFile.LEAST_TEMPO
              + " to "
              + NotationFile.MOST_TEMPO);
    }
    return OptionalDouble.of(Double.parseDouble(said));
  }

  private Made made(String form, BookCard book, BarMap map) throws IOException {
    Optional<BookTables.Kind> table =
        form.startsWith("table-")
            ? BookTables.Kind.of(form.substring("table-".length()))
            : Optional.empty();
    if (table.isPresent()) {
      String word = table.get().word();
      return Made.text(CSV, word + ".csv", csv(tables(book, map).of(table.get())));
    }
    return switch (form) {
      case "xlsx" -> new Made(WORKBOOK, "xlsx", workbook(tables(book, map)));
      case "map" -> Made.text("application/json", "barmap.json", BarMapJson.write(map));
      case "csv", "bars" -> Made.text(CSV, "csv", csv(BookTables.bars(map)));
      case "changes" ->
          Made.text("application/json", "changes.json", ChangesJson.write(planning.changes(book)));
      case "cutlist" ->
          Made.text("text/plain; charset=utf-8", "cuts.txt", String.join("\n", cuts(book)) + "\n");
      case "substitute" ->
          Made.text(
              "text/html; charset=utf-8",
              "substitute.html",
              SubstitutePage.html(map, planning.plan(book, map, planning.changes(book))));
      case "errata" -> Made.text(CSV, "errata.csv", errata(book, map));
      case "plan" ->
          Made.text(
              "application/json",
              "barplan.json",
              PlanJson.write(planning.plan(book, map, planning.changes(book))));
      default -> throw new ApiException(ApiError.NOT_FOUND, "There is no export of that name");
    };
  }

  private String errata(BookCard book, BarMap map) throws IOException {
    StringBuilder table = new StringBuilder();
    Errata.write(Errata.of(map, planning.plan(book, map, planning.changes(book)).notes()), table);
    return table.toString();
  }

  /** The changes in words; beside them the other part's bars, where one lies beside this book. */
  private List<String> cuts(BookCard book) {
    ShowChanges changes = planning.changes(book);
    return OtherPart.of(library, book.id())
        .map(o -> new ChairBars(o.parts()).beside(changes.active(), o.name()))
        .orElseGet(() -> CutList.lines(changes));
  }

  private BookTables tables(BookCard book, BarMap map) {
    ShowChanges changes = planning.changes(book);
    return new BookTables(map, planning.plan(book, map, changes), changes);
  }

  private static byte[] workbook(BookTables tables) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    Workbooks.write(tables.all(), out);
    return out.toByteArray();
  }

  private static String csv(Table table) throws IOException {
    StringBuilder text = new StringBuilder();
    CsvFile.write(table, text);
    return text.toString();
  }

  /** Returns a name any file system takes: letters, figures and hyphens. */
  static String fileName(BookCard book) {
    String name = (book.title() + "-" + book.part()).replaceAll("[^A-Za-z0-9]+", "-");
    String trimmed = name.replaceAll("^-+|-+$", "");
    String some = Optional.of(trimmed).filter(n -> !n.isEmpty()).orElse("book");
    return some.length() > 80 ? some.substring(0, 80) : some;
  }
}
