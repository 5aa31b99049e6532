package org.barmap.cli;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintWriter;
import java.net.Inet4Address;
import java.net.InetAddress;
import java.net.SocketException;
import java.net.URI;
import java.net.UnknownHostException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.stream.Collectors;
import org.barmap.cli.option.EngineOptions;
import org.barmap.cli.option.ServeParts;
import org.barmap.cli.out.CommandException;
import org.barmap.cli.out.ExitCode;
import org.barmap.cli.out.Reasons;
import org.barmap.cli.run.Logs;
import org.barmap.cli.run.WarmUp;
import org.barmap.web.WebServer;
import org.barmap.web.access.Certificate;
import org.barmap.web.access.LocalNet;
import org.barmap.web.access.Places;
import org.barmap.web.access.QrCode;
import org.barmap.work.hook.NetRules;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;

/** {@code barmap serve}. */
@Command(name = "serve", mixinStandardHelpOptions = true)
final class ServeCommand extends PicturesCommand {

  private static final System.Logger LOG = System.getLogger(ServeCommand.class.getName());

  @Option(names = "--port", paramLabel = "N")
  private Optional<Integer> port = Optional.empty();

  @Option(names = "--share", arity = "0..1", fallbackValue = "", paramLabel = "ADDRESS")
  private Optional<String> share = Optional.empty();

  @Option(names = "--tls", paramLabel = "FILE")
  private Optional<Path> tls = Optional.empty();

  @Option(names = "--behind", paramLabel = "URL")
  private Optional<URI> behind = Optional.empty();

  @Option(names = "--hooks-to-my-net")
  private boolean hooksToMyNet;

  @Mixin private ServeParts parts = new ServeParts();

  /** What is written while it runs. */
  enum LogForm {
    /** Nothing: warnings go into the data folder. */
    TEXT,
    /** A line for every request and every warning. */
    JSON
  }

  @Option(names = "--log", paramLabel = "text|json", defaultValue = "text")
  private LogForm log = LogForm.TEXT;

  @Mixin private EngineOptions engines = new EngineOptions();

  @Override
  public Integer call() throws InterruptedException, IOException {
    if (port.isPresent() && (port.get() < 1 || port.get() > 65_535)) {
      throw new ParameterException(line(), "A port is 1 to 65535, not " + port.get());
    }
    parts.check(database().isPresent());
    engines.check(line(), false);
    try (Service service = Service.open(folder(), database(), pictures())) {
      if (log == LogForm.JSON) {
        Logs.lines(standardOut());
      }
      service.setWorkers(parts.workers());
      CountDownLatch stopped = service.stopAtSignal();
      if (!parts.web()) {
        return workOnly(service, stopped);
      }
      List<InetAddress> shareAt = shareAt();
      WebServer server =
          service.start(
              port,
              new Places(shareAt, certificate(), behind()),
              new NetRules(hooksToMyNet),
              engines);
      if (log == LogForm.JSON) {
        LOG.log(System.Logger.Level.INFO, "started", Map.of("port", server.port()));
      } else {
        sayWhere(server, shareAt);
      }
      WarmUp.begin(service.library(), server.address(), server.key());
      stopped.await();
      LOG.log(System.Logger.Level.INFO, "ending");
      return ExitCode.DONE;
    }
  }

  private int workOnly(Service service, CountDownLatch stopped) throws InterruptedException {
    service.work();
    if (log == LogForm.JSON) {
      LOG.log(System.Logger.Level.INFO, "started", Map.of("workers", parts.workers()));
    } else {
      answers().println("barmap reads pages of " + database().map(Object::toString).orElse(""));
      answers().println("Ctrl-C ends it.");
      answers().flush();
    }
    stopped.await();
    return ExitCode.DONE;
  }

  private void sayWhere(WebServer server, List<InetAddress> shareAt) {
    PrintWriter out = answers();
    out.println("barmap is at " + server.entry());
    List<String> links = server.sharedEntries();
    if (server.keys().isNew() && !links.isEmpty()) {
      out.println("From another machine it is at " + links.get(0) + ", your key in it:");
      out.print(QrCode.text(links.get(0)));
      out.println("This is shown once; barmap key tells the key again.");
    }
    if (!shareAt.isEmpty()) {
      out.println(
          "It can be shared at "
              + shareAt.stream().map(InetAddress::getHostAddress).collect(Collectors.joining(", "))
              + ": open a book's pages and let somebody in there.");
    }
    out.println(
        "Books are kept in "
            + database().map(d -> d + ", their pictures in ").orElse("")
            + folder());
    out.println("Ctrl-C ends it.");
    out.flush();
  }

  private static OutputStream standardOut() {
    return new FileOutputStream(FileDescriptor.out);
  }

  private Optional<Certificate> certificate() {
    if (tls.isEmpty()) {
      return Optional.empty();
    }
    if (share.isEmpty()) {
      throw new ParameterException(line(), "--tls is for --share; this machine needs none");
    }
    try {
      String password = Optional.ofNullable(System.getenv("BARMAP_TLS_PASSWORD")).orElse("");
      return Optional.of(Certificate.read(tls.get(), password));
    } catch (IOException e) {
      throw new CommandException(ExitCode.UNREADABLE, Reasons.of(e));
    }
  }

  private Optional<URI> behind() {
    boolean fit =
        behind
            .map(u -> List.of("http", "https").contains(u.getScheme()) && u.getHost() != null)
            .orElse(true);
    if (!fit) {
      throw new ParameterException(line(), "--behind is an address as https://barmap.example.org");
    }
    return behind;
  }

  private List<InetAddress> shareAt() {
    if (share.isEmpty()) {
      return List.of();
    }
    try {
      List<InetAddress> found =
          share.get().isEmpty()
              ? LocalNet.addresses()
              : List.of(InetAddress.getByName(share.get()));
      if (found.isEmpty()) {
        throw new CommandException(
            ExitCode.WRONG_USE,
            "this machine has no address on a local net; join one, or name one: --share=ADDRESS");
      }
      for (InetAddress address : found) {
        if (!isFit(address)) {
          throw new CommandException(
              ExitCode.WRONG_USE, share.get() + " is no address of this machine on a local net");
        }
      }
      return found;
    } catch (UnknownHostException e) {
      throw new CommandException(ExitCode.WRONG_USE, share.get() + " is no address");
    } catch (SocketException e) {
      throw new CommandException(
          ExitCode.WRONG_USE, "this machine does not tell its addresses: " + e.getMessage());
    }
  }

  /** One of this machine's own, and not the one that it listens at anyway. */
  private static boolean isFit(InetAddress address) throws SocketException {
    return LocalNet.isOwn(address)
        && address instanceof Inet4Address
        && !address.isAnyLocalAddress()
        && !address.getHostAddress().equals("127.0.0.1");
  }
}
