package org.barmap.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import org.barmap.cli.out.CommandException;
import org.barmap.cli.out.ExitCode;
import org.barmap.cli.out.ProgressBar;
import org.barmap.extract.Extractor;
import org.barmap.extract.Options;
import org.barmap.extract.Progress;
import org.barmap.map.json.BarMapJson;
import org.barmap.score.Evaluation;
import org.barmap.score.EvaluationText;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code barmap evaluate}. */
@Command(name = "evaluate", mixinStandardHelpOptions = true)
final class EvaluateCommand extends PrintingCommand {

  @Parameters(index = "0", paramLabel = "FOLDER")
  private Path folder = Path.of("");

  @Option(names = "--json")
  private boolean json;

  @Override
  public Integer call() throws IOException {
    if (!Files.isDirectory(folder)) {
      throw new CommandException(
          ExitCode.UNREADABLE, "there is no folder " + folder + "; check the name");
    }
    PrintWriter err = remarks();
    ProgressBar bar = ProgressBar.onTerminal(err);
    int[] done = {0};
    Evaluation evaluation;
    try (Extractor extractor = Extractor.open()) {
      evaluation =
          Evaluation.of(
              folder,
              images -> {
                done[0]++;
                bar.show(done[0], 0, "Reading " + images.get(0).getFileName());
                return extractor.read(images, Options.NONE, Progress.NONE).map();
              });
    } catch (IOException e) {
      if (String.valueOf(e.getMessage()).contains("holds no truth")) {
        throw new CommandException(ExitCode.NOTHING_FOUND, String.valueOf(e.getMessage()));
      }
      throw e;
    }
    bar.end();
    PrintWriter out = answers();
    out.println(
        json
            ? BarMapJson.mapper().writeValueAsString(EvaluationText.json(evaluation))
            : EvaluationText.table(evaluation));
    out.flush();
    return ExitCode.DONE;
  }
}
