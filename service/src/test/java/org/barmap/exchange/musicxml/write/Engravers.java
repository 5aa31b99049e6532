package org.barmap.exchange.musicxml.write;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * Two general-purpose engravers as Debian has them, run over a folder of MusicXML files: what they
 * make of each, bar by bar.
 */
final class Engravers {
  private static final Pattern MEASURE =
      Pattern.compile("<Measure\\b.*?</Measure>", Pattern.DOTALL);
  private static final Pattern EVENT = Pattern.compile("<event elid=\"(\\d+)\"");
  private static final Pattern BARS = Pattern.compile("bars of (\\S+) (\\d+) at (#<Mom [^>]*>)");

  /** Prints how many bars a score has, when its last one has been set. */
  private static final String COUNTER =
      """
      \\version "2.24.0"
      \\layout { \\context { \\Score \\consists
        #(lambda (context)
          (make-engraver
            ((finalize engraver)
              (format (current-error-port) "bars of ~a ~a at ~a\\n"
                (ly:parser-output-name)
                (ly:context-property context 'internalBarNumber)
                (ly:context-property context 'measurePosition)))))
      } }
      """;

  private final Path folder;

  Engravers(Path folder) {
    this.folder = folder;
  }

  /** What MuseScore makes of a file: written bars, and their order when it plays them. */
  record Opened(int written, List<Integer> order) {}

  /** Opens every file and returns what came of it; a file that was not opened is missing. */
  Map<String, Opened> muse(List<String> names) throws IOException, InterruptedException {
    jobs(names, ".musicxml", ".mscx");
    Map<String, Integer> written = new HashMap<>();
    for (String name : names) {
      Path score = folder.resolve(name + ".mscx");
      if (Files.exists(score)) {
        String text = Files.readString(score);
        written.put(
            name,
            (int)
                MEASURE
                    .matcher(text)
                    .results()
                    .filter(m -> !m.group().contains("<multiMeasureRest>"))
                    .count());
        // so that every bar is an element of its own in the list of bars as they are played
        String single =
            text.replace(
                "<createMultiMeasureRests>1</createMultiMeasureRests>",
                "<createMultiMeasureRests>0</createMultiMeasureRests>");
        Files.writeString(folder.resolve(name + "-single.mscx"), single);
      }
    }
    jobs(names.stream().map(n -> n + "-single").toList(), ".mscx", ".mpos");
    Map<String, Opened> opened = new HashMap<>();
    for (String name : written.keySet()) {
      Path positions = folder.resolve(name + "-single.mpos");
      if (Files.exists(positions)) {
        List<Integer> order =
            EVENT
                .matcher(Files.readString(positions))
                .results()
                .map(m -> Integer.valueOf(m.group(1)))
                .toList();
        opened.put(name, new Opened(written.get(name), order));
      }
    }
    return opened;
  }

  private void jobs(List<String> names, String from, String to)
      throws IOException, InterruptedException {
    String list =
        names.stream()
            .filter(n -> Files.exists(folder.resolve(n + from)))
            .map(n -> "{\"in\":\"" + n + from + "\",\"out\":\"" + n + to + "\"}")
            .collect(Collectors.joining(",\n", "[", "]"));
    Files.writeString(folder.resolve("jobs.json"), list);
    run("muse" + to, Map.of("QT_QPA_PLATFORM", "offscreen"), "mscore3", "-j", "jobs.json");
  }

  /** Converts every file, sets it, and returns how many bars it has then. */
  Map<String, Integer> lily(List<String> names) throws IOException, InterruptedException {
    Files.writeString(folder.resolve("count.ly"), COUNTER);
    List<String> command = new ArrayList<>(List.of("lilypond", "-dno-print-pages"));
    command.add("-dinclude-settings=count.ly");
    for (String name : names) {
      run("ly-" + name, Map.of(), "musicxml2ly", "-o", name + ".ly", name + ".musicxml");
      if (Files.exists(folder.resolve(name + ".ly"))) {
        command.add(name + ".ly");
      }
    }
    run("lilypond", Map.of(), command.toArray(String[]::new));
    Map<String, Integer> bars = new HashMap<>();
    Matcher said = BARS.matcher(Files.readString(folder.resolve("lilypond.log")));
    while (said.find()) {
      int next = Integer.parseInt(said.group(2));
      bars.put(said.group(1), said.group(3).equals("#<Mom 0>") ? next - 1 : next);
    }
    return bars;
  }

  /** Runs a command in the folder; what it says goes into a file there. */
  private void run(String log, Map<String, String> environment, String... command)
      throws IOException, InterruptedException {
    List<String> nice = new ArrayList<>(List.of("nice", "-n", "10"));
    nice.addAll(List.of(command));
    ProcessBuilder builder = new ProcessBuilder(nice);
    builder.directory(folder.toFile());
    builder.environment().putAll(environment);
    builder.redirectErrorStream(true);
    builder.redirectOutput(folder.resolve(log + ".log").toFile());
    Process process = builder.start();
    try {
      process.waitFor();
    } finally {
      process.destroyForcibly();
    }
  }

  /** Writes a file for the engravers. */
  void put(String name, byte[] xml) {
    try {
      Files.write(folder.resolve(name + ".musicxml"), xml);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Returns what an engraver said about a file. */
  Optional<String> said(String log) throws IOException {
    Path file = folder.resolve(log + ".log");
    return Files.exists(file)
        ? Optional.of(Files.readString(file, StandardCharsets.UTF_8))
        : Optional.empty();
  }
}
