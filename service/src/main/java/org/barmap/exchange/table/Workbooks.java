package org.barmap.exchange.table;

import java.io.IOException;
import java.io.OutputStream;
import java.util.List;
import org.dhatim.fastexcel.Workbook;
import org.dhatim.fastexcel.Worksheet;

/**
 * A workbook (.xlsx) with a sheet for each table: the head stays in sight, columns are as wide as
 * what is in them, numbers are numbers. All words are typed as text, so none is a formula.
 */
public final class Workbooks {

  /** As much as a cell takes (Office Open XML, as spreadsheets limit it). */
  private static final int MOST_LETTERS = 32_767;

  /** Widths in letters: the narrowest column, the widest, and what stands free beside the words. */
  private static final int NARROW = 6;

  private static final int WIDE = 60;
  private static final int FREE = 2;

  /** So many rows tell how wide a column is. */
  private static final int LOOKED_AT = 2000;

  private Workbooks() {}

  /** Writes a workbook. */
  public static void write(List<Table> tables, OutputStream out) throws IOException {
    try (Workbook book = new Workbook(out, "barmap", "1.0")) {
      for (Table table : tables) {
        sheet(book.newWorksheet(table.name()), table);
      }
    }
  }

  private static void sheet(Worksheet sheet, Table table) {
    int columns = table.head().size();
    for (int c = 0; c < columns; c++) {
      sheet.value(0, c, table.head().get(c));
      sheet.width(c, width(table, c));
    }
    sheet.range(0, 0, 0, columns - 1).style().bold().wrapText(true).verticalAlignment("top").set();
    sheet.freezePane(0, 1);
    for (int r = 0; r < table.rows().size(); r++) {
      List<Cell> row = table.rows().get(r);
      for (int c = 0; c < columns; c++) {
        put(sheet, r + 1, c, row.get(c));
      }
    }
    sheet.setAutoFilter(0, 0, table.rows().size(), columns - 1);
  }

  private static void put(Worksheet sheet, int row, int column, Cell cell) {
    if (cell instanceof Cell.Whole whole) {
      sheet.value(row, column, whole.value());
      sheet.style(row, column).format("0").set();
    } else if (cell instanceof Cell.Measured measured) {
      sheet.value(row, column, measured.value());
      sheet.style(row, column).format("0.0#").set();
    } else if (!cell.text().isEmpty()) {
      String text = clean(cell.text());
      sheet.value(row, column, text);
      if (text.length() > WIDE) {
        sheet.style(row, column).wrapText(true).verticalAlignment("top").set();
      } else {
        sheet.style(row, column).format("@").set();
      }
    }
  }

  /** XML has no sign for most control characters. */
  private static String clean(String text) {
    String clean = text.replaceAll("[\\p{Cntrl}&&[^\\t\\n\\r]]|[\\uFFFE\\uFFFF]", "");
    return clean.length() > MOST_LETTERS ? clean.substring(0, MOST_LETTERS) : clean;
  }

  private static double width(Table table, int column) {
    int most = table.head().get(column).length();
    for (List<Cell> row : table.rows().subList(0, Math.min(LOOKED_AT, table.rows().size()))) {
      most = Math.max(most, row.get(column).text().length());
    }
    return Math.max(NARROW, Math.min(WIDE, most)) + FREE;
  }
}
