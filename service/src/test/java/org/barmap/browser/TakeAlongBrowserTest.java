package org.barmap.browser;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.net.URI;
import java.net.URLConnection;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.barmap.library.Disk;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Keys;
import tools.jackson.databind.JsonNode;

/** What a player takes along: the book in one file, the page for a substitute. */
class TakeAlongBrowserTest extends VisitingTest {

  private Path folder;
  private Path shelf;
  private String book;

  @BeforeAll
  void open(@TempDir Path data, @TempDir Path other) throws IOException {
    folder = other;
    shelf = data;
    book = ReadyBook.into(data);
    // as an older database would leave it
    Files.writeString(data.resolve("books/" + book + "/u" + "0".repeat(32) + ".png"), "kelpmarker");
    visit(data, 1280, 900);
    DemoBook.changesInto(api, book);
  }

  /** The book that was opened from a bar map; it has no changes. */
  private String newest() {
    return api.get("/api/books")
        .path("books")
        .valueStream()
        .filter(b -> b.path("id").asString().length() > 0)
        .map(b -> b.path("id").asString())
        .filter(id -> api.get("/api/books/" + id + "/changes").path("changes").size() < 20)
        .findFirst()
        .orElseThrow();
  }

  /** Saves what an address of the book answers. */
  private Path saved(String route, String name) throws IOException {
    Path file = folder.resolve(name);
    URLConnection asked =
        URI.create(visit.service().base() + "/api/books/" + book + route).toURL().openConnection();
    asked.setRequestProperty("Authorization", "Bearer " + visit.service().key());
    try (InputStream in = asked.getInputStream()) {
      Files.copy(in, file);
    }
    return file;
  }

  @Test
  void aPackedBookAMapAndChangesAreOpenedOnTheShelf() throws IOException {
    browser.go("/book.html?b=" + book);
    browser.click("#save-as summary");
    assertThat(browser.attribute("#pack", "href")).endsWith("/pack");
    browser.click("#pack-pictures");
    assertThat(browser.attribute("#pack", "href")).endsWith("/pack?pictures=true");
    assertThat(browser.see("#save-as").getText()).contains("hire agreement");
    browser.click("#save-programs > summary");
    browser.click("#left-out summary");
    browser.see("#left-out li", "vamp 10-11 till cue");
    browser.type("#midi-number", "99");
    browser.click("#midi-go");
    browser.see("#midi-said", "There is no No. 99");
    Path pack = saved("/pack?pictures=true", "saltmarsh.barpack.zip");
    System.out.println(
        "packed: the demo book with its pictures has " + Files.size(pack) + " bytes");
    browser.go("/");
    browser.see(".book");
    int books = browser.all(".book").size();
    browser.files("#open-files", List.of(pack));
    browser.count(".book", books + 1, 60);
    browser.files("#open-files", List.of(saved("/export/map", "saltmarsh.barmap.json")));
    browser.count(".book", books + 2, 60);
    Path broken = folder.resolve("broken.zip");
    Files.write(broken, new byte[] {'P', 'K', 3, 4, 0, 0});
    browser.files("#open-files", List.of(broken));
    browser.see(".toast-bad", "broken.zip can't be opened");
    browser.files("#open-files", List.of(saved("/export/changes", "saltmarsh.changes.json")));
    browser.see("dialog", "Which book are they for?");
    assertThat(Axe.violations(browser)).isEmpty();
    browser.choose("dialog [name=book]", newest());
    browser.click("dialog [type=submit]");
    browser.see(".taken", "No. 1: cut 92 to 101");
    assertThat(browser.all(".taken input:checked")).hasSize(20);
    assertThat(Axe.violations(browser)).isEmpty();
    browser.click(".taken li:first-child label");
    browser.click("dialog [type=submit]");
    browser.see(".toast", "19 changes added");
    browser.go("/book.html?b=" + newest());
    browser.click("#save-as summary");
    browser.files("#take-changes", List.of(saved("/export/changes", "again.changes.json")));
    browser.see(".taken", "the book has it");
    assertThat(browser.all(".taken input:checked")).as("what is not there yet").hasSize(1);
    browser.press(Keys.ESCAPE);
    browser.go("/");
    browser.see(".book");
    assertThat(browser.all(".book")).hasSize(books + 2);
  }

