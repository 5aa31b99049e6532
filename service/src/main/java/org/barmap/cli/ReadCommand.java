package org.barmap.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.cli.option.EngineOptions;
import org.barmap.cli.out.CommandException;
import org.barmap.cli.out.ExitCode;
import org.barmap.cli.out.OutFile;
import org.barmap.cli.out.ProgressBar;
import org.barmap.cli.text.Summary;
import org.barmap.exchange.musicxml.MusicXmlReader;
import org.barmap.exchange.musicxml.UnreadableMusicXmlException;
import org.barmap.extract.Extraction;
import org.barmap.extract.Extractor;
import org.barmap.extract.Options;
import org.barmap.extract.Overlay;
import org.barmap.map.BarMap;
import org.barmap.map.Finding;
import org.barmap.map.SecondReading;
import org.barmap.map.Severity;
import org.barmap.map.Stage;
import org.barmap.map.json.BarMapJson;
import org.barmap.reckon.Fixed;
import org.barmap.reckon.SecondEvidence;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;

/** {@code barmap read}. */
@Command(name = "read", mixinStandardHelpOptions = true)
final class ReadCommand extends PrintingCommand {

  private static final Path STANDARD_INPUT = Path.of("/dev/stdin");

  /** How many parts of a score are named in a complaint. */
  private static final int SHOWN = 24;

  @Parameters(arity = "1..*", paramLabel = "FILE-OR-FOLDER")
  private List<Path> paths = new ArrayList<>();

  @Option(names = "--title", paramLabel = "T")
  private String title = "";

  @Option(names = "--part", paramLabel = "P")
  private String part = "";

  @Option(names = "--out", paramLabel = "MAP.json")
  private Optional<Path> out = Optional.empty();

  @Option(names = "--overlay", paramLabel = "DIR")
  private Optional<Path> overlay = Optional.empty();

  @Option(names = "--second", paramLabel = "FILE.musicxml")
  private Optional<Path> second = Optional.empty();

  @Option(names = "--second-part", paramLabel = "NAME")
  private String secondPart = "";

  @Option(names = "--books")
  private boolean books;

  @Mixin private EngineOptions engines = new EngineOptions();

  @Override
  public Integer call() throws IOException {
    PrintWriter err = remarks();
    if (books) {
      return books(err);
    }
    out.ifPresent(OutFile::check);
    paths.replaceAll(p -> p.toString().equals("-") ? STANDARD_INPUT : p);
    if (ScoreIn.is(paths)) {
      BarMap map = ScoreIn.book(paths.get(0), part, title);
      map.findings().forEach(f -> err.println("barmap: " + f.text()));
      written(map, err);
      return ExitCode.DONE;
    }
    // before the pages, which take longer: what is wrong with it is said at once
    List<SecondReading.Part> said = new ArrayList<>();
    if (second.isPresent()) {
      said.add(said(second.get()));
    }
    engines.check(line(), paths.contains(STANDARD_INPUT));
    Extraction read = read(paths, new Options(title, part), err);
    BarMap known = SecondEvidence.trusted().settle(read.map(), said, Fixed.NOTHING);
    BarMap map =
        SecondEvidence.ofSamePages().settle(known, engines.ask(paths, part, err), Fixed.NOTHING);
    if (map.pages().isEmpty()) {
      throw new CommandException(ExitCode.UNREADABLE, "no page could be read");
    }
    if (overlay.isPresent()) {
      Overlay.write(paths, map, overlay.get());
    }
    written(map, err);
    return code(read);
  }

  private void written(BarMap map, PrintWriter err) throws IOException {
    if (out.isPresent()) {
      OutFile.text(out.get(), BarMapJson.write(map));
    } else {
      answers().println(BarMapJson.write(map));
      answers().flush();
    }
    err.println(Summary.of(map) + out.map(o -> ", written to " + o).orElse(""));
    err.flush();
  }

  private int books(PrintWriter err) throws IOException {
    List<String> given =
        line().getParseResult().matchedOptions().stream()
            .map(o -> o.longestName())
            .filter(
                List.of("--title", "--part", "--overlay", "--second", "--second-part")::contains)
            .toList();
    Optional<String> unfit = ReadBooks.unfit(paths, given);
    if (unfit.isPresent()) {
      throw new ParameterException(line(), unfit.get());
    }
    engines.check(line(), false);
    return new ReadBooks(paths.get(0), out, engines).run(answers(), err);
  }

  private SecondReading.Part said(Path file) throws IOException {
    SecondReading reading;
    try {
      reading = MusicXmlReader.read(file);
    } catch (UnreadableMusicXmlException e) {
      throw new CommandException(
          ExitCode.UNREADABLE, file.getFileName() + ": " + String.valueOf(e.getMessage()));
    }
    String wanted = secondPart.isBlank() ? part : secondPart;
    List<SecondReading.Part> parts = reading.parts();
    if (parts.size() > 1 || !secondPart.isBlank()) {
      parts = wanted.isBlank() ? parts : reading.partsNamed(wanted);
    }
    if (parts.size() != 1) {
      String trouble =
          wanted.isBlank() || parts.size() > 1
              ? "say which part is yours"
              : "it has no part called \"" + wanted.strip() + "\"; say which is yours";
      throw new CommandException(
          ExitCode.WRONG_USE,
          file.getFileName()
              + ": "
              + trouble
              + " with --second-part NAME. Its parts are "
              + listed(reading.parts()));
    }
    return parts.get(0);
  }

  /** Names parts, a nameless one by its id; the first of very many. */
  private static String listed(List<SecondReading.Part> parts) {
    List<String> names =
        parts.stream().limit(SHOWN).map(p -> p.name().isBlank() ? p.id() : p.name()).toList();
    String more = parts.size() > SHOWN ? " and " + (parts.size() - SHOWN) + " more" : "";
    return String.join(", ", names) + more;
  }

  private static int code(Extraction read) {
    boolean unreadable =
        read.findings().stream()
            .anyMatch(f -> f.severity() == Severity.ERROR && f.stage() == Stage.FILE);
    if (unreadable) {
      return ExitCode.UNREADABLE;
    }
    boolean nothing = read.map().pages().stream().allMatch(p -> p.systems().isEmpty());
    return nothing ? ExitCode.NOTHING_FOUND : ExitCode.DONE;
  }

  /** Reads pages with a progress bar, and prints what is wrong with them. */
  static Extraction read(List<Path> paths, Options options, PrintWriter err) {
    ProgressBar bar = ProgressBar.onTerminal(err);
    try (Extractor extractor = Extractor.open()) {
      Extraction read =
          extractor.read(
              paths, options, (done, of, source, findings) -> bar.show(done, of, source));
      bar.end();
      for (Finding finding : read.findings()) {
        err.println("barmap: " + finding.text());
      }
      err.flush();
      return read;
    }
  }
}
