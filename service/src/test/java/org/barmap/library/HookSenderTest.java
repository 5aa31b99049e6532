package org.barmap.library;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.barmap.library.feed.Delivery;
import org.barmap.library.feed.Hook;
import org.barmap.library.feed.Hooks;
import org.barmap.library.feed.Outbox;
import org.barmap.library.feed.Told;
import org.barmap.map.json.BarMapJson;
import org.barmap.work.hook.HookSender;
import org.barmap.work.hook.NetRules;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** What happens to a book is told to whoever registered for it, and none of it is lost. */
class HookSenderTest extends WithBook {

  private static final String SECRET = "secret-of-the-test";
  private static final List<Told> ALL = List.of(Told.CHECKED, Told.CHANGED, Told.PLAN_CHANGED);

  private final HookTarget target = new HookTarget();
  private HookSender sender;
  private String book = "";

  @BeforeEach
  void begin() {
    sender = new HookSender(library.feed(), new NetRules(true), clock);
    book = readBook(6);
  }

  @AfterEach
  void end() {
    sender.close();
    target.close();
  }

  private Hooks hooks() {
    return library.feed().hooks();
  }

  private Hook hook(Told... events) {
    return hooks().add(Optional.of(book), target.address(), SECRET, List.of(events)).orElseThrow();
  }

  private int sendAll() throws InterruptedException {
    int sent = 0;
    while (sender.runOne()) {
      sent++;
    }
    return sent;
  }

  private List<Delivery.State> states(Hook hook) {
    return hooks().deliveries(hook.id()).stream().map(Delivery::state).toList();
  }

  @Test
  void aCheckedBookIsToldWithASignature() throws Exception {
    hook(Told.CHECKED);
    checkAll(book);
    assertThat(sendAll()).isEqualTo(1);
    HookTarget.Heard heard = target.heard().get(0);
    assertThat(heard.event()).isEqualTo("checked");
    assertThat(heard.isSigned(SECRET)).isTrue();
    assertThat(heard.isSigned(SECRET + "x")).isFalse();
    assertThat(heard.timestamp()).isEqualTo(Long.toString(NOW.getEpochSecond()));
    JsonNode body = heard.json();
    assertThat(body.path("delivery").asString()).isEqualTo(heard.delivery());
    assertThat(body.path("event").asString()).isEqualTo("checked");
    assertThat(body.path("edition").asInt()).isEqualTo(1);
    assertThat(body.path("revision").asLong()).isEqualTo(draft(book).revision());
    assertThat(body.path("links").path("edition").asString())
        .isEqualTo("/api/books/" + book + "/editions/1");
    assertThat(heard.body()).doesNotContain("Saltmarsh");
  }

  @Test
  void changesOfMapAndPlanAreToldAndWhatWaitsIsToldOnce() throws Exception {
    Hook all = hooks().add(Optional.empty(), target.address(), SECRET, ALL).orElseThrow();
    setCount(book, 0, 5);
    setCount(book, 1, 6);
    setCount(book, 0, 7);
    done(
        library
            .changes()
            .add(
                book,
                0,
                "",
                BarMapJson.mapper().createObjectNode().put("kind", "cut").put("first", "3")));
    library.books().setSettings(book, 0, Settings.USUAL);
    assertThat(sendAll()).isEqualTo(2);
    assertThat(target.heard())
        .extracting(HookTarget.Heard::event)
        .containsExactly("changed", "plan-changed");
    assertThat(target.heard().get(0).json().path("revision").asLong())
        .isEqualTo(draft(book).revision());
    assertThat(states(all)).containsOnly(Delivery.State.SENT);
    String other = readBook(7);
    library.books().discard(other);
    assertThat(sendAll()).isEqualTo(1);
    assertThat(target.heard().get(2).json().path("book").asString()).isEqualTo(other);
  }

