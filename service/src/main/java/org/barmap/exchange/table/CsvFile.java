package org.barmap.exchange.table;

import java.io.IOException;
import java.util.List;

/**
 * CSV after RFC 4180: commas, CRLF, quotes doubled. Text that a spreadsheet would take for a
 * formula gets an apostrophe in front.
 */
public final class CsvFile {
  private CsvFile() {}

  /** Writes a table with its head. */
  public static void write(Table table, Appendable out) throws IOException {
    line(out, table.head());
    for (List<Cell> row : table.rows()) {
      joined(out, row.stream().map(CsvFile::said).toList());
    }
  }

  /** Writes one line of words. */
  public static void line(Appendable out, List<String> cells) throws IOException {
    joined(out, cells.stream().map(CsvFile::safe).toList());
  }

  private static void joined(Appendable out, List<String> cells) throws IOException {
    out.append(String.join(",", cells.stream().map(CsvFile::quoted).toList())).append("\r\n");
  }

  /** A negative number is no formula. */
  private static String said(Cell cell) {
    return cell instanceof Cell.Words words ? safe(words.text()) : cell.text();
  }

  private static String safe(String text) {
    return !text.isEmpty() && "=+-@\t\r".indexOf(text.charAt(0)) >= 0 ? "'" + text : text;
  }

  private static String quoted(String text) {
    return text.matches("(?s).*[\",\r\n].*") ? '"' + text.replace("\"", "\"\"") + '"' : text;
  }
}
