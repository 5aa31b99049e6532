package org.barmap.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.time.InstantSource;
import java.util.Optional;
import org.barmap.cli.out.CommandException;
import org.barmap.cli.out.ExitCode;
import org.barmap.web.access.Keys;
import org.barmap.web.access.QrCode;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

/** {@code barmap key}. */
@Command(name = "key", mixinStandardHelpOptions = true)
final class KeyCommand extends DataCommand {

  @Option(names = "--metrics")
  private boolean metrics;

  @Option(names = "--at", paramLabel = "URL")
  private Optional<String> at = Optional.empty();

  @Override
  public Integer call() {
    if (!Keys.areIn(folder())) {
      throw new CommandException(
          ExitCode.UNREADABLE,
          "there are no keys in " + folder() + "; barmap serve makes them when it starts there");
    }
    try {
      Keys keys = Keys.of(folder(), InstantSource.system());
      String key = metrics ? keys.metrics() : keys.owner();
      PrintWriter out = answers();
      if (at.isPresent() && !metrics) {
        String link = at.get().replaceAll("/+$", "") + "/open?key=" + key;
        out.println(link);
        out.print(QrCode.text(link));
      } else {
        out.println(key);
      }
      out.flush();
      return ExitCode.DONE;
    } catch (IOException e) {
      throw new CommandException(ExitCode.UNREADABLE, String.valueOf(e.getMessage()));
    }
  }
}