  @Test
  void whatIsNotAskedForOrOfAnotherBookIsNotTold() throws Exception {
    hook(Told.CHECKED);
    setCount(book, 0, 5);
    checkAll(readBook(7));
    assertThat(sendAll()).isZero();
  }

  @Test
  void whatDoesNotArriveIsSentAgainWithGrowingPausesInOrder() throws Exception {
    Hook hook = hook(Told.CHECKED, Told.CHANGED);
    target.answer(500, 0);
    setCount(book, 0, 5);
    assertThat(sendAll()).isEqualTo(1);
    assertThat(states(hook)).containsExactly(Delivery.State.WAITING);
    checkAll(book);
    Duration before = Duration.ZERO;
    for (int i = 0; i < 3; i++) {
      assertThat(sendAll()).as("it waits").isZero();
      Duration pause =
          Duration.between(clock.instant(), library.feed().outbox().due().orElseThrow());
      assertThat(pause).isGreaterThan(before);
      before = pause;
      clock.pass(pause);
      assertThat(sendAll()).isEqualTo(1);
    }
    target.answer(204, 0);
    clock.pass(Duration.ofHours(1));
    sendAll();
    List<HookTarget.Heard> heard = target.heard();
    assertThat(heard.subList(0, 5)).extracting(HookTarget.Heard::event).containsOnly("changed");
    assertThat(heard.subList(0, 5))
        .extracting(HookTarget.Heard::delivery)
        .containsOnly(heard.get(0).delivery());
    assertThat(heard.get(4).timestamp()).isNotEqualTo(heard.get(0).timestamp());
    assertThat(heard).allMatch(h -> h.isSigned(SECRET));
    assertThat(heard.get(heard.size() - 1).event()).isEqualTo("checked");
    assertThat(states(hook)).containsOnly(Delivery.State.SENT);
    assertThat(hooks().find(hook.id()).orElseThrow().failingSince()).isEmpty();
  }

  @Test
  void whatNeverArrivesIsGivenUpAndCanBeSentAgain() throws Exception {
    Hook hook = hook(Told.CHECKED);
    target.answer(404, 0);
    checkAll(book);
    for (int i = 0; i < 8; i++) {
      assertThat(sendAll()).isEqualTo(1);
      Optional<Instant> due = library.feed().outbox().due();
      due.ifPresent(then -> clock.pass(Duration.between(clock.instant(), then)));
    }
    assertThat(sendAll()).isZero();
    Delivery dead = hooks().deliveries(hook.id()).get(0);
    assertThat(dead.state()).isEqualTo(Delivery.State.DEAD);
    assertThat(dead.answer()).isEqualTo("Answered 404");
    assertThat(dead.tries()).isEqualTo(8);
    target.answer(200, 0);
    assertThat(hooks().again(hook.id(), dead.id())).isTrue();
    assertThat(hooks().again("nobody", dead.id())).isFalse();
    assertThat(sendAll()).isEqualTo(1);
    assertThat(target.heard()).extracting(HookTarget.Heard::delivery).containsOnly(dead.id());
    assertThat(states(hook)).containsExactly(Delivery.State.SENT);
  }

  @Test
  void whoIsNotReachedForDaysIsTurnedOffUntilAPersonTurnsItOn() throws Exception {
    Hook hook = hook(Told.CHANGED);
    target.answer(503, 0);
    for (int day = 0; day < 9 && hooks().find(hook.id()).orElseThrow().off().isEmpty(); day++) {
      setCount(book, 0, 2 + day);
      sendAll();
      clock.pass(Duration.ofHours(13));
    }
    assertThat(hooks().find(hook.id()).orElseThrow().off()).contains("Nothing arrived for 3 days");
    assertThat(states(hook)).containsOnly(Delivery.State.DEAD);
    int heard = target.heard().size();
    setCount(book, 0, 40);
    assertThat(sendAll()).isZero();
    target.answer(200, 0);
    assertThat(hooks().turn(hook.id(), Optional.empty())).isTrue();
    setCount(book, 0, 41);
    assertThat(sendAll()).isEqualTo(1);
    assertThat(target.heard()).hasSize(heard + 1);
  }

