package org.barmap.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.cli.out.ExitCode;
import org.barmap.exchange.chair.AlignTable;
import org.barmap.exchange.chair.Carrying;
import org.barmap.exchange.chair.TwoParts;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.ShowChanges;
import org.barmap.reckon.compare.BookAlignment;
import org.barmap.reckon.compare.BookAlignment.Difference;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code barmap align}. */
@Command(name = "align", mixinStandardHelpOptions = true)
final class AlignCommand extends PrintingCommand {

  @Parameters(index = "0", paramLabel = "A.json")
  private Path a = Path.of("");

  @Parameters(index = "1", paramLabel = "B.json")
  private Path b = Path.of("");

  @Option(names = "--numbers")
  private boolean numbers;

  @Option(names = "--carry", paramLabel = "CHANGES.json")
  private Optional<Path> carry = Optional.empty();

  @Option(names = "--json")
  private boolean json;

  @Override
  public Integer call() throws IOException {
    BarMap first = PlanCommand.readMap(a);
    BarMap second = PlanCommand.readMap(b);
    PrintWriter out = answers();
    if (carry.isPresent()) {
      carried(TwoParts.of(first, second, List.of()), PlanCommand.readChanges(carry.get()), out);
    } else if (numbers) {
      AlignTable table = AlignTable.of(TwoParts.of(first, second, List.of()), first, second);
      if (json) {
        out.println(BarMapJson.mapper().writeValueAsString(table));
      } else {
        table.numbers().forEach(row -> said(row, out));
        table.onlyHere().forEach(n -> out.println("No. " + n + ": only in " + a.getFileName()));
        table.onlyThere().forEach(n -> out.println("No. " + n + ": only in " + b.getFileName()));
      }
    } else {
      differences(first, second, out);
    }
    out.flush();
    return ExitCode.DONE;
  }

  private void differences(BarMap first, BarMap second, PrintWriter out) {
    List<Difference> found = BookAlignment.compare(first, second);
    if (json) {
      out.println(BarMapJson.mapper().writeValueAsString(Map.of("differences", found)));
    } else if (found.isEmpty()) {
      out.println("The two parts agree.");
    } else {
      List<String> names = BookAlignment.names(first, second);
      found.forEach(d -> out.println(said(d, names)));
    }
  }

  private void carried(TwoParts parts, ShowChanges changes, PrintWriter out) {
    Carrying.Carried carried = Carrying.carry(parts, changes.changes());
    out.println(ChangesJson.write(new ShowChanges(carried.changes())));
    PrintWriter beside = remarks();
    carried.left().forEach(l -> beside.println("Not carried: " + l.says() + ". " + l.why()));
    beside.flush();
  }

  private static void said(AlignTable.Row row, PrintWriter out) {
    for (AlignTable.Stretch s : row.stretches()) {
      out.println(
          "No. "
              + row.number()
              + ": "
              + span(s.first(), s.last())
              + " = "
              + span(s.otherFirst(), s.otherLast())
              + (s.how().equals("unsure") ? " (not sure which is which)" : ""));
    }
  }

  private static String span(Optional<String> first, Optional<String> last) {
    return first.flatMap(f -> last.map(l -> f.equals(l) ? f : f + " to " + l)).orElse("none");
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
