package org.barmap.browser.follow;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.barmap.browser.Api;
import org.barmap.browser.Axe;
import org.barmap.browser.Browser;
import org.barmap.browser.ReadyBook;
import org.barmap.browser.RunningService;
import org.barmap.library.HookTarget;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;

/**
 * The book's page says which edition others read, makes the next one, and registers who is told.
 */
class FollowedBookBrowserTest {

  @TempDir private Path data;

  @Test
  void anEditionIsSaidAndMadeAndSomebodyIsTold() throws Exception {
    String book = ReadyBook.into(data);
    try (HookTarget target = new HookTarget();
        RunningService service = RunningService.start(data, "", List.of("--hooks-to-my-net"));
        Browser browser = Browser.open(service, 1440, 900)) {
      Api api = new Api(service);
      String at = "/api/books/" + book;
      int pages = api.get(at).path("pageCount").asInt();
      browser.go("/book.html?b=" + book);
      browser.see("h1", "Saltmarsh");
      assertThat(browser.all("#edition-said")).isEmpty();
      for (int page = 1; page <= pages; page++) {
        correct(api, at, Map.of("kind", "verify-page", "page", page, "verified", true));
      }
      assertThat(api.get(at + "/editions").path("editions").size()).isEqualTo(1);
      browser.see("#edition-said", "Edition 1, checked");
      browser.see("#edition-said", "nothing has changed since");
      assertThat(browser.see("#edition").getLocation().getY())
          .as("a player comes to the pages and the sheets first")
          .isGreaterThan(browser.see("#save-as").getLocation().getY());
      JsonNode bar = api.get(at + "/map").path("bars").path(0);
      correct(api, at, Map.of("kind", "set-times", "bar", bar.path("id").asString(), "times", 3));
      browser.see("#edition-said", "1 correction since");

      browser.click("#hooks > summary");
      browser.click("#hook-add");
      browser.type("dialog [name=address]", target.address());
      browser.click("dialog [type=submit]");
      String secret = browser.see("#hook-secret").getText();
      browser.click("dialog .btn");
      browser.see("#hooks", "Nothing was told yet");
      assertThat(Axe.violations(browser)).isEmpty();

      browser.click("#edition-make");
      browser.see("#edition-said", "Edition 2, checked");
      HookTarget.Heard told = target.next();
      assertThat(told.event()).isEqualTo("checked");
      assertThat(told.json().path("edition").asInt()).isEqualTo(2);
      assertThat(told.isSigned(secret)).isTrue();
      assertThat(browser.complaints()).isEmpty();
    }
  }

  private static void correct(Api api, String book, Map<String, ?> correction) {
    api.post(book + "/corrections", correction, api.revision(book));
  }
}
