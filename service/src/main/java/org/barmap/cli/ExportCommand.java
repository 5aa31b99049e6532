package org.barmap.cli;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.barmap.cli.out.CommandException;
import org.barmap.cli.out.ExitCode;
import org.barmap.cli.out.OutFile;
import org.barmap.exchange.NotWrittenException;
import org.barmap.exchange.NotationFile;
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
@Command(name = "export", mixinStandardHelpOptions = true)
final class ExportCommand extends PrintingCommand {

  /** What a map can be written as. */
  enum Form {
    MUSICXML,
    MUSICXML_NUMBERS,
    MUSICXML_PLAYED,
    MUSICXML_PLAYABLE,
    MEI,
    MIDI,
    CSV,
    XLSX;

    @Override
    public String toString() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** Tells whether it may be printed. */
    boolean isText() {
      return this != MUSICXML_NUMBERS && this != MIDI && this != XLSX;
    }
  }

  @Parameters(index = "0", paramLabel = "MAP.json")
  private Path map = Path.of("");

  @Option(names = "--as", paramLabel = "FORM")
  private Form form = Form.MUSICXML;

  @Option(names = "--table", paramLabel = "TABLE")
  private BookTables.Kind table = BookTables.Kind.BARS;

  @Option(names = "--changes", paramLabel = "CHANGES.json")
  private Optional<Path> changes = Optional.empty();

  @Option(names = "--number", paramLabel = "LABEL")
  private Optional<String> number = Optional.empty();

  @Option(names = "--tempo", paramLabel = "BEATS")
  private Optional<Double> tempo = Optional.empty();

  @Option(names = "--out", paramLabel = "FILE")
  private Optional<Path> out = Optional.empty();

  @Override
  public Integer call() throws IOException {
    if (out.isEmpty() && !form.isText()) {
      throw new CommandException(
          ExitCode.WRONG_USE,
          form == Form.XLSX
              ? "A workbook is no text: say --out BOOK.xlsx where it is written"
              : "This is no text: say --out FILE where it is written");
    }
    check();
    byte[] made = made(PlanCommand.readMap(map));
    if (out.isPresent()) {
      OutFile.write(out.get(), to -> to.write(made));
    } else {
      answers().print(new String(made, StandardCharsets.UTF_8));
      answers().flush();
    }
    return ExitCode.DONE;
  }

  /** What would be passed over in silence is refused: a file with the cut bars in it misleads. */
  private void check() {
    boolean played = form == Form.MUSICXML_PLAYED || form == Form.MIDI;
    boolean one = played || form == Form.MUSICXML || form == Form.MUSICXML_PLAYABLE;
    if (changes.isPresent() && !played && form != Form.CSV && form != Form.XLSX) {
      throw unfit("--changes is for tables, the click and --as musicxml-played");
    }
    if (number.isPresent() && !one) {
      throw unfit("--number is for the click and for one file of MusicXML");
    }
    if (tempo.isPresent() && form != Form.MIDI) {
      throw unfit("--tempo is for the click");
    }
    if (tempo
        .filter(t -> !(t >= NotationFile.LEAST_TEMPO && t <= NotationFile.MOST_TEMPO))
        .isPresent()) {
      throw new CommandException(
          ExitCode.WRONG_USE,
          "--tempo is "
              + NotationFile.LEAST_TEMPO
              + " to "
              + NotationFile.MOST_TEMPO
              + " beats a minute");
    }
  }

  private CommandException unfit(String what) {
    return new CommandException(
        ExitCode.WRONG_USE, what + "; --as " + form + " would leave it out");
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
      case MUSICXML, MUSICXML_NUMBERS, MUSICXML_PLAYED, MUSICXML_PLAYABLE, MEI, MIDI ->
          made.writeBytes(notation(bars));
    }
    return made.toByteArray();
  }

  /** What can't be said goes beside the file, to whoever watches. */
  private byte[] notation(BarMap bars) throws IOException {
    ShowChanges said = said();
    NotationFile.Source source =
        new NotationFile.Source(
            bars,
            () -> Planner.plan(bars, said, PlanSettings.USUAL),
            number,
            tempo.map(OptionalDouble::of).orElse(OptionalDouble.empty()));
    try {
      byte[] file =
          NotationFile.of(NotationFile.Form.of(form.toString()).orElseThrow(), source).bytes();
      if (form == Form.MUSICXML || form == Form.MUSICXML_NUMBERS) {
        remarks().println("What MusicXML can't say:");
        remarks()
            .print(
                new String(
                    NotationFile.of(NotationFile.Form.MUSICXML_LEFT_OUT, source).bytes(),
                    StandardCharsets.UTF_8));
        remarks().flush();
      }
      return file;
    } catch (NotWrittenException e) {
      throw new CommandException(ExitCode.UNREADABLE, String.valueOf(e.getMessage()));
    }
  }

  private ShowChanges said() throws IOException {
    return changes.isPresent() ? PlanCommand.readChanges(changes.get()) : ShowChanges.none();
  }

  private BookTables tables(BarMap bars) throws IOException {
    ShowChanges said = said();
    return new BookTables(bars, Planner.plan(bars, said, PlanSettings.USUAL), said);
  }
}
