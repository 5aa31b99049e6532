package org.barmap.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import org.barmap.cli.out.CommandException;
import org.barmap.cli.out.ExitCode;
import org.barmap.cli.out.OutFile;
import org.barmap.cli.out.ProgressBar;
import org.barmap.cli.run.Home;
import org.barmap.cli.text.PlanText;
import org.barmap.cli.text.Summary;
import org.barmap.extract.Extraction;
import org.barmap.extract.Options;
import org.barmap.extract.Overlay;
import org.barmap.library.BookCard;
import org.barmap.library.Jobs;
import org.barmap.library.Library;
import org.barmap.library.WholeFile;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import org.barmap.page.file.PageFiles;
import org.barmap.plan.Plan;
import org.barmap.plan.PlanJson;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.change.ShowChanges;
import org.barmap.work.JobView;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

/** {@code barmap demo}. */
@Command(name = "demo", mixinStandardHelpOptions = true)
final class DemoCommand extends PrintingCommand {

  static final Options BOOK = new Options("Saltmarsh", "Bass");

  @Option(names = "--once", paramLabel = "DIR")
  private Optional<Path> once = Optional.empty();

  @Override
  public Integer call() throws IOException, InterruptedException {
    return once.isPresent() ? writeOnce(once.get()) : serve();
  }

  private int writeOnce(Path folder) throws IOException {
    PrintWriter err = remarks();
    Files.createDirectories(folder);
    List<Path> pages = List.of(Home.demoBook());
    Extraction read = ReadCommand.read(pages, BOOK, err);
    BarMap map = read.map();
    if (map.bars().isEmpty()) {
      throw new CommandException(ExitCode.NOTHING_FOUND, "no bars were found in the demo book");
    }
    OutFile.text(folder.resolve("saltmarsh.barmap.json"), BarMapJson.write(map));
    List<Path> overlays = Overlay.write(pages, map, folder.resolve("overlays"));
    ShowChanges changes = PlanCommand.readChanges(Home.demoBook().resolve("changes.json"));
    Plan asWritten = Planner.plan(map, ShowChanges.none(), PlanSettings.USUAL);
    Plan changed = Planner.plan(map, changes, PlanSettings.USUAL);
    OutFile.text(folder.resolve("plan-as-written.json"), PlanJson.write(asWritten));
    OutFile.text(folder.resolve("plan.json"), PlanJson.write(changed));
    OutFile.text(folder.resolve("plan.txt"), PlanText.of(map, changed));
    PrintWriter out = answers();
    out.println("Saltmarsh, Bass: " + Summary.of(map));
    out.println("As written: " + totals(asWritten));
    out.println("With the director's changes: " + totals(changed));
    out.println(
        "In "
            + folder
            + ": saltmarsh.barmap.json, plan.json, plan.txt, plan-as-written.json and "
            + Summary.count(overlays.size(), "overlay")
            + " in overlays");
    out.flush();
    return ExitCode.DONE;
  }

  private static String totals(Plan plan) {
    double bars = plan.numbers().stream().mapToDouble(n -> n.played().bars()).sum();
    return Math.round(bars) + " bars played, " + Summary.count(plan.turns().size(), "turn");
  }

  private int serve() throws IOException, InterruptedException {
    Path book = Home.demoBook();
    Path data = Home.data().resolve("demo");
    try (Service service = Service.open(data)) {
      CountDownLatch stopped = service.stopAtSignal();
      PrintWriter out = answers();
      String id = find(service.library()).orElse("");
      if (id.isEmpty()) {
        id = add(service, book);
      }
      out.println("The demo book is at " + service.start(Optional.empty()).entry() + "&b=" + id);
      out.println("Try this:");
      out.println("  - open a page, look at the doubts, set a rest's count or move a barline");
      out.println("  - mark the pages you looked at as verified");
      out.println("  - on the road map type \"No. 1: cut 92 to 101\" and see the turns change");
      out.println("Ctrl-C ends it; what you did is kept in " + data);
      out.flush();
      stopped.await();
      return ExitCode.DONE;
    }
  }

  private static Optional<String> find(Library library) {
    return library.books().all().stream()
        .filter(b -> b.title().equals(BOOK.title()))
        .filter(b -> b.pages() > 0 || library.jobs().latest(b.id()).isPresent())
        .map(BookCard::id)
        .findFirst();
  }

  /** Puts the demo book on the shelf and reads it here, with a bar. */
  private String add(Service service, Path pages) throws IOException {
    Library library = service.library();
    BookCard book = library.books().add(BOOK.title(), BOOK.part());
    List<Jobs.Upload> uploads = new ArrayList<>();
    for (Path page : PageFiles.list(List.of(pages)).files()) {
      String name = String.valueOf(page.getFileName());
      Path copy = library.pages().folder(book.id()).resolve(name);
      try (var in = Files.newInputStream(page)) {
        WholeFile.copy(in, copy);
      }
      uploads.add(new Jobs.Upload(book.id() + "-" + name, name, copy));
    }
    library.jobs().add(book.id(), uploads);
    ProgressBar bar = ProgressBar.onTerminal(remarks());
    Runnable stop =
        service
            .events()
            .listen(
                book.id(),
                (name, data) -> {
                  if (data instanceof JobView job) {
                    bar.show(job.done(), job.of(), job.text());
                  }
                });
    service.worker().runAll();
    stop.run();
    bar.end();
    return book.id();
  }
}
