package org.barmap.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;

/** {@code barmap serve}. */
@Command(
    name = "serve",
    mixinStandardHelpOptions = true,
    description = {
      "Opens your shelf of books in the browser.",
      "It listens on this machine only. Ctrl-C ends it; nothing is lost."
    })
final class ServeCommand extends PrintingCommand {

  @Option(
      names = "--data",
      paramLabel = "DIR",
      description = "Where books are kept (.barmap in the program's folder unless you say so).")
  private Optional<Path> data = Optional.empty();

  @Option(
      names = "--port",
      paramLabel = "N",
      description = "The port to listen on (the next free one from 7171 unless you say so).")
  private Optional<Integer> port = Optional.empty();

  @Override
  public Integer call() throws InterruptedException {
    if (port.isPresent() && (port.get() < 1 || port.get() > 65_535)) {
      throw new ParameterException(line(), "A port is 1 to 65535, not " + port.get());
    }
    try (Service service = Service.open(data.orElseGet(Home::data))) {
      CountDownLatch stopped = service.stopAtSignal();
      String address = service.start(port);
      PrintWriter out = answers();
      out.println("barmap is at " + address);
      out.println("Books are kept in " + data.orElseGet(Home::data));
      out.println("Ctrl-C ends it.");
      out.flush();
      WarmUp.begin(service.library(), address);
      stopped.await();
      return ExitCode.DONE;
    }
  }
}
