package org.barmap.browser;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Keys;
import tools.jackson.databind.JsonNode;

/** What a message offers is about what it says, and it lies over nothing that is in use. */
class NoticesBrowserTest extends VisitingTest {

  private String book = "";

  @BeforeAll
  void open(@TempDir Path data) throws IOException {
    book = ReadyBook.into(data);
    visit(data, 390, 844);
  }

  @Test
  void takeBackIsAboutTheStepItsMessageNames() {
    browser.go("/road.html?b=" + book);
    insert(entry(12));
    browser.count(".change", 1, 20);
    browser.see(".toast-action");
    insert(entry(20));
    browser.count(".toast", 2, 20);
    browser.count(".toast .toast-action", 1, 20);
    assertThat(browser.see(".toast:has(.toast-action)").getText()).contains("20");
    browser.click(".toast-action");
    browser.count(".change", 1, 20);
    browser.see(".change", "before 12");
    insert(entry(20));
    browser.see(".toast-action");
    browser.click("#undo-change");
    browser.count(".change", 1, 20);
    assertThat(browser.all(".toast-action")).as("taken back already").isEmpty();
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

  private void insert(String entry) {
    browser.see(".form-bar[data-bar='" + entry + "']").sendKeys(Keys.ENTER);
    browser.click("[data-kind=insert]");
    browser.type("dialog [name=bars]", "2");
    browser.choose("dialog [name=side]", "before");
    browser.click("dialog [type=submit]");
    browser.see("dialog .dialog-body strong");
    browser.click("dialog [type=submit]");
    browser.count("dialog", 0, 20);
  }

  private String entry(int bar) {
    for (JsonNode b : api.get("/api/books/" + book + "/map").path("bars")) {
      int from = b.path("number").asInt();
      if (from <= bar && bar < from + b.path("count").asInt(1)) {
        return b.path("id").asString();
      }
    }
    throw new AssertionError("no bar " + bar);
  }
}
