package org.barmap.browser;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.WebElement;
import tools.jackson.databind.JsonNode;

/** A show learned from a recording: a made-up click track, each place set by its own key. */
class RecordingBrowserTest extends VisitingTest {

  /** The first: nothing before it can lead into it with a tempo. */
  private static final String NUMBER = "1";

  private static final double QUARTER = 60.0 / 120;
  private static final double BEGINS = 1;

  private Path track;
  private String book;

  @BeforeAll
  void open(@TempDir Path data, @TempDir Path other) throws IOException {
    book = ReadyBook.into(data, NUMBER);
    track = other.resolve("track.wav");
    ClickTrack.write(track, 240, 120);
    visit(data, 1280, 900);
  }

  /** Computed: at 120 quarters a minute every quarter between two places takes half a second. */
  @Test
  void placesGiveTempiTheTurnsGetSecondsAndTheLineFollows() {
    assertThat(turn().path("gap").has("seconds")).as("no tempo is known before").isFalse();
    for (String list : List.of("turns", "rests", "night")) {
      browser.go("/turns.html?b=" + book + "#" + list);
      browser.click(".view .tempo-link"); // what hangs on it leads to the field that says it
      browser
          .waiting(20)
          .until(d -> browser.script("return document.activeElement.id").equals("tempo"));
    }
    browser.go("/practice.html?b=" + book);
    browser.choose("#recording-number", NUMBER);
    browser.files("#recording-file", List.of(track));
    browser
        .waiting(20)
        .until(d -> browser.script("return " + AUDIO + ".readyState >= 3").equals(true));
    List<AskedPlace> places = places();
    assertThat(places).hasSizeGreaterThan(6);
    for (AskedPlace place : places) {
      browser.see(".now-about", "bar " + place.bar);
      seek(BEGINS + place.quarters * QUARTER);
      browser.click(".place-next");
    }
    browser.see(".now-about", "Every place is set");
    for (WebElement row : browser.all(".taps tbody tr").subList(0, places.size() - 1)) {
      double tempo = Double.parseDouble(row.getText().replaceAll("(?s).*?(\\d+) a minute.*", "$1"));
      assertThat(tempo).as(row.getText()).isCloseTo(120, within(6.0));
    }

    AskedPlace second = places.get(1);
    browser.script(AUDIO + ".play()");
    seek(BEGINS + (second.quarters - 1) * QUARTER);
    browser.see("[aria-label=Recording] .line[data-bar='" + second.bar + "']");
    browser.see("[aria-label=Recording] .line[data-bar='" + (second.bar + 1) + "']");
    assertThat(browser.see("[aria-label=Recording] .line-now").getRect().width).isGreaterThan(20);
    browser.script(AUDIO + ".pause()");

    browser.click("#use-tempi");
    browser.waiting(30).until(d -> turn().path("gap").has("seconds"));
    JsonNode gap = turn().path("gap");
    double beats = gap.path("beats").asDouble();
    assertThat(gap.path("seconds").asDouble()).isCloseTo(beats * QUARTER, within(beats * 0.03));
    assertThat(browser.complaints()).isEmpty();
  }

  /**
   * The line goes along with the click: the cell under the bar that is clicked is filled, and then
   * the next.
   */
  @Test
  void theLineFollowsTheClick() {
    browser.go("/practice.html?b=" + book);
    browser.choose("#click-number", "2"); // a mark in it stands under a repeat
    assertThat(browser.all("#click-from option"))
        .extracting(o -> o.getDomProperty("text"))
        .contains("D (bar 45)", "D (bar 45), 2nd time")
        .doesNotHaveDuplicates();
    browser.choose("#click-number", NUMBER);
    browser.click("#click-go");
    browser.see("[aria-label=Click] .line[data-bar='1']");
    browser.see("[aria-label=Click] .line[data-bar='2']");
    assertThat(browser.see("[aria-label=Click] .line-now").getRect().width).isGreaterThan(20);
    browser.click("#click-go");
    assertThat(browser.complaints()).isEmpty();
  }

