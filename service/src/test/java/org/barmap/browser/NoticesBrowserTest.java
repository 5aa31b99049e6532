package org.barmap.browser;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;

/** What a message offers is about what it says, and it lies over nothing that is in use. */
class NoticesBrowserTest extends VisitingTest {

  private String book = "";

  @BeforeAll
  void open(@TempDir Path data) throws IOException {
    book = ReadyBook.into(data);
    visit(data, 390, 844);
  }

  /** Of two messages about steps of one kind only the later can take its step back. */
  @Test
  void takeBackIsAboutTheStepItsMessageNames() {
    String said =
        onTheRoad(
            """
              const { forget, toast } = await import("/js/core/toast.js");
              const taken = [];
              const step = (n, last) => toast(n, { action: { label: "Take back", last, run: () => taken.push(n) } });
              step("first", "changes");
              step("other", "corrections");
              step("second", "changes");
              const left = [...document.querySelectorAll(".toast:has(.toast-action) .toast-text")].map((n) => n.textContent);
              [...document.querySelectorAll(".toast-action")].pop().click();
              step("third", "changes");
              forget("changes");
              const at = document.querySelectorAll(".toast-action").length;
              done(`${left.join(" ")}, ${taken.join(" ")}, ${at}`);
            """);
    assertThat(said).isEqualTo("other second, second, 1");
    assertThat(browser.complaints()).isEmpty();
  }

  @Test
  void aMessageLiesNotOverWhatWasJustUsed() {
    String over =
        onTheRoad(
            """
              const { toast } = await import("/js/core/toast.js");
              const low = document.createElement("button");
              low.textContent = "Just used";
              low.style.cssText = "position:fixed;left:40%;bottom:1.2rem;z-index:1";
              document.body.append(low);
              const at = () => {
                const [a, b] = [low, document.querySelector(".toasts")].map((n) => n.getBoundingClientRect());
                return a.left < b.right && a.right > b.left && a.top < b.bottom && a.bottom > b.top;
              };
              toast("first", {});
              const covered = at();
              low.dispatchEvent(new PointerEvent("pointerdown", { bubbles: true }));
              toast("second", {});
              done(`${covered} ${at()}`);
            """);
    assertThat(over).isEqualTo("true false");
  }

  /** Two insertions made by hand, one after the other, as a player on the phone makes them. */
  @Test
  void theLaterOfTwoStepsIsTakenBackAndTheEarlierStays() {
    int before = changes().size();
    browser.go("/road.html?b=" + book);
    insert(2);
    browser.waiting(20).until(d -> toasts("2 bars inserted after"));
    insert(3);
    browser.waiting(20).until(d -> toasts("3 bars inserted after"));
    assertThat(browser.all(".toast-action")).hasSize(1);
    browser.click(".toast:has(.toast-action) .toast-action");
    browser.count(".change", before + 1, 20);
    JsonNode left = changes();
    assertThat(left).hasSize(before + 1);
    assertThat(left.get(before).path("bars").asInt()).isEqualTo(2);
    assertThat(browser.complaints()).isEmpty();
  }

  /** What a script finds out on the road map. */
  private String onTheRoad(String script) {
    browser.go("/road.html?b=" + book);
    browser.see("#change-words");
    return browser.answer(script);
  }

  private JsonNode changes() {
    return api.get("/api/books/" + book + "/changes").path("changes");
  }

  private boolean toasts(String text) {
    return browser.all(".toast-text").stream().anyMatch(t -> t.getText().contains(text));
  }

  private void insert(int bars) {
    browser.point(".number .form-bar");
    browser.click("[data-kind=insert]");
    browser.empty("dialog [name=bars]");
    browser.type("dialog [name=bars]", Integer.toString(bars));
    browser.click("dialog [type=submit]");
    browser.see("dialog #holding");
    browser.click("dialog [type=submit]");
    browser.waiting(20).until(d -> browser.all("dialog").isEmpty());
  }

  /** A director's list of twenty lines is accepted by one step, and taken back as one. */
  @Test
  void aPastedListIsOneStep() {
    browser.go("/road.html?b=" + book);
    browser.see("#change-words");
    int before = changes().size();
    String lines =
        IntStream.rangeClosed(1, 20)
            .mapToObj(i -> "No. 1: watch at " + i)
            .collect(Collectors.joining("\\n"));
    browser.script("document.getElementById('change-words').value = '" + lines + "'");
    browser.click("#read-words");
    browser.see("#accept-words", "20 changes");
    long start = System.nanoTime();
    browser.click("#accept-words");
    browser.count(".change", before + 20, 30);
    System.out.printf(
        "pasted list of 20 lines accepted in %d ms%n", (System.nanoTime() - start) / 1_000_000);
    JsonNode history = api.get("/api/books/" + book + "/changes/history").path("entries");
    assertThat(history.get(0).path("text").asString()).isEqualTo("Added: 20 changes");
  }
}
