package org.barmap.browser;

import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.Comparator;
import java.util.Deque;
import java.util.HashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.logging.Level;
import java.util.stream.Stream;
import org.openqa.selenium.WebDriverException;
import org.openqa.selenium.WindowType;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.logging.LogType;
import org.openqa.selenium.logging.LoggingPreferences;

/**
 * One headless Chromium that runs. To start one takes as long as many a test does, so one that is
 * given back, with nothing left in it of what was visited, is lent again in the same process.
 */
final class Chromium implements AutoCloseable {

  private static final Deque<Chromium> IDLE = new ArrayDeque<>();

  static {
    Runtime.getRuntime().addShutdownHook(new Thread(Chromium::quitAll, "barmap-browsers-end"));
  }

  private final ChromeDriver driver;
  private final Path profile;
  private final Set<String> origins = new HashSet<>();

  private Chromium(ChromeDriver driver, Path profile) {
    this.driver = driver;
    this.profile = profile;
  }

  /**
   * Lends one that knows nothing of any service.
   *
   * @throws AssertionError when Chromium or its driver is missing, with what to install
   */
  static Chromium lent() {
    Optional<Chromium> idle;
    synchronized (IDLE) {
      idle = Optional.ofNullable(IDLE.poll());
    }
    return idle.orElseGet(Chromium::start);
  }

  private static Chromium start() {
    Path chromium = program("chromium", "/usr/bin/chromium-browser");
    Path chromedriver = program("chromedriver", "/usr/lib/chromium/chromedriver");
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
      return new Chromium(new ChromeDriver(service, options), profile);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Finds a program where a command is found, as {@code ./check} does, or in other places. */
  private static Path program(String name, String... places) {
    String path = System.getenv().getOrDefault("PATH", "");
    Stream<Path> commands =
        Arrays.stream(path.split(File.pathSeparator)).map(folder -> Path.of(folder, name));
    return Stream.concat(commands, Arrays.stream(places).map(Path::of))
        .filter(Files::isExecutable)
        .findFirst()
        .orElseThrow(
            () ->
                new AssertionError(
                    name
                        + " is missing: the browser tests need Debian's packages chromium and"
                        + " chromium-driver (apt-get install chromium chromium-driver)"));
  }

  /** Returns what it is told by. */
  ChromeDriver driver() {
    return driver;
  }

  /** Remembers whose cookies, stores and workers are to go when it is given back. */
  void visits(String address) {
    URI at = URI.create(address);
    origins.add(at.getScheme() + "://" + at.getAuthority());
  }

  /** Gives it back; one that can't be cleared is ended. */
  @Override
  public void close() {
    try {
      clear();
    } catch (WebDriverException e) {
      quit();
      return;
    }
    synchronized (IDLE) {
      IDLE.push(this);
    }
  }

  /** What was said to a window, its size for one, goes with the window. */
  private void clear() {
    Set<String> visited = driver.getWindowHandles();
    String next = driver.switchTo().newWindow(WindowType.TAB).getWindowHandle();
    for (String window : visited) {
      driver.switchTo().window(window).close();
    }
    driver.switchTo().window(next);
    for (String origin : origins) {
      driver.executeCdpCommand(
          "Storage.clearDataForOrigin", Map.of("origin", origin, "storageTypes", "all"));
    }
    driver.executeCdpCommand("Network.clearBrowserCookies", Map.of());
    driver.executeCdpCommand("Network.clearBrowserCache", Map.of());
    driver.manage().logs().get(LogType.BROWSER);
    origins.clear();
  }

  private static void quitAll() {
    synchronized (IDLE) {
      IDLE.forEach(Chromium::quit);
      IDLE.clear();
    }
  }

  private void quit() {
    driver.quit();
    try (Stream<Path> files = Files.walk(profile)) {
      files.sorted(Comparator.reverseOrder()).forEach(p -> p.toFile().delete());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
