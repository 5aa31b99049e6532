package org.barmap.bench.trust;

import static org.assertj.core.api.Assertions.assertThat;

import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;

/**
 * A service killed while it is written to: what it acknowledged is there, and every map is whole.
 * Longer: {@code -Dbarmap.torture=60 -Dbarmap.torture.seed=7}, or {@code barmap bench torture}; on
 * PostgreSQL with processes that share it: {@code -Dbarmap.torture.postgres=60}, or {@code
 * --database}. Both stores at once, since who is killed is waited for more than worked for.
 */
@Execution(ExecutionMode.CONCURRENT)
class TortureTest {

  private static final int SECONDS = Integer.getInteger("barmap.torture", 30);
  private static final int SHARED_SECONDS = Integer.getInteger("barmap.torture.postgres", 30);
  private static final long SEED = Long.getLong("barmap.torture.seed", 1);

  @Test
  void nothingAcknowledgedIsLostAndNoMapIsBroken() throws IOException {
    Map<String, Object> figures = Torture.run(SECONDS, SEED, List.of(), Torture.Shared.NOTHING);
    assertNothingWrong(figures);
    assertThat((Long) figures.get("services killed")).isPositive();
  }

  /** One process listens and two read, on a PostgreSQL that is started for it. */
  @Test
  void neitherWhereProcessesShareADatabase() throws IOException {
    try (EmbeddedPostgres server = EmbeddedPostgres.builder().start()) {
      String database = "postgresql://postgres@localhost:" + server.getPort() + "/postgres";
      Map<String, Object> figures =
          Torture.run(
              SHARED_SECONDS, SEED, List.of(), new Torture.Shared(Optional.of(database), 2));
      assertNothingWrong(figures);
      assertThat(figures.keySet())
          .containsAnyOf("services killed", "workers killed", "all killed at once");
    }
  }

  /** A kill may come between bin and back: what was uploaded before is read only after that. */
  @Test
  void aPageOfABookInTheBinIsLateAndNotLost() throws IOException {
    Map<String, byte[]> pictures = Strips.pictures();
    Tally tally = new Tally();
    try (Served served = new Served(List.of())) {
      String title = "In the bin";
      String book = served.book(title);
      BookLedger ledger = new BookLedger(title);
      BookCheck check = new BookCheck(served, tally, book, ledger, Map.of());
      BookWriter writer = new BookWriter(served, new Gate(), tally, pictures, check, SEED);
      writer.begin();
      served.asked().change("DELETE", "/api/books/" + book, 0, "");
      check.look(true);
      assertThat(ledger.sources.sure()).hasSize(2);
    }
    assertThat(tally.of("acknowledged uploads")).isEqualTo(2);
    assertThat(tally.of("lost")).as("%s", tally.wrong()).isZero();
  }

  private static void assertNothingWrong(Map<String, Object> figures) {
    assertThat(figures.get("wrong"))
        .asInstanceOf(org.assertj.core.api.InstanceOfAssertFactories.LIST)
        .isEmpty();
    assertThat((Long) figures.get("acknowledged")).isPositive();
  }

  @Test
  void aLedgerKnowsWhatMayHaveBecomeOfAnUnansweredRequest() {
    Fact<List<String>> list = new Fact<>(List.of("a"));
    list.expect(List.of("a", "b"));
    assertThat(list.isSeen(List.of("a", "b"))).as("it was done").isTrue();
    assertThat(list.isSeen(List.of("a"))).as("and can't be undone by a kill").isFalse();
    list.expect(List.of("c"));
    assertThat(list.isSeen(List.of("a"))).as("it was not done").isTrue();
    assertThat(list.isSeen(List.of("c"))).as("nobody asks for it any more").isFalse();
  }
}