  @Test
  void aRedirectionIsNotFollowedAndALongAnswerNotRead() throws Exception {
    Hook hook = hook(Told.CHANGED);
    target.answer(307, 0);
    setCount(book, 0, 5);
    sendAll();
    assertThat(target.heard()).hasSize(1);
    assertThat(hooks().deliveries(hook.id()).get(0).answer()).startsWith("Answered 307");
    clock.pass(Duration.ofHours(1));
    target.answer(200, 1 << 20);
    assertThat(sendAll()).isEqualTo(1);
    assertThat(states(hook)).containsExactly(Delivery.State.SENT);
  }

  @Test
  void theOwnMachineIsNotSentToUnlessAllowed() throws Exception {
    Hook hook = hook(Told.CHANGED);
    sender.close();
    sender = new HookSender(library.feed(), NetRules.INTERNET, clock);
    setCount(book, 0, 5);
    assertThat(sendAll()).isEqualTo(1);
    assertThat(target.heard()).isEmpty();
    assertThat(hooks().deliveries(hook.id()).get(0).answer()).contains("--hooks-to-my-net");
  }

  @Test
  void aKillLosesNothing() throws Exception {
    hook(Told.CHECKED);
    checkAll(book);
    Outbox.Sending begun = library.feed().outbox().next().orElseThrow();
    assertThat(sendAll()).as("it is being sent").isZero();
    sender.close();
    reopen();
    sender = new HookSender(library.feed(), new NetRules(true), clock);
    assertThat(sendAll()).isEqualTo(1);
    assertThat(target.heard().get(0).delivery()).isEqualTo(begun.delivery().id());
  }

  @Test
  void aStepThatIsNotKeptTellsNothing() throws Exception {
    hook(Told.CHANGED, Told.CHECKED);
    assertThat(library.drafts().undo(book, draft(book).revision()))
        .isInstanceOf(Saved.Refused.class);
    assertThat(library.books().rename(book, 0, "A", "B")).isInstanceOf(Saved.Stale.class);
    assertThat(sendAll()).isZero();
  }

  @Test
  void whatIsToldGoesWithTheBookAndTheHook() throws IOException, InterruptedException {
    Hook own = hook(Told.CHANGED);
    Hook all = hooks().add(Optional.empty(), target.address(), SECRET, ALL).orElseThrow();
    setCount(book, 0, 5);
    library.books().discard(book);
    library.books().removeForGood(book);
    assertThat(hooks().find(own.id())).isEmpty();
    assertThat(hooks().deliveries(all.id())).isEmpty();
    assertThat(sendAll()).isZero();
    readBook(7);
    assertThat(hooks().remove(all.id())).isTrue();
    assertThat(hooks().remove(all.id())).isFalse();
    assertThat(sendAll()).isZero();
    assertThatThrownBy(() -> hook(Told.CHANGED)).as("of a book that is gone").isNotNull();
  }

  @Test
  void aThreadSendsAsSoonAsItHappens() throws Exception {
    hook(Told.CHECKED);
    sender.start();
    checkAll(book);
    assertThat(target.next().event()).isEqualTo("checked");
  }

  @Test
  void thereAreOnlySoManyAndOldOnesAreForgotten() throws Exception {
    Hook hook = hook(Told.CHANGED);
    for (int i = 0; i < Hooks.MOST_KEPT + 5; i++) {
      hooks().tryOut(hook.id(), Optional.of(book));
      sendAll();
    }
    assertThat(hooks().deliveries(hook.id())).hasSize(Hooks.MOST_KEPT);
    for (int i = 1; i < Hooks.MOST; i++) {
      assertThat(hooks().add(Optional.empty(), target.address(), SECRET, ALL)).isPresent();
    }
    assertThat(hooks().add(Optional.empty(), target.address(), SECRET, ALL)).isEmpty();
  }
}
