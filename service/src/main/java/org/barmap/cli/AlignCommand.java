package org.barmap.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.barmap.cli.out.ExitCode;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import org.barmap.reckon.compare.BookAlignment;
import org.barmap.reckon.compare.BookAlignment.Difference;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code barmap align}. */
@Command(
    name = "align",
    mixinStandardHelpOptions = true,
    description = {
      "Compares the maps of two parts of one show and lists what can't both be right:",
      "a missing bar, a different letter or meter. Rests broken differently are no difference."
    })
final class AlignCommand extends PrintingCommand {

  @Parameters(index = "0", paramLabel = "A.json", description = "Map of one part.")
  private Path a = Path.of("");

  @Parameters(index = "1", paramLabel = "B.json", description = "Map of another part.")
  private Path b = Path.of("");

  @Option(names = "--json", description = "Prints JSON.")
  private boolean json;

  @Override
  public Integer call() throws IOException {
    BarMap first = BarMapJson.read(a);
    BarMap second = BarMapJson.read(b);
    List<Difference> found = BookAlignment.compare(first, second);
    PrintWriter out = answers();
    if (json) {
      out.println(BarMapJson.mapper().writeValueAsString(Map.of("differences", found)));
    } else if (found.isEmpty()) {
      out.println("The two parts agree.");
    } else {
      List<String> names = BookAlignment.names(first, second);
      found.forEach(d -> out.println(said(d, names)));
    }
    out.flush();
    return ExitCode.DONE;
  }

  private static String said(Difference d, List<String> names) {
    return "No. "
        + d.number()
        + ": "
        + d.text()
        + d.culprit()
            .map(c -> " More likely wrong: " + names.get(c.equals("A") ? 0 : 1) + ".")
            .orElse("");
  }
}
