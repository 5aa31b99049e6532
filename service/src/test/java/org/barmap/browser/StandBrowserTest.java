package org.barmap.browser;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.StreamSupport;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.Plan;
import org.barmap.plan.PlanJson;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.reference.books.Knobs;
import org.barmap.plan.reference.books.RandomBook;
import org.barmap.plan.reference.books.RandomBooks;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Keys;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** The stand: a night walked by taps and by the keys of a foot pedal. */
class StandBrowserTest extends VisitingTest {

  private static final int BOOKS = 120;

  private static final String FOCUS =
      "return document.activeElement.id || document.activeElement.tagName";

  private String book;

  @BeforeAll
  void open(@TempDir Path data) throws IOException {
    book = ReadyBook.into(data);
    visit(data, 820, 1180);
    DemoBook.changesInto(api, book);
  }

  private void setUp() {
    browser.go("/stand.html?b=" + book);
    browser.click("#stand-begin");
    browser.see("#stand-on");
  }

  private String big() {
    return browser.see(".stand-big").getText();
  }

  private String about() {
    return browser.see(".stand-about").getText();
  }

  /** No. 1 begins with bars 1 to 4 and a rest of 6, bars 5 to 10, as drawn in the demo book. */
  @Test
  void aRestIsCountedByThePedalAndGoneBackThroughBarByBar() {
    setUp();
    go("1", "5");
    assertThat(big()).isEqualTo("1");
    assertThat(about()).contains("of 6").contains("bar 5");
    for (CharSequence key :
        List.of(Keys.PAGE_DOWN, Keys.ARROW_RIGHT, Keys.ARROW_DOWN, Keys.SPACE, Keys.ENTER)) {
      browser.press(key);
    }
    assertThat(big()).isEqualTo("6");
    assertThat(about()).contains("bar 10");
    for (CharSequence key : List.of(Keys.PAGE_UP, Keys.ARROW_LEFT, Keys.ARROW_UP)) {
      browser.press(key);
    }
    assertThat(big()).isEqualTo("3");
    browser.click(".stand-now");
    assertThat(big()).isEqualTo("4");
    browser.click("#stand-back");
    assertThat(big()).isEqualTo("3");
    browser.press(Keys.ENTER);
    assertThat(big()).as("the pedal goes on, whatever was pressed before").isEqualTo("4");
    assertThat(browser.complaints()).isEmpty();
  }

  /** The show vamps 10-11 of No. 2 till the cart stops: changes.json of the demo show. */
  @Test
  void aVampIsHeldUntilTheTapWithItsCue() {
    setUp();
    go("2", "10");
    assertThat(browser.see(".stand").getDomAttribute("data-kind")).isEqualTo("vamp");
    assertThat(big()).isEqualTo("10–11");
    assertThat(about()).contains("till the cart stops").contains("end of a pass");
    assertThat(browser.see(".stand-now").getText().split("the cart stops"))
        .as("it is said once: a phone has no room for more")
        .hasSize(2);
    browser.press(Keys.PAGE_DOWN);
    assertThat(browser.see(".stand").getDomAttribute("data-kind")).isEqualTo("rest");
    assertThat(about()).contains("of 8").contains("bar 12");
  }

  /** Cut 92 to 101 of No. 1, watch at 112, No. 3 tacet, electric bass at 73 of No. 2. */
  @Test
  void cutsWatchesInstrumentsTurnsAndSilentNumbersAreOnTheWay() {
    setUp();
    go("1", "");
    Map<?, ?> walked = (Map<?, ?>) browser.script(NIGHT);
    String all = String.valueOf(walked.get("seen"));
    for (String told :
        List.of(
            "on to 102",
            "watch the director",
            "The Wading Song, tacet",
            "electric bass",
            "page 1 to 2, after 29 bars",
            "page 3 to 4, after",
            "no time",
            "attacca",
            "segue as one")) {
      assertThat(all.contains(told)).as(told).isTrue();
    }
    System.out.println("the stand: the demo show is walked in " + walked.get("taps") + " taps");
    assertThat(browser.complaints()).isEmpty();
  }

