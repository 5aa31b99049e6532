package org.barmap.browser.pit;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.barmap.browser.Browser;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Keys;

/** In the pit nothing sounds, ever, nothing shakes a music stand, and nothing moves. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class SilentStandBrowserTest {

  /**
   * Writes down all by which a page can be heard: sounds made and played, speech, a shaken phone, a
   * message of the system. A promise or an object comes back as from the browser itself.
   */
  private static final String LISTEN =
      """
      window.heard = [];
      const told = (name) => window.heard.push(name);
      for (const name of ["AudioContext", "webkitAudioContext", "OfflineAudioContext", "Audio", "Notification", "SpeechSynthesisUtterance"]) {
        const real = window[name];
        if (real) window[name] = new Proxy(real, { construct: (of, all) => { told(name); return new of(...all); } });
      }
      const wrap = (of, name) => {
        const real = of?.[name];
        if (real) of[name] = function (...all) { told(name); return real.apply(this, all); };
      };
      wrap(HTMLMediaElement.prototype, "play");
      wrap(window.speechSynthesis, "speak");
      wrap(Navigator.prototype, "vibrate");
      wrap(ServiceWorkerRegistration.prototype, "showNotification");
      """;

  /** Presses the pedal through the whole night; how many taps that took. */
  private static final String NIGHT =
      """
      const stand = document.querySelector('.stand');
      let taps = 0;
      for (; stand.dataset.kind !== 'end' && taps < 2000; taps++) {
        dispatchEvent(new KeyboardEvent('keydown', {key: 'PageDown', cancelable: true}));
        document.body.getBoundingClientRect();
        for (const moving of document.getAnimations()) window.heard.push(`something moves: ${moving.transitionProperty ?? moving.animationName}`);
      }
      return stand.dataset.kind === 'end' ? taps : -1;
      """;

  private PitBook pit;

  @BeforeAll
  void open(@TempDir Path data) throws IOException {
    pit = PitBook.in(data, 390, 844);
    pit.browser().beforeEachPage(LISTEN);
  }

  @AfterAll
  void close() {
    pit.close();
  }

  @Test
  void aWholeNightIsSilent() {
    Browser browser = pit.browser();
    browser.go("/stand.html?b=" + pit.book());
    browser.click("#stand-begin");
    browser.see("#stand-on");
    for (CharSequence key : List.of(Keys.PAGE_DOWN, Keys.ENTER, Keys.PAGE_UP, Keys.SPACE)) {
      browser.press(key);
    }
    browser.click(".stand-now");
    browser.click("#stand-dimmer");
    browser.click("#stand-places");
    browser.type("#jump-bar", "no such bar");
    browser.press(Keys.ENTER);
    browser.press(Keys.ESCAPE);
    browser.count("dialog", 0, 10);
    assertThat(((Number) browser.script(NIGHT)).intValue())
        .as("taps of a night with its vamps, turns and watches")
        .isGreaterThan(100);
    String path = "/api/books/" + pit.book() + "/changes";
    pit.api()
        .post(
            path,
            Map.of("number", "7", "kind", "cut", "first", "30", "last", "31"),
            pit.api().revision(path));
    browser.click("#stand-fresh");
    browser.click("#stand-leave");
    browser.see("#stand-begin");
    assertThat((List<?>) browser.script("return window.heard")).isEmpty();
    assertThat(browser.all("audio, video, embed, object")).isEmpty();
  }

  /** What is written down is what sounds: where a click is asked for, it is heard. */
  @Test
  void theClickOfThePracticeRoomIsHeard() {
    Browser browser = pit.browser();
    browser.go("/practice.html?b=" + pit.book());
    browser.click("#click-go");
    browser.waiting(20).until(d -> !((List<?>) browser.script("return window.heard")).isEmpty());
  }
}
