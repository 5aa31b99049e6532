package org.barmap.library;

import static org.assertj.core.api.Assertions.assertThat;

import java.sql.Connection;
import java.sql.Statement;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.barmap.library.feed.Hook;
import org.barmap.library.feed.Hooks;
import org.barmap.library.feed.Outbox;
import org.barmap.library.feed.Told;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** What is being sent holds up what comes after it for a while, and nothing else. */
class OutboxTest extends WithBook {

  private String book = "";
  private Hook hook;

  @SuppressWarnings("NullAway.Init") // before each test
  OutboxTest() {}

  @BeforeEach
  void begin() {
    book = readBook(6);
    hook =
        hooks()
            .add(
                Optional.of(book),
                "https://example.org/",
                "secret-of-the-test",
                List.of(Told.CHANGED, Told.CHECKED))
            .orElseThrow();
    setCount(book, 0, 5);
  }

  private Hooks hooks() {
    return library.feed().hooks();
  }

  private Outbox outbox() {
    return library.feed().outbox();
  }

  @Test
  void whoeverLooksWhileSomethingIsBeingSentIsNotToldToLookAgainAtOnce() {
    Outbox.Sending first = outbox().next().orElseThrow();
    setCount(book, 0, 6);
    assertThat(outbox().next()).isEmpty();
    assertThat(outbox().due()).isEmpty();
    outbox().arrived(first, "Answered 200");
    assertThat(outbox().due()).isPresent();
    assertThat(outbox().next()).isPresent();
  }

  @Test
  void whatAnEndedProcessWasSendingIsSentByAnother() {
    Outbox.Sending first = outbox().next().orElseThrow();
    clock.pass(Duration.ofMinutes(4));
    assertThat(outbox().next()).as("it may still be under way").isEmpty();
    clock.pass(Duration.ofMinutes(2));
    Outbox.Sending again = outbox().next().orElseThrow();
    assertThat(again.delivery().id()).isEqualTo(first.delivery().id());
    assertThat(outbox().next()).as("it is under way anew").isEmpty();
  }

  /** Before keys of one book were kept from it, whoever had one could leave a hook behind. */
  @Test
  void aHookThatAGuestMayHaveMadeIsOffUntilTheOwnerTurnsItOn() throws Exception {
    String ofAll =
        hooks()
            .add(Optional.empty(), "https://example.org/all", "secret", List.of(Told.CHANGED))
            .orElseThrow()
            .id();
    reopen();
    assertThat(hooks().find(hook.id()).orElseThrow().off()).as("of this program").isEmpty();
    library.close();
    try (Connection connection = store().connect(folder);
        Statement statement = connection.createStatement()) {
      statement.execute("delete from keeping where name = 'hooks-of-owner'");
    }
    open();
    assertThat(hooks().find(hook.id()).orElseThrow().off().orElseThrow())
        .contains("if it is yours");
    assertThat(library.keeping().notices()).anyMatch(n -> n.contains("web hook"));
    assertThat(outbox().next()).as("nothing is told").isEmpty();
    assertThat(hooks().find(ofAll).orElseThrow().off()).isEmpty();
    assertThat(hooks().turn(hook.id(), Optional.empty())).isTrue();
    reopen();
    assertThat(hooks().find(hook.id()).orElseThrow().off()).isEmpty();
    assertThat(library.keeping().notices()).noneMatch(n -> n.contains("web hook"));
  }

  @Test
  void whatAPersonTurnsOffStaysOffWhenATryFails() {
    Outbox.Sending first = outbox().next().orElseThrow();
    hooks().turn(hook.id(), Optional.of("Turned off by you"));
    outbox()
        .failed(
            first,
            new Outbox.Failure(
                "No answer in time", Duration.ofSeconds(10), false, Optional.empty()));
    assertThat(hooks().find(hook.id()).orElseThrow().off()).contains("Turned off by you");
  }
}