  @Test
  void thePlaceIsKeptWhenThePageIsLeftAndFocusIsNeverLost() {
    setUp();
    go("5", "9");
    String kept = big();
    browser.go("/stand.html?b=" + book);
    browser.click("#stand-begin");
    assertThat(big()).isEqualTo(kept);
    focused("stand-on");
    browser.click("#stand-dimmer");
    focused("stand-on");
    browser.click("#stand-places");
    browser.see("dialog #jump-number");
    browser.press(Keys.ESCAPE);
    focused("stand-on");
    browser.click("#stand-leave");
    focused("stand-begin");
    assertThat(browser.see(".stand-front").getText()).contains("ask whoever runs the pit");
    assertThat(browser.see(".stand-front a[href*='run.pdf']").isDisplayed()).isTrue();
  }

  @Test
  void itSaysWhetherTheScreenIsKeptAwake() {
    setUp();
    browser.see(".stand-awake", "creen");
    browser.script(
        "Object.defineProperty(Navigator.prototype, 'wakeLock', {value: {request: () => Promise.reject(new Error('no'))}})");
    browser.click("#stand-leave");
    browser.click("#stand-begin");
    browser.see(".stand-awake", "can't be kept awake");
  }

  /** Also at its dimmest every letter stands out from the black, and all of it is on one screen. */
  @Test
  void nothingStandsInTheWayWhereItIsDarkest() {
    for (int[] size : new int[][] {{390, 844}, {820, 1180}, {844, 390}}) {
      browser.size(size[0], size[1]);
      setUp();
      go("1", "5");
      for (int i = 0; i < 4; i++) {
        browser.click("#stand-dimmer");
      }
      assertThat(browser.script("return document.documentElement.dataset.dim")).isEqualTo("1");
      assertThat(Axe.violations(browser)).as(List.of(size[0], size[1]).toString()).isEmpty();
      browser.click("#stand-places");
      browser.see("dialog #jump-number");
      assertThat(Axe.violations(browser)).as("where to go to").isEmpty();
      assertThat(((Number) browser.script(BRIGHTEST)).doubleValue())
          .as("nothing that is asked is brighter than the rest: light from 0 to 255")
          .isLessThan(150);
      browser.press(Keys.ESCAPE);
      browser.count("dialog", 0, 10);
      assertThat(
              browser.script(
                  "const r = document.documentElement;"
                      + "return r.scrollWidth <= innerWidth && r.scrollHeight <= innerHeight"))
          .as("all of it on a screen of %s x %s", size[0], size[1])
          .isEqualTo(true);
    }
    browser.size(820, 1180);
  }

  /** The brightest letter or ground of what is asked. */
  private static final String BRIGHTEST =
      """
      const light = (c) => { const [r, g, b] = c.match(/[\\d.]+/g).map(Number); return 0.3 * r + 0.6 * g + 0.1 * b; };
      return Math.max(...[document.querySelector("dialog"), ...document.querySelectorAll("dialog *")].filter((e) => e.checkVisibility())
        .flatMap((e) => [getComputedStyle(e).color, getComputedStyle(e).backgroundColor]).filter((c) => !/, 0\\)$/.test(c)).map(light));
      """;

  /** A plan that changes meanwhile waits until the player takes it; the place stays. */
  @Test
  void aNewPlanWaitsUntilItIsTaken() {
    setUp();
    go("7", "20");
    String now = browser.see(".stand-now").getText();
    String path = "/api/books/" + book + "/changes";
    api.post(
        path,
        Map.of("number", "7", "kind", "cut", "first", "30", "last", "31"),
        api.revision(path));
    browser.see("#stand-fresh");
    assertThat(browser.see(".stand-now").getText()).isEqualTo(now);
    browser.click("#stand-fresh");
    browser.count("#stand-fresh:not([hidden])", 0, 20);
    assertThat(big()).isEqualTo(now.lines().skip(1).findFirst().orElse(""));
    api.post("/api/books/" + book + "/changes/undo", Map.of(), api.revision(path));
  }

