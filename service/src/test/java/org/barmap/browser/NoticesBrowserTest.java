package org.barmap.browser;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

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
    browser.go("/road.html?b=" + book);
    browser.see("#change-words");
    String said =
        String.valueOf(
            browser.asyncScript(
                """
                const done = arguments[arguments.length - 1];
                (async () => {
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
                })();
                """));
    assertThat(said).isEqualTo("other second, second, 1");
    assertThat(browser.complaints()).isEmpty();
  }

  @Test
  void aMessageLiesNotOverWhatWasJustUsed() {
    browser.go("/road.html?b=" + book);
    browser.see("#change-words");
    String over =
        String.valueOf(
            browser.asyncScript(
                """
                const done = arguments[arguments.length - 1];
                (async () => {
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
                })();
                """));
    assertThat(over).isEqualTo("true false");
  }
}