  /**
   * A recording is tied to bars by the places' own buttons, pressed in any order, and no key does
   * it; what is played is shown on a ruler under the line: nothing lies over the music or moves on
   * it.
   */
  @Test
  void noKeyTiesARecordingAndNothingMovesOverTheMusic() {
    browser.go("/practice.html?b=" + book);
    browser.choose("#recording-number", NUMBER);
    browser.files("#recording-file", List.of(track));
    browser.see(".places button:not([disabled])");
    browser.script("localStorage.removeItem('barmap.taps." + book + "." + NUMBER + "')");
    browser.script(AUDIO + ".play()");
    browser
        .waiting(20)
        .until(d -> browser.script("return " + AUDIO + ".currentTime > 0").equals(true));
    for (String key : "abcdefghijklmnopqrstuvwxyz0123456789 ".split("")) {
      browser.script(
          "for (const type of ['keydown', 'keypress', 'keyup'])"
              + " document.body.dispatchEvent(new KeyboardEvent(type, {key: arguments[0], bubbles: true}))",
          key);
    }
    assertThat(
            browser.script(
                "return localStorage.getItem('barmap.taps." + book + "." + NUMBER + "')"))
        .as("places that a key has set")
        .isEqualTo("");
    browser.script(AUDIO + ".pause()");
    browser.click("#click-go");
    browser.see("[aria-label=Click] .line-now");
    browser.script("document.documentElement.dataset.theme = 'dark'");
    assertThat((List<?>) browser.script(OVER_THE_MUSIC)).isEmpty();
    assertThat(
            browser
                .script("return getComputedStyle(document.querySelector('.line img')).filter")
                .toString())
        .as("no white paper in the dark")
        .contains("invert");
    assertThat(Axe.violations(browser)).isEmpty();
    browser.click("#click-go");
    browser.script("document.documentElement.dataset.theme = 'light'");
    browser.go("/turns.html?b=" + book);
    browser.see(".turn .crop");
    browser.script("document.documentElement.dataset.theme = 'dark'");
    assertThat(
            browser
                .script("return getComputedStyle(document.querySelector('.crop')).filter")
                .toString())
        .contains("invert");
  }

  /** What lies over the picture of the line, or stands in it besides the picture. */
  private static final String OVER_THE_MUSIC =
      """
      const music = document.querySelector("[aria-label=Click] .line-music");
      const box = music.getBoundingClientRect();
      const found = [...music.children].filter((e) => e.tagName !== "IMG").map((e) => e.outerHTML);
      for (let x = box.left + 2; x < Math.min(box.right, innerWidth); x += 10) {
        const top = document.elementFromPoint(x, box.top + box.height / 2);
        if (top && !music.contains(top)) found.push(top.outerHTML.slice(0, 80));
      }
      return found;
      """;

  private static final String AUDIO = "document.querySelector('audio')";

  private void seek(double seconds) {
    browser.script(AUDIO + ".currentTime = arguments[0]", seconds);
  }

  /** A place to set, with the quarters played before it. */
  private record AskedPlace(int bar, double quarters) {}

  private List<AskedPlace> places() {
    JsonNode map = api.get("/api/books/" + book + "/map");
    Map<String, JsonNode> bars = new HashMap<>();
    map.path("bars").forEach(b -> bars.put(b.path("id").asString(), b));
    List<AskedPlace> places = new ArrayList<>();
    double quarters = 0;
    int last = 0;
    double before = 0;
    for (JsonNode entry : planned().path("order")) {
      JsonNode bar = Objects.requireNonNull(bars.get(entry.path("bar").asString()));
      int number = bar.path("number").asInt();
      int count = bar.path("count").asInt();
      if (places.isEmpty() || bar.has("rehearsal")) {
        places.add(new AskedPlace(number, quarters));
      }
      JsonNode meter = bar.path("meter");
      double one = 4.0 * meter.path("beats").asInt() / meter.path("unit").asInt();
      last = number + count - 1;
      before = quarters + one * (count - 1);
      quarters += one * count;
    }
    places.add(new AskedPlace(last, before));
    return places;
  }

  private JsonNode planned() {
    for (JsonNode number : api.get("/api/books/" + book + "/plan").path("numbers")) {
      if (number.path("label").asString().equals(NUMBER)) {
        return number;
      }
    }
    throw new AssertionError("no No. " + NUMBER);
  }

  private JsonNode turn() {
    for (JsonNode turn : api.get("/api/books/" + book + "/plan").path("turns")) {
      if (turn.path("number").asString().equals(NUMBER)) {
        return turn;
      }
    }
    throw new AssertionError("no turn in No. " + NUMBER);
  }

  /** A recording made up for a test: short tones at even distances, as a WAV file. */
  private static final class ClickTrack {

    private static final int RATE = 8000;

    private ClickTrack() {}

    /**
     * Writes a click track, PCM, 16 bits, one channel.
     *
     * @param seconds its length
     * @param perMinute clicks a minute
     */
    static void write(Path file, double seconds, double perMinute) {
      int samples = (int) (seconds * RATE);
      ByteBuffer wav = ByteBuffer.allocate(44 + 2 * samples).order(ByteOrder.LITTLE_ENDIAN);
      wav.put("RIFF".getBytes(StandardCharsets.US_ASCII)).putInt(36 + 2 * samples);
      wav.put("WAVEfmt ".getBytes(StandardCharsets.US_ASCII)).putInt(16);
      wav.putShort((short) 1).putShort((short) 1).putInt(RATE).putInt(2 * RATE);
      wav.putShort((short) 2).putShort((short) 16);
      wav.put("data".getBytes(StandardCharsets.US_ASCII)).putInt(2 * samples);
      double between = 60 / perMinute;
      for (int i = 0; i < samples; i++) {
        double at = (double) i / RATE;
        double since = at % between;
        double tone = since < 0.04 ? Math.sin(2 * Math.PI * 880 * at) * (1 - since / 0.04) : 0;
        wav.putShort((short) (tone * 6000));
      }
      try {
        Files.write(file, wav.array());
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  }
}
