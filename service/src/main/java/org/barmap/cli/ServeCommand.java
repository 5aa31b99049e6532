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
@Command(
    name = "serve",
    mixinStandardHelpOptions = true,
    description = {
      "Opens your shelf of books in the browser.",
      "It listens on this machine only, unless you share it. The address it prints holds a key, which",
      "your browser then remembers; without one nobody comes in. Ctrl-C ends it; nothing is lost."
    })
final class ServeCommand extends DataCommand {

  private static final System.Logger LOG = System.getLogger(ServeCommand.class.getName());

  @Option(
      names = "--port",
      paramLabel = "N",
      description = "The port to listen on (the next free one from 7171 unless you say so).")
  private Optional<Integer> port = Optional.empty();

  @Option(
      names = "--share",
      arity = "0..1",
      fallbackValue = "",
      paramLabel = "ADDRESS",
      description = {
        "Listens on the local net too, so that your phone can bring pages and a section mate can",
        "work on the book. Nobody comes in without a key, which the book's page shows when you",
        "open it there. With an address: on that one of this machine's only."
      })
  private Optional<String> share = Optional.empty();

  @Option(
      names = "--tls",
      paramLabel = "FILE",
      description = {
        "With --share: a certificate with its key (PKCS #12), so that what is sent is encrypted. Its",
        "password is taken from BARMAP_TLS_PASSWORD. Links then name what the certificate names."
      })
  private Optional<Path> tls = Optional.empty();

  @Option(
      names = "--behind",
      paramLabel = "URL",
      description = {
        "A proxy on this machine passes on what comes to it at this address, with its Host as it",
        "came and X-Forwarded-For. Links then name this address."
      })
  private Optional<URI> behind = Optional.empty();

  @Option(
      names = "--hooks-to-my-net",
      description = {
        "Web hooks may lead to this machine and its net. Without it they lead to the internet only,",
        "so that nobody reaches through barmap what others can't."
      })
  private boolean hooksToMyNet;

  @Mixin private ServeParts parts = new ServeParts();

  @Option(
      names = "--pictures",
      paramLabel = "ADDRESS",
      description = {
        "Keeps the pictures of pages in a store that speaks S3, s3://BUCKET?endpoint=URL&region=NAME;",
        "the folder then holds copies. Its keys are taken from AWS_ACCESS_KEY_ID and",
        "AWS_SECRET_ACCESS_KEY, the address from BARMAP_PICTURES where this is not given; the other",
        "commands look there too."
      })
  private Optional<String> pictures = Optional.empty();

  @Override
  Optional<String> picturesNamed() {
    return pictures;
  }

  /** What is written while it runs. */
  enum LogForm {
    /** Nothing: warnings go into the data folder. */
    TEXT,
    /** A line for every request and every warning. */
    JSON
  }

  @Option(
      names = "--log",
      paramLabel = "text|json",
      defaultValue = "text",
      description = {
        "json: where it runs as a service; a line of JSON for every request and every warning. No",
        "line has a title, a key or anything else of a book; barmap key prints the key instead."
      })
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