  /**
   * The page for a substitute works from the disk: nothing is fetched, nothing is complained of.
   */
  @Test
  void thePageForASubstituteIsReadAndPlayedFromTheDisk() throws IOException {
    Path page = saved("/export/substitute", "saltmarsh.substitute.html");
    String html = Files.readString(page);
    System.out.println("the page for a substitute has " + Files.size(page) + " bytes");
    assertThat(html).doesNotContain("<img").doesNotContain(" src=").doesNotContain("<link");
    browser.size(390, 844);
    browser.complaints(); // what was refused on purpose before is told once
    browser.open(page);
    String text = browser.see("main").getText();
    for (String told :
        List.of(
            "VAMP 10-11 till the cart stops",
            "CUT from bar 92, land on 102",
            "TACET",
            "page 3 to 4")) {
      assertThat(text).contains(told);
    }
    assertThat(Axe.violations(browser)).isEmpty();
    assertThat(browser.script("return document.documentElement.scrollWidth <= innerWidth"))
        .isEqualTo(true);
    browser.click("#stand-begin");
    browser.press(Keys.PAGE_DOWN, Keys.PAGE_DOWN);
    assertThat(browser.see(".stand-big").getText()).isEqualTo("1");
    assertThat(browser.see(".stand-about").getText()).contains("of 6").contains("bar 5");
    assertThat(Axe.violations(browser)).isEmpty();
    browser.click("#stand-places");
    browser.see("dialog #jump-number");
    browser.press(Keys.ESCAPE);
    browser.count("dialog", 0, 10);
    browser.click("#stand-leave");
    browser.see("#stand-begin");
    assertThat(browser.script("return performance.getEntriesByType('resource').length"))
        .as("fetched besides the page itself")
        .isEqualTo(0L);
    assertThat(browser.complaints()).isEmpty();
    browser.size(1280, 900);
  }

  private List<String> books() {
    return api.get("/api/books")
        .path("books")
        .valueStream()
        .map(b -> b.path("id").asString())
        .toList();
  }

  /** Whether the browser still has a picture without asking the service. */
  private String inBrowser(String address) {
    return String.valueOf(
        browser.asyncScript(
            "const done = arguments[arguments.length - 1];"
                + "fetch('"
                + address
                + "', {cache: 'only-if-cached', mode: 'same-origin'})"
                + ".then(r => done(r.ok ? 'kept' : 'gone'), () => done('gone'));"));
  }

  @Test
  void aBookThatGoesBackIsGoneThroughAndLeavesNoPicture() throws IOException {
    List<String> before = books();
    browser.go("/");
    browser.see(".book");
    browser.files("#open-files", List.of(saved("/pack?pictures=true", "back.barpack.zip")));
    browser.count(".book", before.size() + 1, 60);
    String back = books().stream().filter(b -> !before.contains(b)).findFirst().orElseThrow();
    api.post(
        "/api/books/" + back + "/marks",
        Map.of(
            "written",
            true,
            "mark",
            Map.of("page", 2, "system", 1, "bar", "b1", "mark", "watch", "sign", "V.S.")));
    JsonNode pages = api.get("/api/books/" + back).path("pages");
    int bars = api.get("/api/books/" + back).path("bars").asInt();
    browser.go("/book.html?b=" + back);
    browser.see(".thumb img");
    String picture =
        "/api/books/" + back + "/pages/" + pages.get(0).path("id").asString() + "/image?width=320";
    browser.waiting(20).until(d -> inBrowser(picture).equals("kept"));
    browser.click("#care summary");
    assertThat(browser.see(".kept").getText())
        .contains(shelf.toString())
        .contains("What was read and corrected")
        .contains("This browser")
        .contains("Files you saved");
    assertThat(Axe.violations(browser)).isEmpty();
    browser.click("#give-back");
    browser.see("dialog", "The book goes back");
    browser.see("dialog li", "V.S.");
    assertThat(Axe.violations(browser)).isEmpty();
    browser.click("dialog [type=submit]");
    assertThat(browser.all("dialog")).as("nothing goes before all is ticked").hasSize(1);
    assertThat(Disk.holding(shelf.resolve("books/" + back), ".page")).isNotEmpty();
    browser.script("document.querySelectorAll('dialog input').forEach((box) => box.click())");
    browser.click("dialog [type=submit]");
    browser.see(".toast", "pictures removed");
    assertThat(Disk.holding(shelf.resolve("books/" + back), ".page")).isEmpty();
    for (JsonNode page : pages) {
      assertThat(Disk.holding(shelf.resolve("cache"), page.path("id").asString())).isEmpty();
    }
    assertThat(api.get("/api/books/" + back).path("bars").asInt()).isEqualTo(bars);
    assertThat(api.get("/api/books/" + back + "/marks").path("written")).isEmpty();
    assertThat(inBrowser(picture)).isEqualTo("gone");
    browser.see(".thumb", "picture was removed");
    api.delete("/api/books/" + back);
    api.delete("/api/bin/" + back);
  }

  @Test
  void whatTheStartSetAsideIsShownUntilAPersonDeletesIt() throws IOException {
    browser.go("/");
    browser.see("#notices", "set aside in set-aside");
    assertThat(Disk.holding(shelf.resolve("set-aside"), "kelpmarker")).hasSize(1);
    assertThat(Axe.violations(browser)).isEmpty();
    browser.click("#clear-aside");
    browser.see("dialog", "can't be taken back");
    browser.click("dialog [type=submit]");
    browser.count("#notices", 0, 20);
    assertThat(Disk.holding(shelf, "kelpmarker")).isEmpty();
  }
}
