package org.barmap.work.engine;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.barmap.ShortLived;
import org.barmap.map.SecondReading.Measure;
import org.barmap.work.DrawnPage;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Real commands as engines: what they read, and what it costs when they don't. */
class EngineRunTest {

  private static final EngineLimits QUICK =
      new EngineLimits(
          Duration.ofSeconds(1), Duration.ZERO, Duration.ofMillis(20), 1 << 20, 100, 1_000, 300);

  /** Long enough for what ends by itself, on a busy machine. */
  private static final EngineLimits PATIENT = QUICK.withTime(Duration.ofMinutes(2));

  @TempDir private Path dir;

  /** Making the page upright takes longest: once for all. */
  private static final EngineRun PATIENT_RUN = prepared();

  private static Path page() throws IOException {
    Path file = Files.createTempFile("barmap-page", ".png");
    file.toFile().deleteOnExit();
    return DrawnPage.draw(file, 2);
  }

  private static EngineRun prepared() {
    try {
      return EngineRun.of(List.of(page()), PATIENT);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @AfterAll
  static void close() {
    PATIENT_RUN.close();
  }

  private static EngineCommand shell(String script) {
    return new EngineCommand("reader", List.of("/bin/sh", "-c", script, "sh", "{pages}", "{out}"));
  }

  private static String why(EngineOutcome outcome) {
    assertThat(outcome).isInstanceOf(EngineOutcome.Failed.class);
    return ((EngineOutcome.Failed) outcome).why();
  }

  private static List<Measure> measures(EngineOutcome outcome) {
    assertThat(outcome).isInstanceOf(EngineOutcome.Done.class);
    return ((EngineOutcome.Done) outcome).part().measures();
  }

  private static String score(String... numbers) {
    StringBuilder xml = new StringBuilder("<score-partwise version=\"4.0\"><part-list>");
    xml.append("<score-part id=\"P1\"><part-name>Bass</part-name></score-part></part-list>");
    xml.append("<part id=\"P1\">");
    for (String n : numbers) {
      xml.append("<measure number=\"").append(n).append("\"><note><rest measure=\"yes\"/>");
      xml.append("<duration>4</duration></note></measure>");
    }
    return xml.append("</part></score-partwise>").toString();
  }

  /** Writes a file beside the engine, for it to copy. */
  private Path file(String name, String text) throws IOException {
    return Files.writeString(dir.resolve(name), text);
  }

  private boolean isGone(Path pidFile) throws IOException {
    long pid = Long.parseLong(Files.readString(pidFile).strip());
    return ProcessHandle.of(pid).filter(ProcessHandle::isAlive).isEmpty();
  }

  @Test
  void itGetsUprightPagesAndItsFilesAreJoinedInOrder() throws Exception {
    Path first = file("a", score("1", "2", "57"));
    Path second = file("b", score("1", "2"));
    Path seen = dir.resolve("seen");
    EngineCommand engine =
        shell(
            "ls \"$1\" > '%s'; head -c 8 \"$1\"/page-0001.png >> '%s'; cp '%s' \"$2/2.xml\"; mkdir \"$2/1\"; cp '%s' \"$2/1/x.musicxml\""
                .formatted(seen, seen, second, first));
    List<Measure> read = measures(PATIENT_RUN.ask(engine, ""));
    // what is only counted from the first measure on says nothing; a jump does
    assertThat(read).extracting(Measure::number).containsExactly("", "", "57", "", "");
    assertThat(read).allMatch(Measure::rest);
    assertThat(Files.readString(seen, java.nio.charset.StandardCharsets.ISO_8859_1))
        .startsWith("page-0001.png\n\u0089PNG");
  }

  @Test
  void thePartIsTheOneCalledLikeTheChairElseTheLongest() throws Exception {
    String two =
        score("1")
            .replace(
                "</part-list>",
                "<score-part id=\"P2\"><part-name>Flute</part-name></score-part></part-list>")
            .replace(
                "</score-partwise>",
                "<part id=\"P2\"><measure number=\"1\"/><measure number=\"2\"/></part></score-partwise>");
    EngineCommand engine = shell("cp '%s' \"$2/a.xml\"".formatted(file("a", two)));
    assertThat(measures(PATIENT_RUN.ask(engine, "bass"))).hasSize(1);
    assertThat(measures(PATIENT_RUN.ask(engine, ""))).hasSize(2);
  }

  @Test
  void itEndsWithEverythingItStartedWhenItsTimeIsOver() throws Exception {
    Path pid = dir.resolve("pid");
    try (EngineRun run = EngineRun.of(List.of(page()), QUICK)) {
      String why = why(run.ask(shell("sleep 600 & echo $! > '%s'; sleep 600".formatted(pid)), ""));
      assertThat(why).isEqualTo("reader took longer than 1.0 s and was ended");
      await().until(() -> isGone(pid));
    }
  }

  @Test
  void whatItLeavesRunningEndsWithIt() throws Exception {
    Path pid = dir.resolve("pid");
    String leaves = "(sleep 600 & echo $! > '%s'); cp '%s' \"$2/a.mxl\"";
    EngineCommand engine = shell(leaves.formatted(pid, file("a", score("1"))));
    assertThat(measures(PATIENT_RUN.ask(engine, ""))).hasSize(1);
    await().until(() -> isGone(pid));
  }

  @Test
  void itIsEndedWhenItWritesTooMuch() throws Exception {
    assertThat(why(PATIENT_RUN.ask(shell("yes > \"$2/a.xml\""), "")))
        .isEqualTo("reader wrote more than 1 MB and was ended");
    assertThat(why(PATIENT_RUN.ask(shell("head -c 3000000 /dev/zero > \"$TMPDIR/big\""), "")))
        .contains("wrote more than 1 MB");
  }

  @Test
  void whatItPrintsIsBoundedAndCannotSteerATerminal() throws Exception {
    String noisy =
        "yes line | head -n 100000; printf '\\033[2Jno licence %s\\n' \"$(yes x | head -n 300 | tr -d '\\n')\" >&2; exit 9";
    String why = why(PATIENT_RUN.ask(shell(noisy), ""));
    assertThat(why).startsWith("reader ended with exit code 9: ").hasSizeLessThan(260);
    assertThat(why.chars()).noneMatch(Character::isISOControl);
  }

  @Test
  void whatItLeavesIsAStrangersFile() throws Exception {
    Path good = file("a", score("1"));
    assertThat(
            why(
                PATIENT_RUN.ask(
                    shell("ln -s '%s' \"$2/a.xml\"; mkfifo \"$2/b.xml\"".formatted(good)), "")))
        .contains("left no .musicxml");
    assertThat(why(PATIENT_RUN.ask(shell("echo '<html/>' > \"$2/a.xml\""), "")))
        .startsWith("reader was not understood: this is no MusicXML score");
    assertThat(why(PATIENT_RUN.ask(shell("true"), ""))).contains("left no .musicxml");
    String many =
        score(Stream.iterate(1, n -> n + 1).limit(600).map(String::valueOf).toArray(String[]::new));
    EngineCommand engine =
        shell("cp '%1$s' \"$2/a.xml\"; cp '%1$s' \"$2/b.xml\"".formatted(file("m", many)));
    assertThat(why(PATIENT_RUN.ask(engine, ""))).contains("more bars than a book has");
  }

  @Test
  void aProgramThatIsNotThereIsNamed() throws Exception {
    EngineCommand engine = EngineCommand.of("mine=/nowhere/reader {pages} {out}");
    assertThat(why(PATIENT_RUN.ask(engine, "")))
        .startsWith("mine ended with exit code")
        .contains("/nowhere/reader");
  }

  @Test
  void nothingIsLeftBehind() throws Exception {
    Path where = dir.resolve("where");
    try (EngineRun own = EngineRun.of(List.of(), PATIENT)) {
      assertThat(why(own.ask(shell("true"), ""))).contains("no page can be opened");
    }
    EngineRun own = EngineRun.of(List.of(DrawnPage.draw(dir.resolve("p.png"), 2)), PATIENT);
    own.ask(shell("echo \"$2\" > '%s'; touch \"$TMPDIR/x\"".formatted(where)), "");
    Path out = Path.of(Files.readString(where).strip());
    Path run = Objects.requireNonNull(out.getParent());
    Path runs = Objects.requireNonNull(run.getParent());
    assertThat(run).doesNotExist();
    assertThat(runs).exists();
    own.close();
    assertThat(runs).doesNotExist();
  }

  /** Run in a process of its own, which is killed. */
  static final class Asking {
    private Asking() {}

    public static void main(String[] args) throws Exception {
      try (EngineRun run = EngineRun.of(List.of(page()), PATIENT)) {
        run.ask(shell("sleep 600 & echo $! > '%s'; wait".formatted(args[0])), "");
      }
    }
  }

  @Test
  void itDoesNotOutliveThisProgram() throws Exception {
    Path pid = dir.resolve("pid");
    String home = "-Dbarmap.home=" + System.getProperty("barmap.home", "..");
    List<String> command = ShortLived.java(home, "-cp", System.getProperty("java.class.path"));
    command.addAll(List.of(Asking.class.getName(), pid.toString()));
    Process asking =
        new ProcessBuilder(command)
            .redirectErrorStream(true)
            .redirectOutput(dir.resolve("log").toFile())
            .start();
    await()
        .atMost(Duration.ofMinutes(1))
        .until(() -> Files.exists(pid) && Files.readString(pid).endsWith("\n"));
    asking.destroyForcibly();
    await().until(() -> isGone(pid));
  }
}
