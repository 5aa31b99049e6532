package org.barmap.work.books;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.barmap.exchange.table.CsvFile;
import org.barmap.library.WholeFile;
import org.barmap.map.json.BarMapJson;
import org.barmap.work.books.BookLine.State;

/**
 * The report on a library.
 *
 * @param books a line for each
 */
public record LibraryReport(List<BookLine> books) {

  private static final List<String> HEAD =
      List.of("book", "state", "pages", "bars", "doubts", "seconds", "map", "failures");

  /** Takes a defensive copy. */
  public LibraryReport {
    books = List.copyOf(books);
  }

  /** Writes {@code report.csv}, {@code report.json} and {@code report.txt}, each whole. */
  public void write(Path folder) throws IOException {
    StringBuilder csv = new StringBuilder();
    CsvFile.line(csv, HEAD);
    for (BookLine b : books) {
      CsvFile.line(csv, cells(b));
    }
    write(folder.resolve("report.csv"), csv.toString());
    write(folder.resolve("report.json"), BarMapJson.mapper().writeValueAsString(this) + "\n");
    write(folder.resolve("report.txt"), text());
  }

  private static List<String> cells(BookLine b) {
    return List.of(
        b.book(),
        b.state().name().toLowerCase(Locale.ROOT),
        Integer.toString(b.pages()),
        Integer.toString(b.bars()),
        Integer.toString(b.doubts()),
        String.format(Locale.ROOT, "%.1f", b.seconds()),
        b.map().orElse(""),
        String.join(" | ", b.failures()));
  }

  private static void write(Path file, String text) throws IOException {
    WholeFile.copy(new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8)), file);
  }

  /** Tells whether a book, or a page of one, could not be read. */
  public boolean failed() {
    return books.stream().anyMatch(b -> b.state() == State.FAILED || !b.failures().isEmpty());
  }

  /** Says it in words: a line for each book, one for each failure, the sums at the end. */
  public String text() {
    int width =
        Math.min(60, books.stream().mapToInt(b -> shown(b.book()).length()).max().orElse(4));
    StringBuilder out = new StringBuilder();
    row(out, width, "book", List.of("pages", "bars", "doubts", "seconds"), "");
    for (BookLine b : books) {
      String note =
          switch (b.state()) {
            case READ -> "";
            case UNCHANGED -> "  unchanged since it was read";
            case FAILED -> "  NOT READ";
          };
      row(out, width, shown(b.book()), cells(b).subList(2, 6), note);
      b.failures().forEach(f -> out.append("    ").append(shown(f)).append('\n'));
    }
    return out.append(sums()).append('\n').toString();
  }

  private static void row(
      StringBuilder out, int width, String name, List<String> figures, String note) {
    String cells =
        figures.stream()
            .map(f -> String.format(Locale.ROOT, "%8s", f))
            .collect(Collectors.joining());
    out.append(String.format(Locale.ROOT, "%-" + width + "s", name)).append(cells);
    out.append(note).append('\n');
  }

  /** Returns the sums in one line. */
  public String sums() {
    long read = books.stream().filter(b -> b.state() == State.READ).count();
    long unchanged = books.stream().filter(b -> b.state() == State.UNCHANGED).count();
    long bad = books.stream().filter(b -> b.state() == State.FAILED).count();
    long pages =
        books.stream()
            .filter(b -> b.state() != State.FAILED)
            .mapToLong(b -> b.failures().size())
            .sum();
    return books.size()
        + (books.size() == 1 ? " book: " : " books: ")
        + read
        + " read, "
        + unchanged
        + " unchanged, "
        + bad
        + " not read"
        + (pages == 0
            ? ""
            : "; " + pages + (pages == 1 ? " page" : " pages") + " of others failed");
  }

  /** A file's name is a stranger's text: what would steer a terminal is left out. */
  private static String shown(String text) {
    return text.replaceAll("\\p{Cntrl}", "");
  }
}
