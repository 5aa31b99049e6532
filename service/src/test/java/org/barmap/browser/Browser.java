package org.barmap.browser;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import java.util.Base64;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.logging.Level;
import java.util.stream.Stream;
import org.openqa.selenium.By;
import org.openqa.selenium.ElementClickInterceptedException;
import org.openqa.selenium.JavascriptExecutor;
import org.openqa.selenium.Keys;
import org.openqa.selenium.NoSuchElementException;
import org.openqa.selenium.StaleElementReferenceException;
import org.openqa.selenium.WebDriver;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.WindowType;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.interactions.Actions;
import org.openqa.selenium.logging.LogEntry;
import org.openqa.selenium.logging.LogType;
import org.openqa.selenium.logging.LoggingPreferences;
import org.openqa.selenium.support.ui.FluentWait;
import org.openqa.selenium.support.ui.Select;
import org.openqa.selenium.support.ui.WebDriverWait;

/** One headless Chromium with a fresh profile, looking at one service. */
public final class Browser implements AutoCloseable {

  private final ChromeDriver driver;
  private final String base;
  private final Path profile;

  private Browser(ChromeDriver driver, String base, Path profile) {
    this.driver = driver;
    this.base = base;
    this.profile = profile;
  }

  /**
   * Opens a browser.
   *
   * @param base address of the service, without a slash at its end
   * @throws AssertionError when Chromium or its driver is missing, with what to install
   */
  public static Browser open(String base, int width, int height) {
    Path chromium = program("chromium", "/usr/bin/chromium", "/usr/bin/chromium-browser");
    Path chromedriver =
        program("chromedriver", "/usr/bin/chromedriver", "/usr/lib/chromium/chromedriver");
    try {
      Path profile = Files.createTempDirectory("barmap-browser");
      ChromeOptions options = new ChromeOptions();
      options.setBinary(chromium.toFile());
      options.addArguments(
          "--headless=new",
          "--no-sandbox",
          "--disable-gpu",
          "--disable-quic",
          "--disable-dev-shm-usage",
          "--no-first-run",
          "--disable-background-networking",
          "--disable-component-update",
          "--disable-sync",
          "--autoplay-policy=no-user-gesture-required",
          "--user-data-dir=" + profile);
      LoggingPreferences logs = new LoggingPreferences();
      logs.enable(LogType.BROWSER, Level.SEVERE);
      options.setCapability("goog:loggingPrefs", logs);
      ChromeDriverService service =
          new ChromeDriverService.Builder().usingDriverExecutable(chromedriver.toFile()).build();
      Browser browser = new Browser(new ChromeDriver(service, options), base, profile);
      browser.size(width, height);
      return browser;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Opens a browser that has been at a service before: it remembers the owner's key. */
  public static Browser open(RunningService service, int width, int height) {
    Browser browser = open(service.base(), width, height);
    String[] cookie = new Api(service).cookie(service.entry());
    browser.driver.executeCdpCommand(
        "Network.setCookie",
        Map.of(
            "url",
            service.base() + "/",
            "name",
            cookie[0],
            "value",
            cookie[1],
            "httpOnly",
            true,
            "sameSite",
            "Strict",
            "expires",
            4_000_000_000L));
    return browser;
  }

  private static Path program(String name, String... places) {
    return Arrays.stream(places)
        .map(Path::of)
        .filter(Files::isExecutable)
        .findFirst()
        .orElseThrow(
            () ->
                new AssertionError(
                    name
                        + " is missing: the browser tests need Debian's packages chromium and"
                        + " chromium-driver (apt-get install chromium chromium-driver)"));
  }

  /** Makes the page this large, in CSS pixels, however small a window may be. */
  public void size(int width, int height) {
    driver.executeCdpCommand(
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
        driver.executeCdpCommand(
            "Page.captureScreenshot",
            Map.of("format", "png", "captureBeyondViewport", true, "clip", clip));
    return Base64.getDecoder().decode(String.valueOf(taken.get("data")));
  }

  /** Lets requests to these addresses fail from now on; without any, lets all through again. */
  public void block(String... patterns) {
    driver.executeCdpCommand("Network.enable", Map.of());
    driver.executeCdpCommand("Network.setBlockedURLs", Map.of("urls", List.of(patterns)));
  }

  /** Lets pages be opened as if they had no service worker, or as usual. */
  void pastWorkers(boolean past) {
    driver.executeCdpCommand("Network.enable", Map.of());
    driver.executeCdpCommand("Network.setBypassServiceWorker", Map.of("bypass", past));
  }

  /** Forgets every link that was opened: the next one is the only key. */
  void forgetKeys() {
    driver.manage().deleteAllCookies();
  }

  /** Closes the window and opens another one, as a player does who comes back in the evening. */
  public void anotherWindow() {
    String before = driver.getWindowHandle();
    driver.switchTo().newWindow(WindowType.WINDOW);
    String after = driver.getWindowHandle();
    driver.switchTo().window(before);
    driver.close();
    driver.switchTo().window(after);
  }

  public void go(String path) {
    driver.get(base + path);
  }

  /** Opens an address of another host than the service's own. */
  public void open(String address) {
    driver.get(address);
  }

  /** Returns all that an address answered, where it is no page. */
  String pageSource() {
    return String.valueOf(driver.getPageSource());
  }

  /** Opens a file from the disk. */
  public void open(Path file) {
    driver.get(file.toUri().toString());
  }

  String path() {
    return String.valueOf(script("return location.pathname + location.search"));
  }

  /** Waits until an element is there and shown. */
  public WebElement see(String css) {
    return waiting(30)
        .withMessage(() -> css + " was not shown; the page says: " + mainText())
        .until(
            d ->
                d.findElements(By.cssSelector(css)).stream()
                    .filter(WebElement::isDisplayed)
                    .findFirst()
                    .orElse(null));
  }

  /** Waits until an element shows a text. */
  public WebElement see(String css, String text) {
    return waiting(30)
        .withMessage(() -> css + " never said \"" + text + "\"; the page says: " + mainText())
        .until(
            d ->
                holding(css, text).stream()
                    .filter(e -> e.getText().contains(text))
                    .findFirst()
                    .orElse(null));
  }

  /**
   * Returns the elements that may show a text, asked of the page in one question: to ask each one
   * what it shows takes most of the time of a long list. What is shown may be in capitals, or
   * spaced otherwise.
   */
  private List<WebElement> holding(String css, String text) {
    Object found = script(HOLDING, css, text);
    return ((List<?>) found).stream().map(WebElement.class::cast).toList();
  }

  private static final String HOLDING =
      """
      const bare = (text) => text.replace(/\\s/g, "").toLowerCase();
      const wanted = bare(arguments[1]);
      return [...document.querySelectorAll(arguments[0])].filter((e) => bare(e.textContent).includes(wanted));
      """;

  /** Waits until so many elements are there. */
  public void count(String css, int wanted, int seconds) {
    waiting(seconds)
        .withMessage(
            () ->
                "not "
                    + wanted
                    + " but "
                    + all(css).size()
                    + " of "
                    + css
                    + "; the page says: "
                    + mainText())
        .until(d -> d.findElements(By.cssSelector(css)).size() == wanted);
  }

  public List<WebElement> all(String css) {
    return driver.findElements(By.cssSelector(css));
  }

  /** Returns an attribute of an element, which may be drawn anew meanwhile. */
  public String attribute(String css, String name) {
    return waiting(30).until(d -> String.valueOf(see(css).getDomAttribute(name)));
  }

  /** Clicks as soon as there is something to click; the page may be drawn anew meanwhile. */
  public void click(String css) {
    waiting(30)
        .ignoring(ElementClickInterceptedException.class)
        .withMessage(() -> css + " could not be clicked; the page says: " + mainText())
        .until(
            d -> {
              d.findElements(By.cssSelector(css)).stream()
                  .filter(WebElement::isDisplayed)
                  .findFirst()
                  .orElseThrow(() -> new NoSuchElementException(css))
                  .click();
              return true;
            });
  }

  /** Clicks with the mouse in the middle of an element, which may be drawn anew meanwhile. */
  public void point(String css) {
    waiting(30)
        .withMessage(() -> css + " could not be pointed at; the page says: " + mainText())
        .until(
            d -> {
              actions().moveToElement(see(css)).click().perform();
              return true;
            });
  }

  /** Returns where a point of the page on the desk is in the window, CSS pixels. */
  public List<?> screen(double x, double y) {
    return (List<?>)
        script(
            "const m = document.querySelector('.overlay').getScreenCTM();"
                + "const at = new DOMPoint(arguments[0], arguments[1]).matrixTransform(m);"
                + "return [at.x, at.y];",
            x,
            y);
  }

  /** Clicks at a point of the window, CSS pixels. */
  public void tap(List<?> at) {
    to(at).click().perform();
  }

  /** Clicks twice at a point of the window, CSS pixels. */
  void twice(List<?> at) {
    to(at).doubleClick().perform();
  }

  private Actions to(List<?> at) {
    double x = ((Number) at.get(0)).doubleValue();
    double y = ((Number) at.get(1)).doubleValue();
    return actions().moveToLocation((int) Math.round(x), (int) Math.round(y));
  }

  /** Drags with the mouse from one point of the window to another, CSS pixels each. */
  public void drag(List<?> from, List<?> to) {
    int[] at = new int[4];
    for (int i = 0; i < 4; i++) {
      at[i] = (int) Math.round(((Number) (i < 2 ? from.get(i) : to.get(i - 2))).doubleValue());
    }
    actions()
        .moveToLocation(at[0], at[1])
        .clickAndHold()
        .moveToLocation((at[0] + at[2]) / 2, (at[1] + at[3]) / 2)
        .moveToLocation(at[2], at[3])
        .release()
        .perform();
  }

  /** Chooses one of a list by its value, as soon as the list has it. */
  public void choose(String css, String value) {
    waiting(30)
        .ignoring(NoSuchElementException.class)
        .withMessage(() -> css + " has no " + value + "; the page says: " + mainText())
        .until(
            d -> {
              new Select(see(css)).selectByValue(value);
              return true;
            });
  }

  /** Types into an emptied field, which may be drawn anew meanwhile. */
  public void type(String css, String text) {
    waiting(30)
        .withMessage(() -> css + " could not be typed into; the page says: " + mainText())
        .until(
            d -> {
              WebElement field = see(css);
              field.clear();
              field.sendKeys(text);
              return true;
            });
  }

  /** Empties a field, which may be drawn anew meanwhile. */
  void empty(String css) {
    waiting(30)
        .withMessage(() -> css + " could not be emptied; the page says: " + mainText())
        .until(
            d -> {
              see(css).clear();
              return true;
            });
  }

  /** Gives files to a file field, shown or not. */
  public void files(String css, List<Path> files) {
    WebElement field =
        waiting(20)
            .until(d -> d.findElements(By.cssSelector(css)).stream().findFirst().orElse(null));
    field.sendKeys(
        String.join("\n", files.stream().map(p -> p.toAbsolutePath().toString()).toList()));
  }

  Actions actions() {
    return new Actions(driver);
  }

  /** Presses keys on the page, not in a field. */
  public void press(CharSequence... keys) {
    actions().sendKeys(keys).perform();
  }

  /** Takes the last step back, as the keys do. */
  public void undo() {
    actions().keyDown(Keys.CONTROL).sendKeys("z").keyUp(Keys.CONTROL).perform();
  }

  /** Makes the step taken back again, as the keys do. */
  public void redo() {
    actions()
        .keyDown(Keys.CONTROL)
        .keyDown(Keys.SHIFT)
        .sendKeys("z")
        .keyUp(Keys.SHIFT)
        .keyUp(Keys.CONTROL)
        .perform();
  }

  public Object script(String code, Object... arguments) {
    Object result = ((JavascriptExecutor) driver).executeScript(code, arguments);
    return result == null ? "" : result;
  }

  public Object asyncScript(String code) {
    Object result = ((JavascriptExecutor) driver).executeAsyncScript(code);
    return result == null ? "" : result;
  }

  /**
   * What the page's own code complained of; answers the service refuses on purpose are left out.
   */
  public List<String> complaints() {
    return driver.manage().logs().get(LogType.BROWSER).getAll().stream()
        .map(LogEntry::getMessage)
        .filter(m -> !m.contains("412 (Precondition Failed)"))
        .toList();
  }

  /** Waits, and looks again when the page was drawn anew under its hands. */
  public FluentWait<WebDriver> waiting(int seconds) {
    return new WebDriverWait(driver, Duration.ofSeconds(seconds), Duration.ofMillis(50))
        .ignoring(StaleElementReferenceException.class);
  }

  String mainText() {
    return driver.findElements(By.tagName("body")).stream()
        .findFirst()
        .map(WebElement::getText)
        .orElse("");
  }

  @Override
  public void close() {
    driver.quit();
    try (Stream<Path> files = Files.walk(profile)) {
      files.sorted(Comparator.reverseOrder()).forEach(p -> p.toFile().delete());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
