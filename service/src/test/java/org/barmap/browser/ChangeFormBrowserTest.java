package org.barmap.browser;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.annotation.JsonTypeName;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.change.kind.Kinds;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestMethodOrder;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
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
        "document.querySelector('dialog [name=since]').value = '2020-01-01';"
            + "document.querySelector('dialog [name=until]').value = '2999-12-24';");
    browser.click("dialog [type=submit]");
    browser.see(".change", "matinee only");
    assertThat(changes().path(0).path("version").asString("")).isEqualTo("matinee");
    assertThat(changes().path(0).path("since").asString("")).isEqualTo("2020-01-01");
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

  /** What stands in the list is said otherwise where it was said, and one step takes that back. */
  @Test
  @Order(6)
  void aChangeIsEditedInTheFormItWasMadeWith() {
    JsonNode vamp = changes().path(1);
    int steps = history();
    browser.go("/road.html?b=" + book);
    browser.click("[data-edit='" + vamp.path("id").asString() + "']");
    assertThat(browser.see("dialog [name=first]").getAttribute("value")).isEqualTo("3");
    assertThat(browser.see("dialog [name=exitBeat]").getAttribute("value")).isEqualTo("2");
    browser.type("dialog [name=first]", "2");
    browser.type("dialog [name=cue]", "the lamp");
    browser.empty("dialog [name=exitBeat]");
    browser.empty("dialog [name=exitBar]");
    browser.choose("dialog [name=leave]", "any-time");
    browser.click("dialog [type=submit]");
    browser.see(".change", "vamp 2 to 3 till the lamp, leave at any time");
    JsonNode now = changes().path(1);
    assertThat(now.path("first").asString()).isEqualTo("2");
    assertThat(now.has("exitBar")).isFalse();
    assertThat(history()).isEqualTo(steps + 1);
    browser.click("#undo-change");
    browser.see(".change", "till the bell, out on beat 2 of 3");
    assertThat(changes().path(1)).isEqualTo(vamp);
    assertThat(browser.complaints()).isEmpty();
  }

  /**
   * The live line is cut, so that this player does not hear of the other one: what is added is
   * added all the same, about what is edited both are shown and the player chooses.
   */
  @Test
  @Order(20)
  void twoWhoChangeTheListAtOnceLoseNothing() {
    browser.block("*/events*");
    choose(5, "remind");
    String path = "/api/books/" + book + "/changes";
    Map<String, String> theirs =
        Map.of("number", "2", "kind", "note", "text", "bow near", "who", "Anna");
    int before = changes().size();
    long off = switchedOff();
    api.post(path, theirs, api.revision(path));
    accept();
    browser.count(".change-switch input", before + 2, 30);
    api.post(path, theirs, api.revision(path));
    browser.click(".change-switch input");
    browser.see(".both-theirs", "Anna");
    assertThat(switchedOff()).isEqualTo(off);
    assertThat(Axe.violations(browser)).isEmpty();
    browser.click("dialog [type=submit]");
    browser.waiting(20).until(d -> switchedOff() == off + 1);
    assertThat(changes()).hasSize(before + 3);
    browser.block();
  }

  private long switchedOff() {
    return changes().valueStream().filter(c -> !c.path("on").asBoolean(true)).count();
  }

  /** What speaks against the change as it is now is said before it counts; words do as well. */
  @Test
  @Order(7)
  void whatSpeaksAgainstAnEditIsSaidFirst() {
    JsonNode vamp = changes().path(1);
    browser.click(".form-said[data-said='" + vamp.path("id").asString() + "']");
    browser.type("dialog [name=last]", "900");
    browser.click("dialog [type=submit]");
    browser.see("dialog h2", "Is this right?");
    browser.see("dialog .checks", "has no 900");
    browser.click("dialog .dialog-foot .btn:not([type=submit])");
    browser.count("dialog", 0, 20);
    assertThat(changes().path(1)).isEqualTo(vamp);
    sayInWords(vamp, "No. 1: play twelvety");
    browser.see(".toast-bad");
    assertThat(changes().path(1)).isEqualTo(vamp);
    sayInWords(vamp, "No. 1: play 3 to 4 twice");
    browser.see(".change", "play 3 to 4, 2 times");
    assertThat(changes().path(1).has("cue")).isFalse();
    browser.click("#undo-change");
    browser.see(".change", "till the bell");
    assertThat(changes().path(1)).isEqualTo(vamp);
  }

  private void sayInWords(JsonNode change, String words) {
    browser.click("[data-edit='" + change.path("id").asString() + "']");
    browser.click("dialog details summary");
    browser.type("dialog [name=words]", words);
    browser.click("dialog [type=submit]");
    browser.count("dialog", 0, 20);
  }

  /** Every kind stands in the form, opens from there with all it says, and is kept as it is. */
  @Test
  @Order(8)
  void everyKindStandsInTheFormAndIsEditedFromThere() {
    String path = "/api/books/" + book + "/changes";
    Map<String, String> examples = Kinds.examples();
    List<JsonNode> all =
        examples.values().stream().map(e -> BarMapJson.mapper().readTree(e)).toList();
    api.post(path, Map.of("changes", all), api.revision(path));
    JsonNode made = changes();
    browser.go("/road.html?b=" + book);
    browser.see(".form-bar");
    for (int i = made.size() - all.size(); i < made.size(); i++) {
      String mark = "[data-said='" + made.path(i).path("id").asString() + "']";
      String kind = made.path(i).path("kind").asString();
      browser.count("main:has(" + mark + ")", 1, 20);
      browser.script(
          "document.querySelector(arguments[0]).dispatchEvent(new MouseEvent('click'))", mark);
      for (Map.Entry<String, JsonNode> said : made.path(i).properties()) {
        if (!List.of("id", "when", "kind", "numbers", "after").contains(said.getKey())) {
          assertThat(browser.see("dialog [name=" + said.getKey() + "]").getAttribute("value"))
              .as(kind)
              .isEqualTo(said.getValue().asString());
        }
      }
      browser.click("dialog [type=submit]");
      browser.count("dialog", 0, 20);
    }
    assertThat(changes()).isEqualTo(made);
    assertThat(examples.keySet())
        .containsExactlyInAnyOrderElementsOf(
            Kinds.all()
                .map(k -> k.getAnnotation(JsonTypeName.class).value())
                .collect(Collectors.toSet()));
    assertThat(browser.complaints()).isEmpty();
  }

  /**
   * By axe-core (Deque), on the phone in the dark and on the desk by day, with every change made.
   */
  @ParameterizedTest
  @CsvSource({"390, dark", "1440, light"})
  @Order(9)
  void nothingStandsInTheWayAndEverythingFits(int width, String theme) {
    browser.size(width, 900);
    browser.script("localStorage.setItem('barmap.theme', arguments[0])", theme);
    for (String page : List.of("/road.html", "/turns.html#ahead", "/turns.html#since")) {
      browser.go(page.replaceFirst("html", "html?b=" + book));
      browser.see(page.startsWith("/road") ? ".form-bar" : ".view li");
      fits(page, width);
    }
    browser.go("/road.html?b=" + book);
    browser.click("[data-edit]");
    browser.see("dialog [name=version]");
    fits("a change that is edited", width);
    browser.size(1440, 900);
  }

  @Test
  @Order(20)
  void wordsAboutAnEarlierChangePutAnotherInItsPlace() {
    browser.go("/road.html?b=" + book);
    JsonNode map = api.get("/api/books/" + book + "/map");
    String number = map.path("numbers").path(0).path("label").asString("");
    say("No. " + number + ": hold 10");
    JsonNode first = changes().path(changes().size() - 1);
    say("No. " + number + ": the hold at 10 is till the whistle");
    browser.see(".change-instead", "till the whistle");
    JsonNode second = changes().path(changes().size() - 1);
    assertThat(second.path("replaces").asString("")).isEqualTo(first.path("id").asString());
    assertThat(browser.complaints()).isEmpty();
  }

  private void say(String words) {
    int before = changes().size();
    browser.type("#change-words", words);
    browser.click("#read-words");
    browser.click("#accept-words");
    browser.waiting(20).until(d -> changes().size() > before);
  }

  private void fits(String page, int width) {
    assertThat(Axe.violations(browser)).as(page).isEmpty();
    assertThat(browser.script("return document.documentElement.scrollWidth <= innerWidth"))
        .as("%s at %s pixels", page, width)
        .isEqualTo(true);
  }

  private int history() {
    return api.get("/api/books/" + book + "/changes/history").path("undo").asInt();
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
