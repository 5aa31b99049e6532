package org.barmap.cli;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Optional;
import org.barmap.cli.out.ExitCode;
import org.barmap.cli.out.OutFile;
import org.barmap.exchange.BarTable;
import org.barmap.exchange.musicxml.write.MusicXmlWriter;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code barmap export}. */
@Command(
    name = "export",
    mixinStandardHelpOptions = true,
    description = "Writes a bar map for other programs: MusicXML 4.0, or a table of bars (CSV).")
final class ExportCommand extends PrintingCommand {

  /** What a map can be written as. */
  enum Form {
    MUSICXML,
    CSV
  }

  @Parameters(index = "0", paramLabel = "MAP.json", description = "The bar map.")
  private Path map = Path.of("");

  @Option(names = "--as", paramLabel = "FORM", description = "musicxml (unless you say so) or csv.")
  private Form form = Form.MUSICXML;

  @Option(
      names = "--out",
      paramLabel = "FILE",
      description = "Where it is written (standard output unless you say so).")
  private Optional<Path> out = Optional.empty();

  @Override
  public Integer call() throws IOException {
    String text = text(BarMapJson.read(map));
    if (out.isPresent()) {
      OutFile.write(out.get(), to -> to.write(text.getBytes(StandardCharsets.UTF_8)));
    } else {
      answers().print(text);
      answers().flush();
    }
    return ExitCode.DONE;
  }

  private String text(BarMap bars) throws IOException {
    return switch (form) {
      case CSV -> {
        StringBuilder table = new StringBuilder();
        BarTable.write(bars, table);
        yield table.toString();
      }
      case MUSICXML -> {
        ByteArrayOutputStream xml = new ByteArrayOutputStream();
        MusicXmlWriter.write(bars, xml);
        yield xml.toString(StandardCharsets.UTF_8);
      }
    };
  }
}
