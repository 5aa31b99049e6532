package org.barmap.exchange.table;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.barmap.exchange.musicxml.Scores;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.Enclosure;
import org.barmap.map.Outline;
import org.barmap.map.Placement;
import org.barmap.map.RehearsalMark;
import org.barmap.map.Word;
import org.barmap.plan.Plan;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.kind.Cut;
import org.barmap.plan.change.say.Meta;
import org.dhatim.fastexcel.reader.CellType;
import org.dhatim.fastexcel.reader.ReadableWorkbook;
import org.dhatim.fastexcel.reader.Row;
import org.dhatim.fastexcel.reader.Sheet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Tables read back by parsers of others: Apache Commons CSV, fastexcel-reader, and as bare XML. */
class TablesTest {

  @TempDir Path folder;

  /** What a spreadsheet takes for a formula (OWASP, CSV injection), and what breaks lines. */
  private static final List<String> HOSTILE =
      List.of(
          "=1+1",
          "+1",
          "-1",
          "@SUM(A1)",
          "\t=1",
          "\r=1",
          "a\u0001b",
          "say \"go\", then\r\nwait",
          "=cmd|' /C calc'!A0");

  private static BookTables saltmarsh() throws IOException {
    BarMap map = Scores.saltmarsh();
    ShowChanges changes =
        new ShowChanges(List.of(new Cut(Meta.of("c1").noted(Optional.of("=2+2")), "7", "9", "12")));
    return new BookTables(map, Planner.plan(map, changes, PlanSettings.USUAL), changes);
  }

  private static String csv(Table table) throws IOException {
    StringBuilder out = new StringBuilder();
    CsvFile.write(table, out);
    return out.toString();
  }

  private static List<CSVRecord> read(String text) throws IOException {
    try (CSVParser parser = CSVParser.parse(text, CSVFormat.RFC4180)) {
      return parser.getRecords();
    }
  }

  @Test
  void oneLineForEveryEntryOfTheDemoBook() throws Exception {
    BarMap map = Scores.saltmarsh();
    List<String> lines = csv(BookTables.bars(map)).lines().toList();
    assertThat(lines).hasSize(map.bars().size() + 1);
    assertThat(lines.get(1)).startsWith("1,Flood Tide (Overture),1,1,1,1,,4/4,");
    assertThat(lines.get(lines.size() - 1)).startsWith("8,Saltmarsh (Finale and Bows),9,11,57,1,");
  }

  /** Source: RFC 4180 for quoting; a leading = would run as a formula in a spreadsheet. */
  @Test
  void quotesAndDisarmsText() throws Exception {
    Bar bar =
        Bar.builder("b1", 1, 1, Outline.box(0, 0, 1, 1))
            .rehearsal(new RehearsalMark("=1+1", Enclosure.BOX))
            .words(List.of(new Word("say \"go\", then wait", Placement.ABOVE, Optional.empty())))
            .build();
    BarMap map = BarMap.of(new Book("", ""), List.of(), List.of(), List.of(bar));
    assertThat(csv(BookTables.bars(map)))
        .contains(",'=1+1,")
        .contains(",\"say \"\"go\"\", then wait\",")
        .endsWith("\r\n");
  }

  @Test
  void everyTableIsReadBackAsItWasWritten() throws Exception {
    for (Table table : saltmarsh().all()) {
      List<CSVRecord> records = read(csv(table));
      assertThat(records).as(table.name()).hasSize(table.rows().size() + 1);
      assertThat(records.get(0).toList()).isEqualTo(table.head());
      for (int r = 0; r < table.rows().size(); r++) {
        List<Cell> row = table.rows().get(r);
        for (int c = 0; c < row.size(); c++) {
          String came = records.get(r + 1).get(c);
          String text = row.get(c).text();
          assertThat(came).isIn(text, "'" + text);
          assertThat(came.isEmpty() ? ' ' : came.charAt(0)).isNotIn('=', '@', '+', '\t', '\r');
        }
      }
    }
  }

  @Test
  void theTablesSayWhatThePlanSays() throws Exception {
    BookTables tables = saltmarsh();
    Plan plan = tables.plan();
    assertThat(tables.of(BookTables.Kind.NUMBERS).rows()).hasSameSizeAs(plan.runSheet());
    assertThat(tables.of(BookTables.Kind.TURNS).rows()).hasSameSizeAs(plan.turns()).isNotEmpty();
    assertThat(tables.of(BookTables.Kind.RESTS).rows()).hasSameSizeAs(plan.rests()).isNotEmpty();
    assertThat(tables.of(BookTables.Kind.MARKS).rows()).hasSameSizeAs(plan.pencil()).isNotEmpty();
    List<Cell> change = tables.of(BookTables.Kind.CHANGES).rows().get(0);
    assertThat(change.stream().map(Cell::text).toList())
        .startsWith("7", "cut 9 to 12", "9", "12", "cut", "yes", "=2+2");
  }