  /**
   * A vamp over a page turn: there, and back again, each time round; said where one plans and where
   * one plays.
   */
  @Test
  void aTurnInsideAVampIsMadeEachTimeRound() {
    String path = "/api/books/" + book + "/changes";
    api.post(
        path,
        Map.of("number", "1", "kind", "vamp", "first", "60", "last", "90", "leave", "end-of-pass"),
        api.revision(path));
    browser.go("/turns.html?b=" + book);
    browser.see(".turn[data-turn^='1>2'] .turn-again", "Turn each time round the vamp 60-90.");
    browser.see(".turn[data-turn^='2>1'] .turn-again", "Turn back each time round the vamp 60-90.");
    browser.go("/road.html?b=" + book);
    browser.see(".strip-turn[data-turn^='2>1']", "turn back each time round the vamp 60-90");
    setUp();
    go("1", "90");
    browser.see(".stand-next", "page 1 to 2, turn each time round the vamp 60-90, after 13 bars ·");
    browser.see(
        ".stand-next", "page 2 to 1, turn back each time round the vamp 60-90, after 31 bars ·");
    browser.see(".stand-notes", "play 17 bars rest, then bar 90 of page 2 from memory");
    assertThat(Axe.violations(browser)).isEmpty();
    assertThat(browser.script("return document.documentElement.scrollHeight <= innerHeight"))
        .isEqualTo(true);
    api.post(path + "/undo", Map.of(), api.revision(path));
  }

  private void focused(String id) {
    browser
        .waiting(10)
        .withMessage(() -> "the focus is on " + browser.script(FOCUS) + ", not on " + id)
        .until(d -> browser.script(FOCUS).equals(id));
  }

  private void go(String number, String bar) {
    browser.click("#stand-places");
    String night = String.valueOf(nightOf(number));
    if (night.equals(browser.see("#jump-number").getDomProperty("value"))) {
      browser.click("dialog .stand-mark");
    } else {
      browser.choose("#jump-number", night);
    }
    browser.count("dialog", 0, 10);
    if (!bar.isEmpty()) {
      browser.click("#stand-places");
      browser.type("#jump-bar", bar);
      browser.press(Keys.ENTER);
      browser.count("dialog", 0, 10);
    }
  }

  private static int nightOf(String number) {
    return Integer.parseInt(number) - 1;
  }

  /**
   * What holds for every plan: each single bar of the order of play is passed once and in that
   * order, a step back undoes a step on, every turn and every instrument is told, every bar can be
   * gone to. Which bars a number has is computed here from the plan's own order.
   */
  @Test
  void everyBarOfEveryPlanIsPassedOnceAndInOrder() {
    List<String> cases = new ArrayList<>();
    List<List<String>> expected = new ArrayList<>();
    for (int seed = 0; seed < BOOKS; seed++) {
      RandomBook random = RandomBooks.book(7_000 + seed, Knobs.wild());
      BarMap map = random.map();
      Plan plan = Planner.plan(map, changes(random), PlanSettings.USUAL);
      JsonNode told = PlanJson.tree(plan);
      cases.add("{\"map\":" + BarMapJson.write(map) + ",\"plan\":" + told + "}");
      expected.add(played(map, told));
    }
    browser.go("/stand.html?b=" + book);
    browser.see("#stand-begin");
    browser.script("window.books = JSON.parse('[' + arguments[0] + ']')", String.join(",", cases));
    List<?> walked = (List<?>) browser.asyncScript(WALK);
    assertThat(walked).hasSize(BOOKS);
    int bars = 0;
    for (int i = 0; i < BOOKS; i++) {
      Map<?, ?> one = (Map<?, ?>) walked.get(i);
      assertThat(one.get("bars")).as("book %s", 7_000 + i).isEqualTo(expected.get(i));
      assertThat(one.get("wrong")).as("book %s", 7_000 + i).isEqualTo(List.of());
      bars += expected.get(i).size();
    }
    assertThat(bars).isGreaterThan(BOOKS * 8);
  }

