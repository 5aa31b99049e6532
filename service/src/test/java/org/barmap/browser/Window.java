package org.barmap.browser;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import org.barmap.browser.drive.Chromium;
import org.openqa.selenium.By;
import org.openqa.selenium.JavascriptExecutor;
import org.openqa.selenium.StaleElementReferenceException;
import org.openqa.selenium.WebDriver;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.WindowType;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.logging.LogEntry;
import org.openqa.selenium.logging.LogType;
import org.openqa.selenium.support.ui.FluentWait;
import org.openqa.selenium.support.ui.Sleeper;
import org.openqa.selenium.support.ui.WebDriverWait;

/** A window of a Chromium that looks at one service: its addresses, its size, its scripts. */
abstract class Window implements AutoCloseable {

  private final Chromium chromium;
  private final String base;

  /**
   * Looks at a service.
   *
   * @param base its address, without a slash at its end
   */
  Window(Chromium chromium, String base) {
    this.chromium = chromium;
    this.base = base;
  }

  /** Returns what tells the browser what to do. */
  final ChromeDriver driver() {
    return chromium.driver();
  }

  /** Makes the page this large, in CSS pixels, however small a window may be. */
  public void size(int width, int height) {
    driver()
        .executeCdpCommand(
            "Emulation.setDeviceMetricsOverride",
            Map.of("width", width, "height", height, "deviceScaleFactor", 1, "mobile", false));
  }

  /** Returns the page as a PNG, from its top, however much of it a window shows. */
  public byte[] picture(int width) {
    Number height =
        (Number)
            script(
                "return Math.min(Math.max(innerHeight, document.documentElement.scrollHeight), 2.2 * innerHeight)");
    Map<String, Object> clip =
        Map.of("x", 0, "y", 0, "width", width, "height", height, "scale", width > 800 ? 0.6 : 1);
    Map<String, Object> taken =
        driver()
            .executeCdpCommand(
                "Page.captureScreenshot",
                Map.of("format", "png", "captureBeyondViewport", true, "clip", clip));
    return Base64.getDecoder().decode(String.valueOf(taken.get("data")));
  }

  /** Lets requests to these addresses fail from now on; without any, lets all through again. */
  public void block(String... patterns) {
    driver().executeCdpCommand("Network.enable", Map.of());
    driver().executeCdpCommand("Network.setBlockedURLs", Map.of("urls", List.of(patterns)));
  }

  /** Lets pages be opened as if they had no service worker, or as usual. */
  public void pastWorkers(boolean past) {
    driver().executeCdpCommand("Network.enable", Map.of());
    driver().executeCdpCommand("Network.setBypassServiceWorker", Map.of("bypass", past));
  }

  /** Runs lines of JavaScript in every page from now on, before the page's own. */
  public void beforeEachPage(String code) {
    driver().executeCdpCommand("Page.addScriptToEvaluateOnNewDocument", Map.of("source", code));
  }

  /** Forgets every link that was opened: the next one is the only key. */
  public void forgetKeys() {
    driver().manage().deleteAllCookies();
  }

  /** Closes the window and opens another one, as a player does who comes back in the evening. */
  public void anotherWindow() {
    String before = driver().getWindowHandle();
    driver().switchTo().newWindow(WindowType.WINDOW);
    String after = driver().getWindowHandle();
    driver().switchTo().window(before);
    driver().close();
    driver().switchTo().window(after);
  }

  public void go(String path) {
    driver().get(base + path);
  }

  /** Opens an address of another host than the service's own. */
  public void open(String address) {
    driver().get(address);
  }

  /** Returns all that an address answered, where it is no page. */
  public String pageSource() {
    return String.valueOf(driver().getPageSource());
  }

  /** Opens a file from the disk. */
  public void open(Path file) {
    driver().get(file.toUri().toString());
  }

  public String path() {
    return String.valueOf(script("return location.pathname + location.search"));
  }

  public Object script(String code, Object... arguments) {
    Object result = ((JavascriptExecutor) driver()).executeScript(code, arguments);
    return result == null ? "" : result;
  }

  /** Runs the body of an async function that calls {@code done} with what it found out. */
  public String answer(String code) {
    return String.valueOf(
        asyncScript(
            "const done = arguments[arguments.length - 1]; (async () => {" + code + "})();"));
  }

  public Object asyncScript(String code) {
    Object result = ((JavascriptExecutor) driver()).executeAsyncScript(code);
    return result == null ? "" : result;
  }

  /**
   * What the page's own code complained of; answers the service refuses on purpose are left out.
   */
  public List<String> complaints() {
    return driver().manage().logs().get(LogType.BROWSER).getAll().stream()
        .map(LogEntry::getMessage)
        .filter(m -> !m.contains("412 (Precondition Failed)"))
        .toList();
  }

  /** Waits, and looks again when the page was drawn anew under its hands. */
  public FluentWait<WebDriver> waiting(int seconds) {
    return new WebDriverWait(
            driver(),
            Duration.ofSeconds(seconds),
            Duration.ZERO,
            Clock.systemUTC(),
            new LongerEachTime())
        .ignoring(StaleElementReferenceException.class);
  }

  /**
   * Looks again soon, and later on less often: most is shown at once, and whoever asks a page all
   * the time takes the processor from what it waits for.
   */
  private static final class LongerEachTime implements Sleeper {
    private static final Duration MOST = Duration.ofMillis(250);
    private Duration next = Duration.ofMillis(25);

    @Override
    public void sleep(Duration ignored) throws InterruptedException {
      Thread.sleep(next.toMillis());
      next = next.compareTo(MOST) < 0 ? next.multipliedBy(3).dividedBy(2) : MOST;
    }
  }

  public String mainText() {
    return driver().findElements(By.tagName("body")).stream()
        .findFirst()
        .map(WebElement::getText)
        .orElse("");
  }

  @Override
  public void close() {
    chromium.close();
  }
}
