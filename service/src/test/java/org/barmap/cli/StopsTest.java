package org.barmap.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.barmap.ShortLived;
import org.barmap.cli.run.Home;
import org.barmap.library.Jobs;
import org.barmap.library.Library;
import org.barmap.library.PageCard;
import org.barmap.library.PageState;
import org.barmap.library.sqlite.SqliteLibrary;
import org.barmap.map.json.BarMapJson;
import org.barmap.web.access.Keys;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The program told to end while it reads: it ends at once and in order, and no page is worse for
 * it. More often: {@code -Dbarmap.stops=20}.
 */
class StopsTest {

  private static final int STOPS = Integer.getInteger("barmap.stops", 2);

  @TempDir private Path folder;

  private static Process start(Object... args) throws IOException {
    List<String> command = ShortLived.java("-Xmx512m", "-Dbarmap.home=" + Home.folder(), "-cp");
    command.addAll(List.of(System.getProperty("java.class.path"), Main.class.getName()));
    List.of(args).forEach(a -> command.add(String.valueOf(a)));
    return new ProcessBuilder(command).redirectErrorStream(true).start();
  }

  @Test
  void aServiceEndsInOrderAndItsPagesWait() throws Exception {
    Path data = folder.resolve("data");
    String book = queued(data);
    Random random = new Random(STOPS);
    for (int i = 0; i < STOPS; i++) {
      boolean lines = i % 2 == 1;
      Process process =
          lines ? start("serve", "--data", data, "--log", "json") : start("serve", "--data", data);
      BufferedReader out = process.inputReader();
      String sign = lines ? "\"started\"" : "Ctrl-C";
      while (!out.readLine().contains(sign)) {
        // it says first where it is
      }
      assertThat(process.waitFor(random.nextInt(3_000), TimeUnit.MILLISECONDS)).isFalse();
      process.toHandle().destroy(); // a polite kill
      assertThat(process.waitFor()).isZero();
      List<String> last = out.lines().toList();
      if (lines) {
        assertThat(last).anyMatch(l -> l.contains("\"message\":\"ending\""));
        String key = Keys.of(data, InstantSource.system()).owner();
        assertThat(last)
            .allMatch(l -> BarMapJson.mapper().readTree(l).has("time"))
            .noneMatch(l -> l.contains("Saltmarsh") || l.contains(book) || l.contains(key));
      } else {
        assertThat(last).as("said at the end").isEmpty();
      }
      try (Library library = SqliteLibrary.open(data, Clock.systemUTC())) {
        assertThat(library.pages().all(book))
            .extracting(PageCard::state)
            .doesNotContain(PageState.FAILED);
      }
    }
  }

  @Test
  void aCommandEndsWithoutACrash() throws Exception {
    Random random = new Random(STOPS);
    for (int i = 0; i < STOPS; i++) {
      Process process = start("read", Home.demoBook(), "--out", folder.resolve("map.json"));
      BufferedReader out = process.inputReader();
      assertThat(out.readLine()).contains("page");
      assertThat(process.waitFor(random.nextInt(2_000), TimeUnit.MILLISECONDS)).isFalse();
      process.toHandle().destroy();
      assertThat(process.waitFor()).isEqualTo(128 + 15);
      assertThat(out.lines()).noneMatch(l -> l.contains("fatal") || l.contains("SIG"));
      assertThat(folder.resolve("map.json")).doesNotExist();
    }
  }

  private static String queued(Path data) throws IOException {
    try (Library library = SqliteLibrary.open(data, Clock.systemUTC())) {
      String book = library.books().add("Saltmarsh", "Bass").id();
      List<Jobs.Upload> uploads = new ArrayList<>();
      for (String name : List.of("page-01.png", "page-04.png", "page-06.png", "page-08.png")) {
        Path file = library.pages().folder(book).resolve(name);
        Files.copy(Home.demoBook().resolve(name), file);
        uploads.add(new Jobs.Upload(name, name, file));
      }
      library.jobs().add(book, uploads);
      return book;
    }
  }
}
