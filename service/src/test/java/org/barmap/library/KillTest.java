package org.barmap.library;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Optional;
import org.barmap.ShortLived;
import org.barmap.edit.Made;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.kind.BarCorrection;
import org.barmap.library.feed.Told;
import org.barmap.library.postgres.DatabaseAddress;
import org.barmap.library.postgres.PostgresLibrary;
import org.barmap.library.sqlite.SqliteLibrary;
import org.barmap.map.rule.BarMapRules;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** A program killed in the middle of writing loses nothing it had acknowledged. */
class KillTest {

  private static final int KILLS = 3;
  private static final String SENT = "sent";

  @TempDir private Path folder;

  private static Library open(Stores store, Path folder) throws IOException {
    return store.open(folder, Clock.systemUTC());
  }

  @ParameterizedTest
  @EnumSource(Stores.class)
  void whatWasAcknowledgedIsThere(Stores store) throws IOException, InterruptedException {
    String book;
    String hook;
    try (Library library = open(store, folder)) {
      book = library.books().add("Saltmarsh", "Bass").id();
      library.readings().lay(book, library.readings().material(book), Made.book(1));
      hook =
          library
              .feed()
              .hooks()
              .add(Optional.of(book), "https://prep.example.org/", "s", List.of(Told.CHANGED))
              .orElseThrow()
              .id();
    }
    for (int round = 0; round < KILLS; round++) {
      long acknowledged = correctUntilKilled(store, book, 25 + 10 * round);
      try (Library library = open(store, folder)) {
        Versioned<Draft> draft = library.drafts().find(book).orElseThrow();
        assertThat(draft.revision()).isGreaterThanOrEqualTo(acknowledged);
        assertThat(library.replies().find(key(draft.revision())))
            .as("the key of the last edit is kept with it, said or not")
            .contains(new Replies.Reply(SENT, draft.revision()));
        assertThat(library.replies().find(key(draft.revision() + 1))).isEmpty();
        assertThat(BarMapRules.check(draft.value().map())).isEmpty();
        History history = library.drafts().history(book);
        assertThat(history.entries().size())
            .as("one line a revision")
            .isEqualTo(draft.revision() - 1);
        assertThat(history.undo()).isEqualTo(history.entries().size());
        assertThat(library.feed().hooks().deliveries(hook).get(0).revision())
            .as("what is to be told is kept with the step")
            .isEqualTo(draft.revision());
      }
    }
  }

  /**
   * Starts a program that corrects and says so, kills it after a while, returns what it said last.
   */
  private long correctUntilKilled(Stores store, String book, int lines)
      throws IOException, InterruptedException {
    List<String> command = ShortLived.java("-cp", System.getProperty("java.class.path"));
    command.addAll(List.of(Corrects.class.getName(), folder.toString(), book));
    command.add(store == Stores.POSTGRES ? Stores.postgres(folder) : "");
    Process process =
        new ProcessBuilder(command).redirectError(ProcessBuilder.Redirect.DISCARD).start();
    long last = 0;
    try (BufferedReader out =
        new BufferedReader(
            new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8))) {
      for (int i = 0; i < lines; i++) {
        String line = out.readLine();
        assertThat(line).as("the program stopped by itself").isNotNull();
        last = Long.parseLong(line);
      }
      process.destroyForcibly();
      process.waitFor();
    }
    return last;
  }

  /** The key of the edit that a revision comes of. */
  private static String key(long revision) {
    return "makes-revision-" + revision;
  }

  /** Corrects without end and prints every revision it was told is kept. */
  static final class Corrects {
    private Corrects() {}

    public static void main(String[] args) throws IOException {
      Path folder = Path.of(args[0]);
      Clock clock = Clock.systemUTC();
      try (Library library =
          args[2].isEmpty()
              ? SqliteLibrary.open(folder, clock)
              : PostgresLibrary.open(
                  DatabaseAddress.of(args[2], Optional.empty()), folder, clock)) {
        for (int i = 0; ; i++) {
          Versioned<Draft> now = library.drafts().find(args[1]).orElseThrow();
          String bar = now.value().map().bars().get(i % 5).id();
          library.replies().begin(key(now.revision() + 1), SENT);
          Saved<Draft> saved =
              library
                  .drafts()
                  .correct(args[1], now.revision(), "", new BarCorrection.SetCount(bar, 2 + i % 9));
          System.out.println(((Saved.Done<Draft>) saved).now().revision());
        }
      }
    }
  }
}