  private static ShowChanges changes(RandomBook random) {
    return new ShowChanges(
        random.json().stream().map(n -> ChangesJson.readOne((ObjectNode) n)).toList());
  }

  private static List<String> played(BarMap map, JsonNode plan) {
    Map<String, Integer> counts =
        map.bars().stream().collect(Collectors.toMap(b -> b.id(), b -> b.count()));
    Map<String, List<JsonNode>> byLabel =
        StreamSupport.stream(plan.path("numbers").spliterator(), false)
            .collect(Collectors.groupingBy(n -> n.path("label").asString()));
    List<String> bars = new ArrayList<>();
    for (JsonNode line : plan.path("runSheet")) {
      if (!line.path("state").asString().equals("played")) {
        continue;
      }
      List<JsonNode> same = byLabel.getOrDefault(line.path("number").asString(), List.of());
      JsonNode number = same.size() > 1 ? same.remove(0) : same.get(0);
      for (JsonNode entry : number.path("order")) {
        String id = entry.path("bar").asString();
        int many =
            entry.has("bars")
                ? entry.path("bars").asInt()
                : entry.has("inserted") ? 1 : counts.getOrDefault(id, 0);
        for (int k = 0; k < many; k++) {
          bars.add(id);
        }
      }
    }
    return bars;
  }

  /** Presses the pedal through the whole night and keeps what stood there. */
  private static final String NIGHT =
      """
      const stand = document.querySelector('.stand');
      const seen = [];
      let taps = 0;
      for (; stand.dataset.kind !== 'end' && taps < 2000; taps++) {
        seen.push(stand.innerText);
        dispatchEvent(new KeyboardEvent('keydown', {key: 'PageDown', cancelable: true}));
      }
      return {seen: seen.join('\\n'), taps};
      """;

  private static final String WALK =
      """
      const done = arguments[arguments.length - 1];
      Promise.all([import('/js/stand/stops.js'), import('/js/stand/walk.js')]).then(([s, w]) => {
        done(window.books.map(({map, plan}) => {
          const stops = s.stopsOf(plan, map);
          const wrong = [];
          const passed = [];
          let place = w.START;
          for (let taps = 0; taps < 20000 && stops[place.stop].kind !== 'end'; taps++) {
            const stop = stops[place.stop];
            passed.push(...(stop.kind === 'rest' ? [stop.entries[place.bar]] : stop.entries));
            const next = w.on(stops, place);
            const back = w.back(stops, next);
            if (back.stop !== place.stop || back.bar !== place.bar) wrong.push('back from ' + JSON.stringify(next));
            const same = w.sameIn(stops, place, stops);
            if (stop.entries[place.bar] !== stops[same.stop].entries[same.bar]) wrong.push('not kept ' + JSON.stringify(place));
            for (const name of new Set(stop.bars)) {
              const to = w.barAt(stops, stop.night, name, w.START);
              if (!to || !stops[to.stop].bars.includes(name)) wrong.push('no way to ' + name);
            }
            place = next;
          }
          const nights = new Set(stops.filter(x => x.entries.length).map(x => x.label));
          const turns = plan.turns.filter(t => nights.has(t.number)).length;
          const placed = stops.flatMap(x => x.turns).length;
          if (turns !== placed) wrong.push(placed + ' of ' + turns + ' turns');
          const changes = plan.instruments.filter(c => nights.has(c.number)).length;
          const told = stops.flatMap(x => x.changes).length;
          if (changes !== told) wrong.push(told + ' of ' + changes + ' instruments: ' + JSON.stringify(plan.instruments) + plan.numbers.map(n => n.label + ': ' + n.order.map(e => e.bar).join()));
          return {bars: passed, wrong};
        }));
      }).catch(e => done([String(e.stack)]));
      """;
}
