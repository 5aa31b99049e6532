package org.barmap.cli;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Optional;
import org.barmap.cli.out.CommandException;
import org.barmap.cli.out.ExitCode;
import org.barmap.cli.out.OutFile;
import org.barmap.exchange.musicxml.write.MusicXmlWriter;
import org.barmap.exchange.table.BookTables;
import org.barmap.exchange.table.CsvFile;
import org.barmap.exchange.table.Workbooks;
import org.barmap.map.BarMap;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.change.ShowChanges;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code barmap export}. */
@Command(
    name = "export",
    mixinStandardHelpOptions = true,
    description = {
      "Writes a bar map for other programs: MusicXML 4.0, a table (CSV), or a workbook with a sheet",
      "each for bars, numbers, changes, turns, rests and marks (.xlsx)."
    })
final class ExportCommand extends PrintingCommand {

  /** What a map can be written as. */
  enum Form {
    MUSICXML,
    CSV,
    XLSX
  }

  @Parameters(index = "0", paramLabel = "MAP.json", description = "The bar map.")
  private Path map = Path.of("");

  @Option(
      names = "--as",
      paramLabel = "FORM",
      description = "musicxml (unless you say so), csv or xlsx.")
  private Form form = Form.MUSICXML;

  @Option(
      names = "--table",
      paramLabel = "TABLE",
      description =
          "Which table as csv: bars (unless you say so), numbers, changes, turns, rests, marks.")
  private BookTables.Kind table = BookTables.Kind.BARS;

  @Option(
      names = "--changes",
      paramLabel = "CHANGES.json",
      description = "What the show does differently, format changes/1: for the tables.")
  private Optional<Path> changes = Optional.empty();

  @Option(
      names = "--out",
      paramLabel = "FILE",
      description = "Where it is written (standard output unless you say so).")
  private Optional<Path> out = Optional.empty();

  @Override
  public Integer call() throws IOException {
    byte[] made = made(PlanCommand.readMap(map));
    if (out.isPresent()) {
      OutFile.write(out.get(), to -> to.write(made));
    } else if (form == Form.XLSX) {
      throw new CommandException(
          ExitCode.WRONG_USE, "A workbook is no text: say --out BOOK.xlsx where it is written");
    } else {
      answers().print(new String(made, StandardCharsets.UTF_8));
      answers().flush();
    }
    return ExitCode.DONE;
  }

  private byte[] made(BarMap bars) throws IOException {
    ByteArrayOutputStream made = new ByteArrayOutputStream();
    switch (form) {
      case CSV -> {
        StringBuilder text = new StringBuilder();
        CsvFile.write(tables(bars).of(table), text);
        made.writeBytes(text.toString().getBytes(StandardCharsets.UTF_8));
      }
      case XLSX -> Workbooks.write(tables(bars).all(), made);
      case MUSICXML -> MusicXmlWriter.write(bars, made);
    }
    return made.toByteArray();
  }

  private BookTables tables(BarMap bars) throws IOException {
    ShowChanges said =
        changes.isPresent() ? PlanCommand.readChanges(changes.get()) : ShowChanges.none();
    return new BookTables(bars, Planner.plan(bars, said, PlanSettings.USUAL), said);
  }
}
