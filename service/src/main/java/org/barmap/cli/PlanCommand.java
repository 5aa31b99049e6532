package org.barmap.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.cli.out.CommandException;
import org.barmap.cli.out.ExitCode;
import org.barmap.cli.text.DiffText;
import org.barmap.cli.text.PlanText;
import org.barmap.cli.text.SaidChanges;
import org.barmap.exchange.chair.ChairBars;
import org.barmap.exchange.chair.TheirBars;
import org.barmap.map.BarMap;
import org.barmap.map.json.BadMapException;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.Plan;
import org.barmap.plan.PlanDiff;
import org.barmap.plan.PlanJson;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.change.BadChangesException;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.page.FirstPage;
import org.barmap.plan.page.Leaf;
import org.barmap.plan.show.Showing;
import org.barmap.plan.turn.TurnSettings;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code barmap plan}. */
@Command(name = "plan", mixinStandardHelpOptions = true)
final class PlanCommand extends PrintingCommand {

  @Parameters(index = "0", paramLabel = "MAP.json")
  private Path map = Path.of("");

  @Option(names = "--changes", paramLabel = "CHANGES.json")
  private Optional<Path> changes = Optional.empty();

  @Option(names = "--since", paramLabel = "DAY")
  private Optional<String> since = Optional.empty();

  @Option(names = "--first-page", paramLabel = "SIDE")
  private Optional<String> firstPage = Optional.empty();

  @Option(names = "--laid-in", paramLabel = "PAGES", split = ",")
  private List<Integer> laidIn = List.of();

  @Option(names = "--loose", paramLabel = "PAGES", split = ",")
  private List<Integer> loose = List.of();

  @Option(names = "--for", paramLabel = "VERSION")
  private Optional<String> version = Optional.empty();

  @Option(names = "--on", paramLabel = "DAY")
  private Optional<String> day = Optional.empty();

  @Option(names = "--cut-list", paramLabel = "DIRECTOR.json")
  private Optional<Path> director = Optional.empty();

  @Option(names = "--beside", paramLabel = "DIRECTOR.json")
  private Optional<Path> beside = Optional.empty();

  @Option(names = "--say", paramLabel = "WORDS")
  private List<String> said = List.of();

  @Option(names = "--numbers", paramLabel = "WHOSE")
  private String numbers = "mine";

  @Option(names = "--json")
  private boolean json;

  @Override
  public Integer call() throws IOException {
    BarMap read = readMap(map);
    Optional<BarMap> other =
        beside.isPresent() ? Optional.of(readMap(beside.get())) : Optional.empty();
    ShowChanges file = changes.isPresent() ? readChanges(changes.get()) : ShowChanges.none();
    ShowChanges made = SaidChanges.of(read, other, numbers).all(file, said, day);
    if (director.isPresent()) {
      ChairBars bars = new ChairBars(read, readMap(director.get()));
      bars.beside(made.active(), "the director's").forEach(answers()::println);
      answers().flush();
      return ExitCode.DONE;
    }
    PlanSettings settings =
        PlanSettings.USUAL.withTurns(lying()).withShowing(new Showing(version, day));
    Plan plan = Planner.plan(read, made, settings);
    PrintWriter out = answers();
    if (since.isPresent()) {
      Instant moment = Since.moment(since.get(), ZonedDateTime.now(ZoneId.systemDefault()));
      Plan before = Planner.plan(read, Since.until(made, moment), settings);
      PlanDiff diff = PlanDiff.between(before, plan);
      out.println(json ? BarMapJson.mapper().writeValueAsString(diff) : DiffText.of(read, diff));
      out.flush();
      return read.bars().isEmpty() ? ExitCode.NOTHING_FOUND : ExitCode.DONE;
    }
    out.println(json ? PlanJson.write(plan) : text(read, plan, other));
    out.flush();
    return read.bars().isEmpty() ? ExitCode.NOTHING_FOUND : ExitCode.DONE;
  }

  private static String text(BarMap map, Plan plan, Optional<BarMap> other) {
    return PlanText.of(map, plan, other.map(o -> TheirBars.of(map, o)));
  }

  private TurnSettings lying() {
    Optional<FirstPage> first = firstPage.flatMap(FirstPage::of);
    if (firstPage.isPresent() && first.isEmpty()) {
      throw new CommandException(
          ExitCode.WRONG_USE,
          "--first-page is right, left or single-sheets, not \"" + firstPage.get() + "\"");
    }
    Map<Integer, Leaf> leaves = new HashMap<>();
    laidIn.forEach(p -> leaves.put(p, Leaf.INSERTED));
    loose.forEach(p -> leaves.put(p, Leaf.LOOSE));
    return TurnSettings.USUAL.lying(first, leaves);
  }

  /** Reads a map, or says in one line what is wrong with the file. */
  static BarMap readMap(Path file) throws IOException {
    try {
      return BarMapJson.read(file);
    } catch (BadMapException e) {
      throw new CommandException(
          ExitCode.UNREADABLE, file + " is no bar map: " + e.reasons().get(0));
    }
  }

  /** Reads changes, or says in one line what is wrong with the file. */
  static ShowChanges readChanges(Path file) throws IOException {
    try {
      return ChangesJson.read(Files.readString(file, StandardCharsets.UTF_8));
    } catch (BadChangesException e) {
      throw new CommandException(
          ExitCode.UNREADABLE, file + " is no list of changes: " + e.reasons().get(0));
    }
  }
}
