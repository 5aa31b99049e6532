package org.barmap.cli;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.nio.charset.Charset;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Optional;
import java.util.ServiceLoader;
import org.barmap.cli.out.Answers;
import org.barmap.cli.out.CommandException;
import org.barmap.cli.out.ExitCode;
import org.barmap.cli.out.Reasons;
import org.barmap.cli.run.Logs;
import org.barmap.cli.run.Natives;
import org.barmap.cli.run.Stopping;
import org.barmap.map.json.BadMapException;
import org.barmap.plan.change.BadChangesException;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** The command {@code barmap}. */
@Command(
    name = "barmap",
    mixinStandardHelpOptions = true,
    versionProvider = VersionText.class,
    resourceBundle = "org.barmap.cli.help",
    description = {
      "Reads the structure of a pit book from its pages and computes what the player must know:",
      "order of play, cuts, vamps, page turns, rests.",
      ""
    },
    footer = {
      "",
      "Exit codes: 0 done, 2 wrong use, 3 input can't be read, 4 nothing found.",
      "A rented book belongs to its publisher: the hire agreement decides what you may keep."
    },
    subcommands = {
      DemoCommand.class,
      ReadCommand.class,
      ServeCommand.class,
      KeyCommand.class,
      PlanCommand.class,
      AlignCommand.class,
      ExportCommand.class,
      PackCommand.class,
      BackupCommand.class,
      RestoreCommand.class,
      EvaluateCommand.class
    })
public final class Main implements Runnable {

  /** What the terminal takes; as the JVM says, where it knows. */
  private static final Charset CHARSET =
      Charset.forName(System.getProperty("sun.stdout.encoding", Charset.defaultCharset().name()));

  @Spec private CommandSpec spec;

  /** Made by picocli, which sets the specification. */
  @SuppressWarnings("NullAway.Init")
  Main() {}

  @Override
  public void run() {
    throw new ParameterException(spec.commandLine(), "Say what to do");
  }

  /** Runs the command and ends the process with its exit code. */
  public static void main(String[] args) {
    Logs.quiet();
    Stopping.atOnce();
    Natives.prepare();
    PrintWriter err = new PrintWriter(new OutputStreamWriter(System.err, CHARSET), true);
    System.exit(run(args, new FileOutputStream(FileDescriptor.out), err));
  }

  /** Runs a command whose answer goes to a stream; an answer that did not arrive is no success. */
  static int run(String[] args, OutputStream out, PrintWriter err) {
    Answers answers = new Answers(out);
    PrintWriter writer = new PrintWriter(new OutputStreamWriter(answers, CHARSET));
    CommandLine line = commandLine();
    line.setOut(writer);
    line.setErr(err);
    int code = execute(line, args, err);
    writer.flush();
    Optional<IOException> trouble = answers.trouble();
    if (trouble.isEmpty()) {
      return code;
    }
    if (!Answers.isUnwanted(trouble.get())) {
      err.println("barmap: the answer could not be written: " + Reasons.of(trouble.get()));
      err.flush();
    }
    return ExitCode.UNREADABLE;
  }

  private static int execute(CommandLine line, String[] args, PrintWriter err) {
    try {
      return line.execute(args);
    } catch (StackOverflowError | OutOfMemoryError e) {
      err.println("barmap: that needs more memory than there is; try a part of it");
      err.flush();
      return ExitCode.UNREADABLE;
    }
  }

  /** Returns the command line, ready to execute; tests run it in the process. */
  static CommandLine commandLine() {
    CommandLine line = new CommandLine(new Main());
    ServiceLoader.load(ExtraCommand.class).forEach(line::addSubcommand);
    line.setCaseInsensitiveEnumValuesAllowed(true);
    line.setExecutionExceptionHandler((e, command, parsed) -> explain(e, command.getErr()));
    line.setParameterExceptionHandler(
        (e, args) -> {
          PrintWriter err = e.getCommandLine().getErr();
          err.println("barmap: " + firstLine(e.getMessage()));
          err.println("Try: " + e.getCommandLine().getCommandSpec().qualifiedName() + " --help");
          err.flush();
          return ExitCode.WRONG_USE;
        });
    return line;
  }

  /** Says in one line what went wrong; what nobody foresaw goes into a file with its details. */
  private static int explain(Exception e, PrintWriter err) {
    int code = ExitCode.UNREADABLE;
    String text;
    if (e instanceof CommandException known) {
      code = known.exitCode();
      text = String.valueOf(known.getMessage());
    } else if (e instanceof BadMapException || e instanceof BadChangesException) {
      text = firstLine(e.getMessage());
    } else if (e instanceof IOException || e instanceof UncheckedIOException) {
      text = Reasons.of(e);
    } else {
      text = "something went wrong in the program; the details are in " + details(e);
    }
    err.println("barmap: " + text);
    err.flush();
    return code;
  }

  private static String details(Exception e) {
    try {
      Path file = Files.createTempFile("barmap-error", ".txt");
      Files.writeString(
          file, e + "\n" + String.join("\n", Arrays.toString(e.getStackTrace()).split(", ")));
      return file.toString();
    } catch (IOException full) {
      return "nowhere, for the disk is full (" + e + ")";
    }
  }

  private static String firstLine(@org.jspecify.annotations.Nullable String text) {
    return String.valueOf(text).lines().findFirst().orElse("");
  }
}