  private static byte[] workbook(List<Table> tables) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    Workbooks.write(tables, out);
    return out.toByteArray();
  }

  @Test
  void theWorkbookHasASheetForEachAndNumbersAreNumbers() throws Exception {
    List<Table> tables = saltmarsh().all();
    try (ReadableWorkbook book = new ReadableWorkbook(new ByteArrayInputStream(workbook(tables)))) {
      List<Sheet> sheets = book.getSheets().toList();
      assertThat(sheets.stream().map(Sheet::getName).toList())
          .containsExactly("Bars", "Numbers", "Changes", "Turns", "Rests", "Marks");
      for (int i = 0; i < tables.size(); i++) {
        same(sheets.get(i).read(), tables.get(i));
      }
    }
  }

  private static void same(List<Row> rows, Table table) {
    assertThat(rows).hasSize(table.rows().size() + 1);
    for (int r = 0; r < table.rows().size(); r++) {
      for (int c = 0; c < table.head().size(); c++) {
        Cell cell = table.rows().get(r).get(c);
        Optional<org.dhatim.fastexcel.reader.Cell> came = rows.get(r + 1).getOptionalCell(c);
        if (cell.text().isEmpty()) {
          assertThat(came.map(x -> x.getRawValue()).orElse("")).isNullOrEmpty();
        } else if (cell instanceof Cell.Words) {
          assertThat(came.orElseThrow().getType()).isEqualTo(CellType.STRING);
          assertThat(came.orElseThrow().asString()).isEqualTo(cell.text());
        } else {
          assertThat(came.orElseThrow().getType()).isEqualTo(CellType.NUMBER);
          assertThat(came.orElseThrow().asNumber().doubleValue())
              .isEqualTo(Double.parseDouble(cell.text()));
        }
      }
    }
  }

  @Test
  void nothingInAWorkbookIsAFormula() throws Exception {
    List<List<Cell>> rows = new ArrayList<>();
    HOSTILE.forEach(text -> rows.add(List.of(Cell.of(text), Cell.of(-3))));
    byte[] made = workbook(List.of(new Table("Hostile", List.of("text", "number"), rows)));
    Map<String, String> parts = parts(made);
    assertThat(parts).containsKey("xl/worksheets/sheet1.xml");
    String sheet = parts.get("xl/worksheets/sheet1.xml");
    assertThat(sheet).doesNotContain("<f>").doesNotContain("<f ").contains("state=\"frozen\"");
    assertThat(sheet).contains("<v>-3</v>");
    try (ReadableWorkbook book = new ReadableWorkbook(new ByteArrayInputStream(made));
        Stream<Row> all = book.getFirstSheet().openStream()) {
      List<Row> came = all.toList();
      for (int i = 0; i < HOSTILE.size(); i++) {
        org.dhatim.fastexcel.reader.Cell cell = came.get(i + 1).getCell(0);
        assertThat(cell.getType()).isEqualTo(CellType.STRING);
        assertThat(cell.asString().replace("\r\n", "\n").replace('\r', '\n'))
            .isEqualTo(
                HOSTILE.get(i).replace("\u0001", "").replace("\r\n", "\n").replace('\r', '\n'));
      }
    }
  }

  private Map<String, String> parts(byte[] made) throws IOException {
    Path file = Files.write(folder.resolve("made.xlsx"), made);
    Map<String, String> parts = new HashMap<>();
    try (ZipFile zip = new ZipFile(file.toFile())) {
      for (ZipEntry e : Collections.list(zip.entries())) {
        try (InputStream in = zip.getInputStream(e)) {
          parts.put(e.getName(), new String(in.readAllBytes(), StandardCharsets.UTF_8));
        }
      }
    }
    return parts;
  }

  @Test
  void hostileTextIsDisarmedInCsv() throws Exception {
    StringBuilder out = new StringBuilder();
    for (String text : HOSTILE) {
      CsvFile.line(out, List.of(text, "x"));
    }
    List<CSVRecord> records = read(out.toString());
    assertThat(records).hasSize(HOSTILE.size());
    for (CSVRecord one : records) {
      assertThat("=+-@\t\r".indexOf(one.get(0).charAt(0))).isNegative();
    }
  }
}
