package org.barmap.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.util.List;
import java.util.stream.Stream;
import org.barmap.ShortLived;
import org.barmap.cli.out.ExitCode;
import org.barmap.cli.run.Home;
import org.barmap.library.Jobs;
import org.barmap.library.sqlite.SqliteLibrary;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The libraries in machine code lie in a folder of ours: a kill leaves none in the temporary one.
 */
class NativesTest {

  @TempDir private Path folder;

  private static List<Path> files(Path folder) throws IOException {
    try (Stream<Path> all = Files.walk(folder)) {
      return all.filter(Files::isRegularFile).toList();
    }
  }

  private Process start(Path temporary, Path natives, Object... args) throws IOException {
    List<String> command =
        ShortLived.java("-Djava.io.tmpdir=" + temporary, "-Dbarmap.natives=" + natives);
    command.addAll(List.of("-cp", System.getProperty("java.class.path"), Main.class.getName()));
    for (Object arg : args) {
      command.add(String.valueOf(arg));
    }
    return new ProcessBuilder(command)
        .redirectErrorStream(true)
        .redirectOutput(folder.resolve("output").toFile())
        .start();
  }

  /** Kills a program with the programs it started when one of them has loaded a library. */
  private static void killWhenLoaded(Process process, String library) {
    assumeTrue(
        Files.exists(Path.of("/proc/" + process.pid() + "/maps")),
        "only Linux tells what a process has loaded");
    await()
        .atMost(Duration.ofSeconds(90))
        .until(
            () ->
                !process.isAlive()
                    || Stream.concat(Stream.of(process.toHandle()), process.descendants())
                        .anyMatch(one -> hasLoaded(one, library)));
    assertThat(process.isAlive()).as("it ended by itself").isTrue();
    List<ProcessHandle> all =
        Stream.concat(process.descendants(), Stream.of(process.toHandle())).toList();
    all.forEach(ProcessHandle::destroyForcibly);
    all.forEach(one -> one.onExit().join());
  }

  private static boolean hasLoaded(ProcessHandle process, String library) {
    try {
      return Files.readString(Path.of("/proc/" + process.pid() + "/maps")).contains(library);
    } catch (IOException e) {
      return false;
    }
  }

  @Test
  void aKillLeavesNothingInTheTemporaryFolder() throws IOException {
    Path temporary = Files.createDirectory(folder.resolve("temporary"));
    Path natives = folder.resolve("natives");
    for (int round = 1; round <= 2; round++) {
      Process serving = start(temporary, natives, "serve", "--data", folder.resolve("data"));
      killWhenLoaded(serving, "libsqlitejdbc");
    }
    Path page = Home.demoBook().resolve("page-01.png");
    killWhenLoaded(
        start(temporary, natives, "read", page, "--out", folder.resolve("map.json")),
        "libonnxruntime4j_jni");
    try (SqliteLibrary library = SqliteLibrary.open(folder.resolve("data"), Clock.systemUTC())) {
      String book = library.books().add("Saltmarsh", "Bass").id();
      Path upload = library.pages().folder(book).resolve("u" + "1".repeat(32) + ".png");
      Files.copy(page, upload);
      library.jobs().add(book, List.of(new Jobs.Upload("u1", "page-01.png", upload)));
    }
    killWhenLoaded(
        start(temporary, natives, "serve", "--data", folder.resolve("data")),
        "libonnxruntime4j_jni");
    assertThat(files(temporary))
        .as("folders that the next start may take, by their lock, and nothing in them")
        .allMatch(file -> file.getFileName().toString().equals(".barmap-owner"));
    Path opencv = natives.resolve("opencv");
    assertThat(files(natives).stream().filter(file -> !file.startsWith(opencv)))
        .as("once each, whatever was killed")
        .hasSize(3);
    assertThat(files(opencv)).as("what pictures are decoded with is there too").isNotEmpty();
  }

  @Test
  void aTemporaryFolderThatRunsNothingIsNoTrouble() throws IOException, InterruptedException {
    Path temporary = Files.createDirectory(folder.resolve("temporary"));
    Process mount =
        new ProcessBuilder("mount", "-t", "tmpfs", "-o", "noexec", "tmpfs", temporary.toString())
            .redirectErrorStream(true)
            .start();
    assumeTrue(mount.waitFor() == 0, "only root may mount a folder that runs nothing");
    try {
      Path data = folder.resolve("data");
      Process there = start(temporary, folder.resolve("natives"), "pack", "none", "--data", data);
      assertThat(there.waitFor()).isEqualTo(ExitCode.NOTHING_FOUND);
      // where no folder of ours runs anything either, that is what is said
      Process nowhere =
          start(temporary, temporary.resolve("natives"), "pack", "none", "--data", data);
      assertThat(nowhere.waitFor()).isEqualTo(ExitCode.UNREADABLE);
      assertThat(folder.resolve("output"))
          .content()
          .contains("can't be loaded")
          .contains(temporary.toString())
          .doesNotContain("data folder");
    } finally {
      new ProcessBuilder("umount", "-l", temporary.toString()).start().waitFor();
    }
  }
}
