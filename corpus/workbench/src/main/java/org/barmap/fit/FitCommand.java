package org.barmap.fit;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import org.barmap.cli.ExtraCommand;
import org.barmap.cli.out.ExitCode;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code barmap fit}, for those who changed a model; not in the list of commands. */
@Command(
    name = "fit",
    hidden = true,
    mixinStandardHelpOptions = true,
    description = {
      "Measures and fits anew, on the corpus, what the reckoning weighs evidence with,",
      "and writes it into the sources: after a change of models sounds, traces, costs."
    })
public final class FitCommand implements ExtraCommand {

  /** What can be fitted. */
  enum What {
    /** Which notes and rests are read. */
    SOUNDS(folders -> MeasureSounds.run()),
    /** What missed barlines leave. */
    TRACES(folders -> MeasureTraces.run()),
    /** Costs and confidence. */
    COSTS(folders -> FitCosts.run()),
    /** Nothing: what a second reader saves. */
    ENGINES(folders -> MeasureEngines.run()),
    /** Which strokes are by hand, on pages made with {@code --masks}. */
    HAND(FitHand::run),
    /** Nothing: how well what is by hand is found, on pages made likewise. */
    HAND_FOUND(MeasureHand::run);

    private final Fit fit;

    What(Fit fit) {
      this.fit = fit;
    }

    String run(List<Path> folders) throws IOException {
      return fit.run(folders);
    }
  }

  /** Fits or measures, and says what came out. */
  private interface Fit {
    String run(List<Path> folders) throws IOException;
  }

  @Spec private CommandSpec spec;

  @Parameters(index = "0", paramLabel = "sounds|traces|costs|hand", description = "What to fit.")
  private What what = What.COSTS;

  @Parameters(index = "1..*", paramLabel = "FOLDER", description = "Pages, for hand.")
  private List<Path> folders = List.of();

  /** Made by the service loader; picocli sets the specification. */
  @SuppressWarnings("NullAway.Init")
  public FitCommand() {}

  @Override
  public Integer call() throws IOException {
    String said = what.run(folders);
    PrintWriter out = spec.commandLine().getOut();
    out.print(said);
    out.flush();
    return ExitCode.DONE;
  }
}
