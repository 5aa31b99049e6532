package org.barmap.browser;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestMethodOrder;
import org.openqa.selenium.Keys;
import tools.jackson.databind.JsonNode;

/** What can be said of a change in the road map's form reaches the list and the plan. */
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
class ChangeFormBrowserTest extends VisitingTest.OfReadyBook {

  @Test
  @Order(1)
  void aCutHoldsInOneVersionOnlyAndTheVersionIsSwitchedInSight() {
    double whole = played();
    pick(0);
    browser.click("[data-kind=cut]");
    browser.click("#holding summary");
    browser.type("dialog [name=version]", "Matinee");
    browser.script(
        "const f = document.querySelector('dialog [name=until]'); f.value = '2999-12-24';");
    browser.click("dialog [type=submit]");
    browser.see(".change", "matinee only");
    assertThat(changes().path(0).path("version").asString("")).isEqualTo("matinee");
    assertThat(changes().path(0).path("until").asString("")).isEqualTo("2999-12-24");
    assertThat(played()).isEqualTo(whole);
    browser.choose("#version", "matinee");
    browser.waiting(20).until(d -> played() < whole);
    browser.see(".form-bar.cut");
    browser.go("/turns.html?b=" + book);
    browser.see("main", "1 change of the show counted");
    browser.choose("#version", "");
    browser.see("main", "no changes count");
    assertThat(browser.complaints()).isEmpty();
  }

  @Test
  @Order(2)
  void aVampHasACueAndAWayOutInside() {
    choose(2, "vamp");
    browser.type("dialog [name=cue]", "the bell");
    browser.type("dialog [name=exitBeat]", "2");
    accept();
    browser.see(".change", "till the bell, out on beat 2 of 3");
    JsonNode vamp = changes().path(1);
    assertThat(vamp.path("exitBar").asString("")).isEqualTo("3");
    assertThat(vamp.path("exitBeat").asDouble()).isEqualTo(2);
  }

  @Test
  @Order(3)
  void oneGoesOnInAnotherNumber() {
    choose(3, "jump-on");
    browser.choose("dialog [name=toNumber]", "2");
    browser.type("dialog [name=to]", "5");
    accept();
    browser.see(".change", "from 4 to No. 2 bar 5");
    JsonNode jump = changes().path(2);
    assertThat(jump.path("kind").asString("")).isEqualTo("jump");
    assertThat(jump.path("toNumber").asString("")).isEqualTo("2");
    assertThat(jump.path("to").asString("")).isEqualTo("5");
    assertThat(browser.complaints()).isEmpty();
  }

  @Test
  @Order(4)
  void inWhichShowsAndUntilWhenIsEditedLater() {
    browser.go("/road.html?b=" + book);
    browser.click("[data-edit]");
    assertThat(browser.see("dialog [name=version]").getAttribute("value")).isEqualTo("matinee");
    browser.script(
        "const f = document.querySelector('dialog [name=until]'); f.value = '';"
            + "document.querySelector('dialog [name=version]').value = '';");
    browser.type("dialog [name=version]", "Evening");
    browser.type("dialog [name=note]", "ask Jo");
    browser.click("dialog [type=submit]");
    browser.see(".change", "evening only");
    JsonNode cut = changes().path(0);
    assertThat(cut.path("version").asString("")).isEqualTo("evening");
    assertThat(cut.path("note").asString("")).isEqualTo("ask Jo");
    assertThat(cut.has("until")).isFalse();
    assertThat(browser.complaints()).isEmpty();
  }

  @Test
  @Order(5)
  void whatIsWrongInPrintIsListedForTheHirer() {
    choose(4, "note");
    browser.type("dialog [name=text]", "should be F sharp");
    browser.choose("dialog [name=errata]", "true");
    accept();
    browser.see(".change", "misprint at 5: should be F sharp");
    assertThat(changes().path(3).path("errata").asBoolean(false)).isTrue();
    assertThat(browser.complaints()).isEmpty();
  }

  private void choose(int bar, String kind) {
    browser.go("/road.html?b=" + book);
    pick(bar);
    browser.click("[data-kind=" + kind + "]");
  }

  private void accept() {
    browser.click("dialog [type=submit]");
    browser.see("dialog #holding");
    browser.click("dialog [type=submit]");
  }

  private void pick(int bar) {
    if (!browser.path().startsWith("/road.html")) {
      browser.go("/road.html?b=" + book);
    }
    JsonNode map = api.get("/api/books/" + book + "/map");
    String id = map.path("bars").path(bar).path("id").asString();
    browser.see(".form-bar[data-bar='" + id + "']").sendKeys(Keys.ENTER);
  }

  private double played() {
    return api.get("/api/books/" + book + "/plan")
        .path("numbers")
        .path(0)
        .path("played")
        .path("bars")
        .asDouble();
  }

  private JsonNode changes() {
    return api.get("/api/books/" + book + "/changes").path("changes");
  }
}
